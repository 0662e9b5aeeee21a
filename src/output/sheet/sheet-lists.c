/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The lists of the work sheet: what to have at hand, how it will fit and when to try, the lengths
 * of thread. */
#include "config.h"

#include "output/sheet/sheet-parts.h"

#include "core/pattern/tint.h"
#include "output/chart/mark.h"
#include "output/report/material-words.h"
#include "output/report/order.h"
#include "output/report/report-parts.h"
#include "output/report/shopping.h"
#include "output/words/try-on-words.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define LOG 52.0       /* height of the lines to write on */
#define LOG_STRIP 50.0 /* where its second and third column stand */
#define LOG_ENDS 120.0

/* The tray's colours in the order of the table's rows. */
typedef struct {
  const BwTray *tray;
  int colour[BW_TRAY_MAX];
  int n;
} Rows;

static void
draw_swatch (cairo_t *cr, double x, double y, double height, int row, gpointer data)
{
  const Rows *rows = data;
  if (row > rows->n)
    return;
  double tall = MIN (12, height - 2), wide = tall * 1.3;
  y += (height - tall) / 2;
  bw_mark_draw_whole (cr, rows->tray, rows->colour[row - 1], x, y, wide, tall);
}

/* The letter is in the picture of the bead; blanks keep its place. */
static void
blank_letters (BwTable *table)
{
  for (guint i = 0; i < table->rows->len; i++) {
    char **fields = g_ptr_array_index (table->rows, i);
    g_free (fields[0]);
    fields[0] = g_strdup ("        ");
  }
}

static void
add_beads (BwFlow *flow, BwProject *project, const BwMaterials *materials)
{
  Rows rows = { .tray = &flow->tray };
  g_auto (BwTable) table = { 0 };
  bw_materials_bead_table (&table, rows.tray, materials);
  blank_letters (&table);
  for (int i = 0; i < materials->n_colours; i++)
    if (materials->need[i].count > 0)
      rows.colour[rows.n++] = i;
  bw_flow_table (flow, &table, draw_swatch, &rows);
}

/* With an order: what a shop is to send of it, and no tools. */
static void
add_other (BwFlow *flow, BwProject *project, const BwMaterials *materials, int pieces,
           const BwOrder *order)
{
  g_auto (BwTable) facts = { 0 };
  bw_table_init (&facts, "ll");
  bw_table_add (&facts, g_strdup (_ ("Also")), g_strdup (""));
  bw_materials_add_other (&facts, materials, bw_project_get_design (project), order, flow->unit);
  bw_materials_add_reserve (&facts, project, pieces, order, flow->unit);
  if (!order)
    bw_table_add (&facts, g_strdup (_ ("Tools")),
                  g_strdup (_ ("sharp scissors, a ruler, a strip of paper, good light")));
  bw_flow_table (flow, &facts, NULL, NULL);
}

void
bw_sheet_add_materials (BwFlow *flow, BwProject *project, int pieces)
{
  BwMaterials materials;
  bw_shopping_init (&materials, project, pieces);
  g_autofree char *heading
      = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "What you need for %d piece",
                                      "What you need for %d pieces", (gulong)pieces),
                         pieces);
  bw_flow_heading (flow, heading, 60);
  add_beads (flow, project, &materials);
  bw_flow_space (flow, 4);
  add_other (flow, project, &materials, pieces, NULL);
  if (!materials.has_cost || !(flow->sheet->paper.wishes & BW_PRINT_COSTS))
    return;
  g_auto (BwTable) cost = { 0 };
  bw_table_init (&cost, "lrl");
  bw_table_add (&cost, g_strdup (_ ("Cost")), g_strdup (""), g_strdup (""));
  bw_materials_add_cost (&cost, &materials, bw_project_get_design (project)->supply.currency);
  bw_flow_space (flow, 4);
  bw_flow_table (flow, &cost, NULL, NULL);
}

