/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What to buy, as JSON and as a list to read. Only colours the piece uses are listed, in the order
 * of the tray; their counts add up to the beads of the drawing. */
#include "config.h"

#include "output/report/likely-rows.h"
#include "output/report/material-words.h"
#include "output/report/order-words.h"
#include "output/report/order.h"
#include "output/report/report-parts.h"
#include "output/report/report.h"
#include "output/report/shopping.h"

#include <glib/gi18n-lib.h>

static void
json_bead (BwAnswer *json, const BwColour *colour, const BwBeadNeed *need, const BwOrderBead *order)
{
  char letter[7] = { 0 };
  g_unichar_to_utf8 (colour->id, letter);
  bw_answer_open_object (json, NULL);
  bw_answer_string (json, "id", letter);
  bw_answer_string (json, "name", colour->name);
  bw_answer_count (json, "count", need->count);
  bw_answer_count (json, "with_spare", need->with_spare);
  bw_answer_number (json, "grams", need->grams);
  bw_answer_count (json, "packs", need->packs);
  bw_answer_string (json, "article", colour->article);
  bw_answer_number (json, "in_hand_g", order->in_hand_g);
  bw_answer_number (json, "order_g", order->order_g);
  bw_answer_count (json, "order_beads", order->order_beads);
  bw_answer_count (json, "order_packs", order->packs);
  bw_answer_close (json);
}

static void
json_beads (BwAnswer *json, const BwTray *tray, const BwOrder *order)
{
  bw_answer_open_array (json, "beads");
  for (int i = 0; i < order->n; i++) {
    int colour = order->bead[i].colour;
    json_bead (json, &tray->colour[colour], &order->materials.need[colour], &order->bead[i]);
  }
  bw_answer_close (json);
}

/* What is there of a thing, and what is to be bought beyond it; in the keys of the list itself. */
static void
json_things (BwAnswer *json, const char *key, const BwOrder *order, gboolean in_hand)
{
  static const char *const keys[BW_N_STASH] = { [BW_STASH_BED_CORD] = "bed_cord_mm",
                                                [BW_STASH_THREAD] = "thread_mm",
                                                [BW_STASH_HANGING_CORD] = "hanging_cord_mm",
                                                [BW_STASH_STOPPER] = "stopper_beads",
                                                [BW_STASH_RING] = "rings",
                                                [BW_STASH_CLASP] = "clasps" };
  bw_answer_open_object (json, key);
  for (int what = BW_STASH_BEADS + 1; what < BW_N_STASH; what++)
    bw_answer_number (json, keys[what],
                      in_hand ? order->thing[what].in_hand : order->thing[what].order);
  bw_answer_number (json, "further_thread_mm",
                    in_hand ? order->further.in_hand : order->further.order);
  bw_answer_close (json);
}

static void
json_cost (BwAnswer *json, const BwMaterials *materials, const char *currency)
{
  if (!materials->has_cost) {
    bw_answer_null (json, "cost");
    return;
  }
  bw_answer_open_object (json, "cost");
  bw_answer_string (json, "currency", currency);
  bw_answer_number (json, "beads", materials->cost.beads);
  bw_answer_number (json, "thread", materials->cost.thread);
  bw_answer_number (json, "bed_cord", materials->cost.bed_cord);
  if (materials->cost.hanging_cord > 0)
    bw_answer_number (json, "hanging_cord", materials->cost.hanging_cord);
  if (materials->cost.findings > 0)
    bw_answer_number (json, "findings", materials->cost.findings);
  bw_answer_number (json, "stone", materials->cost.stone);
  bw_answer_number (json, "labour", materials->cost.labour);
  bw_answer_number (json, "piece", materials->cost.piece);
  bw_answer_number (json, "total", materials->cost.total);
  bw_answer_close (json);
}

/* What passes the bail's loop, and what of metal goes with it. */
static void
json_findings (BwAnswer *json, const BwMaterials *materials, const BwDesign *design)
{
  gboolean hangs = materials->hanging_cord_mm > 0;
  bw_answer_number (json, "hanging_cord_mm", materials->hanging_cord_mm);
  bw_answer_number_if (json, hangs, "hanging_cord_thickness_mm", design->bail.cord_mm);
  bw_answer_number_if (json, hangs, "necklace_mm", design->supply.neck_mm);
  bw_answer_number_if (json, hangs, "closing_mm", design->supply.closing_mm);
  bw_answer_count (json, "clasps", (guint64)materials->clasps);
  bw_answer_count (json, "rings", (guint64)materials->rings);
  bw_answer_number_if (json, materials->rings > 0, "ring_inner_mm", materials->ring.inner_mm);
  bw_answer_number_if (json, materials->rings > 0, "ring_wire_mm", materials->ring.wire_mm);
  bw_answer_number_if (json, materials->rings > 0, "ring_passes_mm", materials->ring.passes_mm);
  bw_answer_number_if (json, hangs, "fitting_most_mm", materials->fitting_most_mm);
}

