/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A ruler that counts rows instead of millimetres, at true size: whoever lays the strip on it sees
 * long before the try-on whether the hands weave as was reckoned. */
#include "config.h"

#include "output/sheet/sheet-parts.h"

#include "core/pattern/tint.h"
#include "output/report/report-parts.h"
#include "output/sheet/sheet-facts.h"

#include <glib/gi18n-lib.h>

#define RULER_HEIGHT 34.0
#define LINE 22.0 /* where the ruler's edge lies in its box */

/* One line of the ruler: its left end lies under the end of row `from`, 0 under the edge. */
typedef struct {
  const BwDesign *design;
  double mm; /* points on the page */
  int from, to;
} Line;

static double
x_of (const Line *line, int rows)
{
  double from = line->from > 0 ? bw_strip_length_mm (line->design, line->from) : 0;
  return (bw_strip_length_mm (line->design, rows) - from) * line->mm;
}

static void
draw_ticks (cairo_t *cr, const Line *line)
{
  cairo_set_source_rgb (cr, BW_ON_PAPER (PRINT));
  cairo_set_line_width (cr, 0.5);
  cairo_move_to (cr, 0, LINE);
  cairo_line_to (cr, x_of (line, line->to), LINE);
  cairo_move_to (cr, 0, LINE - 14);
  cairo_line_to (cr, 0, LINE);
  for (int row = MAX (2, line->from + 2); row <= line->to; row += 2) {
    double x = x_of (line, row), tall = row % BW_RULER_STEP == 0         ? 12
                                        : row % (BW_RULER_STEP / 2) == 0 ? 8
                                                                         : 4;
    cairo_move_to (cr, x, LINE - tall);
    cairo_line_to (cr, x, LINE);
  }
  cairo_stroke (cr);
}

static void
draw_line (cairo_t *cr, double width, double height, gpointer data)
{
  const Line *line = data;
  g_autofree char *begins = line->from == 0 ? g_strdup (_ ("edge of the strip"))
                                            : g_strdup_printf (_ ("end of row %d"), line->from);
  draw_ticks (cr, line);
  bw_type_draw (cr, BW_TYPE_TINY, begins, 0, LINE + 2, 0);
  for (int row = (line->from / BW_RULER_STEP + 1) * BW_RULER_STEP; row <= line->to;
       row += BW_RULER_STEP) {
    g_autofree char *number = g_strdup_printf ("%d", row);
    bw_type_draw (cr, BW_TYPE_TINY, number, x_of (line, row), 0, 0.5);
  }
}

/* As many lines as the strip is wider than the page, each of whole steps. */
static void
add_lines (BwFlow *flow, const BwDesign *design, int rows)
{
  Line line = { .design = design, .mm = BW_POINTS_PER_MM / flow->sheet->scale };
  int most = (int)((flow->width - 8) / line.mm / (design->pitch.mm / 2)) - 1;
  int whole = MAX (BW_RULER_STEP, most / BW_RULER_STEP * BW_RULER_STEP);
  for (line.from = 0; line.from < rows; line.from += whole) {
    line.to = MIN (rows, line.from + whole);
    bw_flow_figure (flow, RULER_HEIGHT, draw_line, &line);
  }
}

double
bw_sheet_each_mm (BwUnit unit)
{
  return unit == BW_UNIT_INCH ? 0.1 * BW_MM_PER_INCH : 1;
}

char *
bw_sheet_each_words (BwUnit unit)
{
  return bw_text_length (bw_sheet_each_mm (unit), unit, 0);
}

static void
add_table (BwFlow *flow, const BwDesign *design, int rows)
{
  g_auto (BwTable) table = { 0 };
  int step = bw_ruler_table_step (rows);
  const char *sign = bw_text_unit (flow->unit);
  g_autofree char *each = bw_sheet_each_words (flow->unit);
  bw_table_init (&table, "rrrr");
  bw_table_add (&table, g_strdup (_ ("Row")), g_strdup_printf (_ ("strip, %s"), sign),
                g_strdup_printf (_ ("yours, %s"), sign),
                /* Translators: "1 mm" or "0.1 in". */
                g_strdup_printf (_ ("rows for each %s that differs"), each));
  for (int row = step; row <= rows; row += step)
    bw_table_add (&table, bw_text_count ((guint64)row),
                  bw_text_in (bw_strip_length_mm (design, row), flow->unit, 1),
                  g_strdup ("____________"),
                  bw_text_number (
                      rows / bw_strip_length_mm (design, row) * bw_sheet_each_mm (flow->unit), 1));
  bw_flow_table (flow, &table, NULL, NULL);
}

void
bw_sheet_add_ruler (BwFlow *flow, BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  int rows = design->band.rows;
  if (rows < BW_RULER_STEP)
    return;
  bw_flow_heading (flow, _ ("Row ruler"), 110);
  bw_flow_text (
      flow, BW_TYPE_TEXT,
      _ ("At true size. Lay the strip flat with its first edge on the left end and do not "
         "stretch it: its last row should end at its number. Write down what you "
         "measure."));
  bw_flow_space (flow, 4);
  add_lines (flow, design, rows);
  add_table (flow, design, rows);
  bw_flow_space (flow, 4);
  g_autofree char *each = bw_sheet_each_words (flow->unit);
  g_autofree char *paper = bw_text_length (BW_PAPER_OFF_MM, flow->unit, 1);
  g_autofree char *differs = g_strdup_printf (
      _ ("If yours is longer, the band will close with fewer rows, if it is shorter with more: for "
         "each %s about so many as the last column says. Up to %s is the ruler's. Begin to pull "
         "the ends together so many rows earlier or later than the row of "
         "the first try-on, write the length into the project, which then counts anew, and leave "
         "the last word to the ends. If the difference grows faster than the strip, your tension "
         "changes: weave as at the beginning."),
      each, paper);
  bw_flow_whole (flow, BW_TYPE_TEXT, differs);
}