static void
add_order_bead (BwTable *table, const BwColour *colour, const BwOrderBead *bead)
{
  const char *finish = _ (bw_finish_word (colour->finish));
  bw_table_add (table, g_strdup ("        "), g_strdup (colour->name),
                g_strdup_printf ("%s #%06x", finish, colour->srgb), g_strdup (colour->article),
                bw_text_number (bead->grams, 2), bw_text_number (bead->in_hand_g, 2),
                bw_text_number (bead->order_g, 2), bw_text_count (bead->packs));
}

static gboolean
has_articles (const BwTray *tray, const BwOrder *order)
{
  for (int i = 0; i < order->n; i++)
    if (*tray->colour[order->bead[i].colour].article)
      return TRUE;
  return FALSE;
}

#define ARTICLE 3 /* its column in the order list */

static void
add_order_table (BwFlow *flow, BwProject *project, const BwOrder *order)
{
  Rows rows = { .tray = &flow->tray, .n = order->n };
  g_auto (BwTable) table = { 0 };
  bw_table_init (&table, "llllrrrr");
  bw_table_add (&table, g_strdup (""), g_strdup (_ ("Beads")), g_strdup (_ ("Finish, colour")),
                g_strdup (_ ("Article no.")), g_strdup (_ ("takes, g")),
                g_strdup (_ ("in hand, g")), g_strdup (_ ("to order, g")), g_strdup (_ ("packs")));
  for (int i = 0; i < order->n; i++) {
    rows.colour[i] = order->bead[i].colour;
    add_order_bead (&table, &bw_project_get_tray (project)->colour[rows.colour[i]],
                    &order->bead[i]);
  }
  bw_table_add (&table, g_strdup (""), g_strdup (_ ("in all")), g_strdup (""), g_strdup (""),
                bw_text_number (order->total.grams, 2), bw_text_number (order->total.in_hand_g, 2),
                bw_text_number (order->total.order_g, 2), bw_text_count (order->total.packs));
  if (!has_articles (bw_project_get_tray (project), order))
    bw_table_drop (&table, ARTICLE);
  bw_flow_table (flow, &table, draw_swatch, &rows);
}

void
bw_sheet_add_order (BwFlow *flow, BwProject *project, int pieces)
{
  g_autofree BwOrder *order = g_new (BwOrder, 1);
  const BwDesign *design = bw_project_get_design (project);
  bw_order_init (order, project, pieces);
  g_autofree char *what = g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "%s, %d piece; beads: %s, packs of %g g",
                   "%s, %d pieces; beads: %s, packs of %g g", (gulong)pieces),
      flow->sheet->title, pieces, *design->bead.name ? design->bead.name : _ ("cylinder"),
      design->supply.pack_g);
  bw_flow_heading (flow, _ ("Order list"), 100);
  bw_flow_text (flow, BW_TYPE_TEXT, what);
  add_order_table (flow, project, order);
  bw_flow_space (flow, 4);
  add_other (flow, project, &order->materials, pieces, order);
}

/* How wide what stands over a try's lines is set. */
static double
labels_width (cairo_t *cr, const char *last)
{
  int width;
  g_autoptr (PangoLayout) layout = bw_type_layout (cr, BW_TYPE_SMALL, last, 0);
  pango_layout_get_size (layout, &width, NULL);
  return LOG_ENDS + pango_units_to_double (width);
}

/* Lines to write on, two tries side by side where the paper is wide enough. */
static void
draw_log (cairo_t *cr, double width, double height, gpointer data)
{
  const char *unit = data;
  g_autofree char *strip = g_strdup_printf (_ ("strip, %s"), unit);
  g_autofree char *ends = g_strdup_printf (_ ("slack ends, %s or beads"), unit);
  const char *labels[3] = { _ ("row"), strip, ends };
  int sides = labels_width (cr, ends) + 16 < width / 2 ? 2 : 1;
  double at[3] = { 0, LOG_STRIP, LOG_ENDS }, half = width / sides;
  cairo_set_source_rgb (cr, BW_ON_PAPER (HAIR));
  cairo_set_line_width (cr, 0.4);
  for (int side = 0; side < sides; side++) {
    for (int i = 0; i < 3; i++)
      bw_type_draw (cr, BW_TYPE_SMALL, labels[i], side * half + at[i], 0, 0);
    cairo_set_source_rgb (cr, BW_ON_PAPER (HAIR));
    for (int line = 1; line <= 3; line++) {
      cairo_move_to (cr, side * half, 8 + line * (height - 10) / 3);
      cairo_rel_line_to (cr, half - 20, 0);
    }
    cairo_stroke (cr);
  }
}