static void
json_needle (BwAnswer *json, const BwMaterials *materials)
{
  const BwNeedleSize *needle = materials->needle;
  bw_answer_count (json, "needles", (guint64)materials->needles);
  bw_answer_string (json, "needle_size", needle ? needle->number : NULL);
  bw_answer_number_if (json, needle != NULL, "needle_shaft_mm", needle ? needle->shaft_mm : 0);
  bw_answer_number (json, "needle_most_mm", materials->needle_most_mm);
  bw_answer_count (json, "stopper_beads", (guint64)materials->stopper_beads);
}

static char *
materials_json (BwProject *project, int pieces)
{
  const BwDesign *design = bw_project_get_design (project);
  g_autofree BwOrder *order = g_new (BwOrder, 1);
  bw_order_init (order, project, pieces);
  const BwMaterials *materials = &order->materials;
  BwAnswer json;
  bw_answer_init (&json);
  bw_answer_count (&json, "pieces", (guint64)order->pieces);
  bw_answer_string (&json, "bead_size", design->bead.name);
  bw_answer_number (&json, "pack_g", design->supply.pack_g);
  json_beads (&json, bw_project_get_tray (project), order);
  bw_answer_count (&json, "total_beads", materials->total_beads);
  bw_answer_count (&json, "total_with_spare", materials->total_with_spare);
  bw_answer_number (&json, "total_grams", materials->total_grams);
  bw_answer_count (&json, "total_packs", materials->total_packs);
  bw_answer_number (&json, "total_in_hand_g", order->total.in_hand_g);
  bw_answer_number (&json, "total_order_g", order->total.order_g);
  bw_answer_count (&json, "total_order_packs", order->total.packs);
  bw_answer_number (&json, "bed_cord_mm", materials->bed_cord_mm);
  bw_answer_number (&json, "bed_cord_width_mm", design->bed.cord_width_mm);
  bw_answer_number (&json, "thread_mm", materials->thread_mm);
  bw_answer_number (&json, "thread_thickness_mm", design->thread.diameter_mm);
  bw_answer_count (&json, "thread_lengths", materials->thread_lengths);
  bw_answer_count (&json, "thread_rows", (guint64)materials->thread_rows);
  bw_answer_count (&json, "further_rows", (guint64)bw_further_thread (project).rows);
  bw_answer_number (&json, "further_thread_mm", order->further.wanted);
  bw_answer_number (&json, "needle_mm", design->thread.needle_mm);
  json_needle (&json, materials);
  json_findings (&json, materials, design);
  json_things (&json, "in_stash", order, TRUE);
  json_things (&json, "to_buy", order, FALSE);
  json_cost (&json, materials, design->supply.currency);
  bw_answer_number_if (&json, materials->has_cost, "hours", materials->hours);
  bw_answer_warnings (&json, project, BW_TOPIC_MATERIALS, NULL);
  return bw_answer_finish (&json);
}

char *
bw_report_materials (BwProject *project, int pieces, BwUnit unit, gboolean json)
{
  return json ? materials_json (project, pieces) : bw_materials_text (project, pieces, unit);
}

static void
add_bead_row (BwTable *table, const BwColour *colour, const BwBeadNeed *need)
{
  char letter[7] = { 0 };
  g_unichar_to_utf8 (colour->id, letter);
  bw_table_add (table, g_strdup (letter), g_strdup (colour->name), bw_text_count (need->count),
                bw_text_count (need->with_spare), bw_text_number (need->grams, 2),
                bw_text_count (need->packs));
}

void
bw_materials_bead_table (BwTable *table, const BwTray *tray, const BwMaterials *materials)
{
  bw_table_init (table, "llrrrr");
  bw_table_add (table, g_strdup (""), g_strdup (_ ("Beads")), g_strdup (_ ("in the piece")),
                g_strdup (_ ("to buy")), g_strdup (_ ("grams")), g_strdup (_ ("packs")));
  for (int i = 0; i < materials->n_colours; i++)
    if (materials->need[i].count > 0)
      add_bead_row (table, &tray->colour[i], &materials->need[i]);
  bw_table_add (table, g_strdup (""), g_strdup (_ ("in all")),
                bw_text_count (materials->total_beads), bw_text_count (materials->total_with_spare),
                bw_text_number (materials->total_grams, 2), bw_text_count (materials->total_packs));
}

static void
text_beads (GString *text, const BwTray *tray, const BwMaterials *materials)
{
  g_auto (BwTable) table = { 0 };
  bw_materials_bead_table (&table, tray, materials);
  bw_table_write (&table, text, 0);
}

