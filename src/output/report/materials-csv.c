/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The order list as one flat table for a spreadsheet: count is what one piece takes, quantity what
 * all of them do, in unit; grams and packs are what is to be ordered, what is in hand taken off. Of
 * cord, thread and findings what is in the stash and what is still to buy are in unit as well. */
#include "output/report/csv.h"

#include "core/base/tolerance.h"
#include "output/report/likely-rows.h"
#include "output/report/order.h"
#include "output/report/report.h"
#include "project/json/json-write.h"

#include <math.h>

enum {
  ITEM,
  LETTER,
  NAME,
  COUNT,
  QUANTITY,
  UNIT,
  GRAMS,
  PACKS,
  ARTICLE,
  SIZE,
  FINISH,
  COLOUR,
  NEEDED_G,
  IN_HAND_G,
  ORDER_BEADS,
  IN_STASH,
  TO_BUY,
  N_FIELDS
};

/* A shopping list is read by people: a hundredth of a gram or a metre is as much as a scale or a
 * tape shows, a thousandth of a millimetre as much as a gauge. */
static char *
digits (double value, int parts)
{
  GString *text = g_string_new (NULL);
  bw_json_append_number (text, round (value * parts) / parts + 0.0);
  return g_string_free (text, FALSE);
}

static char *
whole (guint64 number)
{
  return g_strdup_printf ("%" G_GUINT64_FORMAT, number);
}

#define M_PER_MM 0.001

/* What is cut to length, in metres up to the next centimetre: less would be too short. */
static double
cut (double mm)
{
  return ceil (mm / 10 - BW_ROUNDING_MM) / 100;
}

/* fields: what is particular to the record; the numbers are the same for a colour and for all. */
static void
add_beads (GString *csv, const char **fields, const BwOrderBead *bead, guint64 in_piece)
{
  g_autofree char *count = whole (in_piece), *quantity = whole (bead->beads);
  g_autofree char *packs = whole (bead->packs), *beads = whole (bead->order_beads);
  g_autofree char *needed = digits (bead->grams, 100), *grams = digits (bead->order_g, 100);
  g_autofree char *in_hand = digits (bead->in_hand_g, 100);
  fields[COUNT] = count;
  fields[QUANTITY] = quantity;
  fields[UNIT] = "beads";
  fields[GRAMS] = grams;
  fields[PACKS] = packs;
  fields[NEEDED_G] = needed;
  fields[IN_HAND_G] = in_hand;
  fields[ORDER_BEADS] = beads;
  bw_csv_record (csv, fields, N_FIELDS);
}

static void
add_bead (GString *csv, const BwColour *colour, const BwOrderBead *bead, guint64 in_piece,
          const char *size)
{
  char letter[7] = { 0 };
  g_unichar_to_utf8 (colour->id, letter);
  g_autofree char *srgb = g_strdup_printf ("#%06x", colour->srgb);
  const char *fields[N_FIELDS] = {
    [ITEM] = "bead",       [LETTER] = letter,
    [NAME] = colour->name, [ARTICLE] = colour->article,
    [SIZE] = size,         [FINISH] = bw_finish_word (colour->finish),
    [COLOUR] = srgb,
  };
  add_beads (csv, fields, bead, in_piece);
}

/* thing: what is there of it; NULL where the stash keeps no such. scale: of its numbers to unit. */
static void
add_thing (GString *csv, const char *item, const char *name, double quantity, const char *unit,
           const BwOrderThing *thing, double scale)
{
  g_autofree char *number = digits (quantity, 100);
  g_autofree char *there = thing ? digits (floor (100 * thing->in_hand * scale) / 100, 100) : NULL;
  g_autofree char *order
      = thing ? digits (ceil (100 * thing->order * scale - BW_ROUNDING_MM) / 100, 100) : NULL;
  const char *fields[N_FIELDS] = { [ITEM] = item, [NAME] = name,      [QUANTITY] = number,
                                   [UNIT] = unit, [IN_STASH] = there, [TO_BUY] = order };
  bw_csv_record (csv, fields, N_FIELDS);
}

static void
add_item (GString *csv, const char *item, const char *name, double quantity, const char *unit)
{
  add_thing (csv, item, name, quantity, unit, NULL, 1);
}

static char *
millimetres (double mm)
{
  g_autofree char *number = digits (mm, 1000);
  return g_strconcat (number, " mm", NULL);
}

static void
add_cords (GString *csv, BwProject *project, const BwOrder *order)
{
  const BwDesign *design = bw_project_get_design (project);
  const BwMaterials *materials = &order->materials;
  const BwOrderThing *thing = order->thing;
  g_autofree char *bed = millimetres (design->bed.cord_width_mm);
  g_autofree char *thread = millimetres (design->thread.diameter_mm);
  g_autofree char *needle = materials->needle
                                ? g_strconcat ("size ", materials->needle->number, NULL)
                                : millimetres (materials->needle_most_mm);
  g_autofree char *hanging = millimetres (design->bail.cord_mm);
  add_thing (csv, "bed cord", bed, cut (materials->bed_cord_mm), "m", &thing[BW_STASH_BED_CORD],
             M_PER_MM);
  add_thing (csv, "thread", thread, cut (materials->thread_mm), "m", &thing[BW_STASH_THREAD],
             M_PER_MM);
  add_item (csv, "thread lengths", thread, (double)materials->thread_lengths, "lengths");
  if (order->further.wanted > 0)
    add_thing (csv, "thread in reserve", thread, cut (order->further.wanted), "m", &order->further,
               M_PER_MM);
  add_item (csv, "needle", needle, materials->needles, "pieces");
  add_thing (csv, "stopper bead", NULL, materials->stopper_beads, "pieces",
             &thing[BW_STASH_STOPPER], 1);
  if (materials->hanging_cord_mm > 0)
    add_thing (csv, "hanging cord", hanging, cut (materials->hanging_cord_mm), "m",
               &thing[BW_STASH_HANGING_CORD], M_PER_MM);
  if (materials->rings > 0)
    add_thing (csv, "metal ring", "closed", materials->rings, "pieces", &thing[BW_STASH_RING], 1);
  if (materials->clasps > 0)
    add_thing (csv, "clasp", hanging, materials->clasps, "pieces", &thing[BW_STASH_CLASP], 1);
}

char *
bw_materials_csv (BwProject *project, int pieces)
{
  static const char *const header[N_FIELDS]
      = { "item",     "letter",    "name",        "count",    "quantity", "unit",
          "grams",    "packs",     "article",     "size",     "finish",   "colour",
          "needed g", "in hand g", "order beads", "in stash", "to buy" };
  const BwDesign *design = bw_project_get_design (project);
  const BwTray *tray = bw_project_get_tray (project);
  g_autofree BwOrder *order = g_new (BwOrder, 1);
  bw_order_init (order, project, pieces);
  GString *csv = g_string_new (NULL);
  bw_csv_record (csv, header, N_FIELDS);
  for (int i = 0; i < order->n; i++) {
    int colour = order->bead[i].colour;
    add_bead (csv, &tray->colour[colour], &order->bead[i], order->materials.need[colour].count,
              design->bead.name);
  }
  add_beads (csv, (const char *[N_FIELDS]){ [ITEM] = "all beads" }, &order->total,
             order->materials.total_beads);
  add_cords (csv, project, order);
  add_item (csv, "design", bw_project_get_title (project), order->pieces, "pieces");
  return g_string_free (csv, FALSE);
}