static void
add_fit_facts (BwFlow *flow, BwProject *project)
{
  const BwForecast *forecast = bw_project_forecast (project);
  const BwDesign *design = bw_project_get_design (project);
  g_auto (BwTable) facts = { 0 };
  bw_table_init (&facts, "ll");
  bw_table_add (&facts, g_strdup (_ ("Fit")), bw_text_verdict (project, flow->unit));
  g_autofree char *counts = bw_words_likely_counts (forecast);
  g_autofree char *pitch = bw_text_length (design->pitch.mm, flow->unit, 3);
  g_autofree char *sd = bw_text_length (design->pitch.sd_mm, flow->unit, 3);
  bw_table_add (
      &facts, g_strdup (_ ("Likely counts")),
      *counts ? g_strdup_printf (_ ("beads round, each with its chance to be right: %s"), counts)
              : g_strdup (_ ("none stands out: weave a swatch first")));
  bw_table_add (
      &facts, g_strdup (_ ("First try-on")),
      g_strdup_printf (_ ("after row %d, then at every second row"), forecast->try_on_row));
  bw_table_add (&facts, g_strdup (_ ("Bead to bead")),
                g_strdup_printf (_ ("%s along the strip, known to ± %s"), pitch, sd));
  bw_flow_facts (flow, &facts);
}

void
bw_sheet_add_fit (BwFlow *flow, BwProject *project)
{
  bw_flow_heading (flow, _ ("The fit and the try-on"), 60);
  add_fit_facts (flow, project);
  g_autofree char *text = g_strdup_printf (
      _ ("No calculation knows your hands. %s %s Measure the strip lying flat, from edge to edge, "
         "and write it down:"),
      bw_try_on_words_procedure (), bw_try_on_words_reading ());
  bw_flow_text (flow, BW_TYPE_TEXT, text);
  bw_flow_figure (flow, LOG, draw_log, (gpointer)bw_text_unit (flow->unit));
  bw_flow_space (flow, 4);
}

static char *
step_name (const BwDesign *design, int step)
{
  int rows = design->band.rows;
  if (step <= rows)
    return g_strdup_printf (_ ("row %d"), step);
  if (step == rows + 1)
    return g_strdup (_ ("the zip"));
  if (step == rows + 2)
    return g_strdup (_ ("the return and anchors"));
  return g_strdup_printf (_ ("pass %d of the bail and its sewing"), step - rows - 2);
}

void
bw_sheet_add_thread (BwFlow *flow, BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  const GArray *lengths = bw_project_path (project)->lengths;
  g_auto (BwTable) table = { 0 };
  bw_table_init (&table, "rlll");
  bw_table_add (&table, g_strdup (_ ("Length")), g_strdup (_ ("cut")), g_strdup (_ ("from")),
                g_strdup (_ ("up to and including")));
  for (guint i = 0; i < lengths->len; i++) {
    const BwThreadLength *length = &g_array_index (lengths, BwThreadLength, i);
    gboolean last = i + 1 == lengths->len;
    bw_table_add (&table, g_strdup_printf ("%u", i + 1),
                  bw_cut_words (length->length_mm, flow->unit),
                  step_name (design, length->from_row),
                  last ? g_strdup (_ ("the end")) : step_name (design, length->to_row));
  }
  bw_flow_heading (flow, _ ("The thread, and where to change it"), MIN (lengths->len, 8) * 16 + 60);
  bw_flow_table (flow, &table, NULL, NULL);
  g_autofree char *tail = bw_text_length (design->thread.tail_mm, flow->unit, 0);
  g_autofree char *text = g_strdup_printf (_ ("Change only at the end of a pass. Leave %s at "
                                              "both ends of every length; how they are "
                                              "woven in is drawn further on."),
                                           tail);
  bw_flow_text (flow, BW_TYPE_TEXT, text);
}
