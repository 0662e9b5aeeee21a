/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The materials as one flat table for a spreadsheet. quantity is what to buy for all pieces, in
 * unit; count is what one piece takes. */
#include "output/report/csv.h"

#include "core/base/tolerance.h"
#include "project/json/json-write.h"
#include "output/report/report.h"
#include "output/report/shopping.h"
#include <math.h>

enum { ITEM, LETTER, NAME, COUNT, QUANTITY, UNIT, GRAMS, PACKS, N_FIELDS };

/* A shopping list is read by people: a hundredth of a gram or of the currency is as much as a scale
 * or a purse shows, a thousandth of a millimetre as much as a gauge. */
static char *
digits (double value, int parts)
{
  GString *text = g_string_new (NULL);
  bw_json_append_number (text, round (value * parts) / parts + 0.0);
  return g_string_free (text, FALSE);
}

/* What is cut to length, up to the next whole millimetre: less would be too short. */
static double
cut (double mm)
{
  return ceil (mm - BW_ROUNDING_MM);
}

static void
add_bead (GString *csv, const BwColour *colour, const BwBeadNeed *need)
{
  char letter[7] = { 0 };
  g_unichar_to_utf8 (colour->id, letter);
  g_autofree char *count = g_strdup_printf ("%" G_GUINT64_FORMAT, need->count);
  g_autofree char *quantity = g_strdup_printf ("%" G_GUINT64_FORMAT, need->with_spare);
  g_autofree char *grams = digits (need->grams, 100);
  g_autofree char *packs = g_strdup_printf ("%" G_GUINT64_FORMAT, need->packs);
  const char *fields[N_FIELDS] = {
    [ITEM] = "bead",       [LETTER] = letter, [NAME] = colour->name, [COUNT] = count,
    [QUANTITY] = quantity, [UNIT] = "beads",  [GRAMS] = grams,       [PACKS] = packs,
  };
  bw_csv_record (csv, fields, N_FIELDS);
}

static void
add_item (GString *csv, const char *item, const char *name, double quantity, const char *unit)
{
  g_autofree char *number = digits (quantity, 100);
  const char *fields[N_FIELDS]
      = { [ITEM] = item, [NAME] = name, [QUANTITY] = number, [UNIT] = unit };
  bw_csv_record (csv, fields, N_FIELDS);
}

static char *
millimetres (double mm)
{
  g_autofree char *number = digits (mm, 1000);
  return g_strconcat (number, " mm", NULL);
}

static void
add_cords (GString *csv, const BwMaterials *materials, const BwDesign *design)
{
  g_autofree char *bed = millimetres (design->bed.cord_width_mm);
  g_autofree char *thread = millimetres (design->thread.diameter_mm);
  g_autofree char *needle = materials->needle
                                ? g_strconcat ("size ", materials->needle->number, NULL)
                                : millimetres (materials->needle_most_mm);
  g_autofree char *hanging = millimetres (design->bail.cord_mm);
  add_item (csv, "bed cord", bed, cut (materials->bed_cord_mm), "mm");
  add_item (csv, "thread", thread, cut (materials->thread_mm), "mm");
  add_item (csv, "thread lengths", thread, (double)materials->thread_lengths, "lengths");
  add_item (csv, "needle", needle, materials->needles, "pieces");
  add_item (csv, "stopper bead", NULL, materials->stopper_beads, "pieces");
  if (materials->hanging_cord_mm > 0)
    add_item (csv, "hanging cord", hanging, cut (materials->hanging_cord_mm), "mm");
  if (materials->rings > 0)
    add_item (csv, "metal ring", "closed", materials->rings, "pieces");
  if (materials->clasps > 0)
    add_item (csv, "clasp", hanging, materials->clasps, "pieces");
}

static void
add_costs (GString *csv, const BwMaterials *materials, const char *currency)
{
  if (!materials->has_cost)
    return;
  add_item (csv, "cost", "beads", materials->cost.beads, currency);
  add_item (csv, "cost", "thread", materials->cost.thread, currency);
  add_item (csv, "cost", "bed cord", materials->cost.bed_cord, currency);
  add_item (csv, "cost", "hanging cord", materials->cost.hanging_cord, currency);
  add_item (csv, "cost", "findings", materials->cost.findings, currency);
  add_item (csv, "cost", "stone", materials->cost.stone, currency);
  add_item (csv, "cost", "labour", materials->cost.labour, currency);
  add_item (csv, "cost of all pieces", NULL, materials->cost.total, currency);
  add_item (csv, "cost of one piece", NULL, materials->cost.piece, currency);
  add_item (csv, "work", NULL, materials->hours, "hours");
}

char *
bw_materials_csv (BwProject *project, int pieces)
{
  static const char *const header[N_FIELDS]
      = { "item", "letter", "name", "count", "quantity", "unit", "grams", "packs" };
  const BwDesign *design = bw_project_get_design (project);
  const BwTray *tray = bw_project_get_tray (project);
  BwMaterials materials;
  bw_shopping_init (&materials, project, pieces);
  GString *csv = g_string_new (NULL);
  bw_csv_record (csv, header, N_FIELDS);
  for (int i = 0; i < materials.n_colours; i++)
    if (materials.need[i].count > 0)
      add_bead (csv, &tray->colour[i], &materials.need[i]);
  add_cords (csv, &materials, design);
  add_costs (csv, &materials, design->supply.currency);
  return g_string_free (csv, FALSE);
}