static char *
thread_sentence (const BwMaterials *materials, const BwThread *thread, BwUnit unit)
{
  g_autofree char *length = bw_cut_words (materials->thread_mm, unit);
  g_autofree char *thick = bw_length_format (thread->diameter_mm, unit, 2);
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%s, %s thick, in %d length",
                                       "%s, %s thick, in %d lengths",
                                       (gulong)materials->thread_lengths),
                          length, thick, (int)materials->thread_lengths);
}

static char *
bed_sentence (const BwMaterials *materials, const BwBed *bed, BwUnit unit)
{
  g_autofree char *length = bw_cut_words (materials->bed_cord_mm, unit);
  g_autofree char *wide = bw_length_format (bed->cord_width_mm, unit, 2);
  return materials->bed_cord_mm > 0 ? g_strdup_printf (_ ("%s, %s wide"), length, wide) : NULL;
}

static char *
hanging_sentence (const BwMaterials *materials, const BwBail *bail, BwUnit unit)
{
  g_autofree char *length = bw_cut_words (materials->hanging_cord_mm, unit);
  g_autofree char *thick = bw_length_format (bail->cord_mm, unit, 2);
  return g_strdup_printf (_ ("%s, %s thick"), length, thick);
}

/* Takes words; adds nothing where there are none. With an order, what lies in the stash is told. */
static void
add_thing (BwTable *facts, const char *label, char *words, const BwOrder *order, BwStashWhat what,
           BwUnit unit)
{
  gboolean counted = bw_stash_measure (what) == BW_STASH_BY_COUNT;
  char *told = order ? bw_order_words (words, &order->thing[what], counted, unit) : words;
  if (told)
    bw_text_fact (facts, label, told);
}

/* The cord to hang it on, and what holds that. */
static void
add_hanging (BwTable *facts, const BwMaterials *materials, const BwDesign *design,
             const BwOrder *order, BwUnit unit)
{
  if (materials->hanging_cord_mm <= 0)
    return;
  add_thing (facts, _ ("Hanging cord"), hanging_sentence (materials, &design->bail, unit), order,
             BW_STASH_HANGING_CORD, unit);
  bw_text_fact (facts, _ ("Necklace"), bw_necklace_words (&design->supply, unit));
  add_thing (facts, _ ("Metal ring"), bw_ring_words (materials, unit), order, BW_STASH_RING, unit);
  add_thing (facts, _ ("Clasp"), bw_clasp_words (materials, design, unit), order, BW_STASH_CLASP,
             unit);
}

/* The ends meet when they do: whoever wants a few rows more must not run out of thread. */
void
bw_materials_add_reserve (BwTable *facts, BwProject *project, int pieces, const BwOrder *order,
                          BwUnit unit)
{
  char *words = bw_order_reserve_words (project, pieces, order ? &order->further : NULL, unit);
  if (words)
    bw_text_fact (facts, _ ("Thread in reserve"), words);
}

void
bw_materials_add_other (BwTable *facts, const BwMaterials *materials, const BwDesign *design,
                        const BwOrder *order, BwUnit unit)
{
  bw_text_fact (facts, _ ("Bead size"), g_strdup (design->bead.name));
  add_thing (facts, _ ("Waxed cord for the bed"), bed_sentence (materials, &design->bed, unit),
             order, BW_STASH_BED_CORD, unit);
  add_thing (facts, _ ("Thread"), thread_sentence (materials, &design->thread, unit), order,
             BW_STASH_THREAD, unit);
  bw_text_fact (facts, _ ("Needle"), bw_needle_words (materials, unit));
  add_thing (facts, _ ("Stopper bead"), bw_text_count ((guint64)materials->stopper_beads), order,
             BW_STASH_STOPPER, unit);
  add_hanging (facts, materials, design, order, unit);
}

static void
text_other (GString *text, const BwMaterials *materials, BwProject *project, int pieces,
            BwUnit unit)
{
  g_auto (BwTable) facts = { 0 };
  bw_table_init (&facts, "ll");
  bw_materials_add_other (&facts, materials, bw_project_get_design (project), NULL, unit);
  bw_materials_add_reserve (&facts, project, pieces, NULL, unit);
  g_string_append_c (text, '\n');
  bw_table_write (&facts, text, 0);
}

static void
add_cost (BwTable *table, const char *label, double cost, const char *currency)
{
  bw_table_add (table, g_strdup (label), bw_text_number (cost, 2), g_strdup (currency));
}

void
bw_materials_add_cost (BwTable *table, const BwMaterials *materials, const char *currency)
{
  add_cost (table, _ ("Beads"), materials->cost.beads, currency);
  add_cost (table, _ ("Thread"), materials->cost.thread, currency);
  add_cost (table, _ ("Bed cord"), materials->cost.bed_cord, currency);
  if (materials->cost.hanging_cord > 0)
    add_cost (table, _ ("Hanging cord"), materials->cost.hanging_cord, currency);
  if (materials->cost.findings > 0)
    add_cost (table, _ ("Ring and clasp"), materials->cost.findings, currency);
  add_cost (table, _ ("Stones"), materials->cost.stone, currency);
  add_cost (table, _ ("Work"), materials->cost.labour, currency);
  add_cost (table, _ ("In all"), materials->cost.total, currency);
  add_cost (table, _ ("One piece"), materials->cost.piece, currency);
  bw_table_add (table, g_strdup (_ ("Time at the beads")), bw_hours_words (materials->hours),
                g_strdup (""));
}

static char *
stash_amount (BwStashWhat what, double amount, BwUnit unit)
{
  if (bw_stash_measure (what) == BW_STASH_BY_COUNT)
    return bw_text_number (amount, 0);
  if (bw_stash_measure (what) == BW_STASH_BY_LENGTH)
    return bw_cut_words (amount, unit);
  g_autofree char *number = bw_text_number (amount, 2);
  return g_strdup_printf ("%s g", number);
}

static void
add_stash_row (BwTable *table, BwStashWhat what, const char *name, double there, double order,
               BwUnit unit)
{
  bw_table_add (table, g_strdup (name), stash_amount (what, there, unit),
                stash_amount (what, order, unit));
}

static void
add_stash_things (BwTable *table, const BwOrder *order, BwUnit unit)
{
  const char *const names[BW_N_STASH] = { [BW_STASH_BED_CORD] = _ ("Waxed cord for the bed"),
                                          [BW_STASH_THREAD] = _ ("Thread"),
                                          [BW_STASH_HANGING_CORD] = _ ("Hanging cord"),
                                          [BW_STASH_STOPPER] = _ ("Stopper bead"),
                                          [BW_STASH_RING] = _ ("Metal ring"),
                                          [BW_STASH_CLASP] = _ ("Clasp") };
  for (int what = BW_STASH_BEADS + 1; what < BW_N_STASH; what++) {
    const BwOrderThing *thing = &order->thing[what];
    if (thing->in_stash && thing->wanted > 0)
      add_stash_row (table, (BwStashWhat)what, names[what], thing->in_hand, thing->order, unit);
  }
}

/* Nothing where the stash tells of nothing that is wanted. */
static void
text_stash (GString *text, BwProject *project, int pieces, BwUnit unit)
{
  g_autofree BwOrder *order = g_new (BwOrder, 1);
  g_auto (BwTable) table = { 0 };
  const BwTray *tray = bw_project_get_tray (project);
  bw_order_init (order, project, pieces);
  if (!order->has_stash)
    return;
  bw_table_init (&table, "lrr");
  bw_table_add (&table, g_strdup (_ ("In the stash")), g_strdup (_ ("there")),
                g_strdup (_ ("still to buy")));
  for (int i = 0; i < order->n; i++)
    if (order->bead[i].in_stash)
      add_stash_row (&table, BW_STASH_BEADS, tray->colour[order->bead[i].colour].name,
                     order->bead[i].in_hand_g, order->bead[i].order_g, unit);
  add_stash_things (&table, order, unit);
  if (order->further.in_stash && order->further.wanted > 0)
    add_stash_row (&table, BW_STASH_THREAD, _ ("Thread in reserve"), order->further.in_hand,
                   order->further.order, unit);
  g_string_append_c (text, '\n');
  bw_table_write (&table, text, 0);
}

static void
text_cost (GString *text, const BwMaterials *materials, const char *currency)
{
  if (!materials->has_cost)
    return;
  g_auto (BwTable) table = { 0 };
  bw_table_init (&table, "lrl");
  bw_materials_add_cost (&table, materials, currency);
  g_string_append_c (text, '\n');
  bw_table_write (&table, text, 0);
}

char *
bw_materials_text (BwProject *project, int pieces, BwUnit unit)
{
  const BwDesign *design = bw_project_get_design (project);
  int n = pieces > 0 ? pieces : design->supply.pieces;
  BwMaterials materials;
  bw_shopping_init (&materials, project, pieces);
  g_autofree char *report = g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "materials for %d piece", "materials for %d pieces", (gulong)n),
      n);
  GString *text = g_string_new (NULL);
  bw_text_heading (text, project, report);
  text_beads (text, bw_project_get_tray (project), &materials);
  text_other (text, &materials, project, pieces, unit);
  text_stash (text, project, pieces, unit);
  text_cost (text, &materials, design->supply.currency);
  bw_text_warnings (text, project, BW_TOPIC_MATERIALS, unit);
  return bw_text_done (text);
}
