/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The words are taken as their plain text has them: a row's numbers come first in it, whatever the
 * language, and two blanks part them from the beads. */
#include "config.h"

#include "output/sheet/bench-rows.h"

#include "core/band/join.h"
#include "core/base/tolerance.h"
#include "core/pattern/tint.h"
#include "output/sheet/sheet-parts.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define TICK 15.0 /* room for a row's box */
#define BOX 9.0
#define BOX_STEP 12.0
#define TEN 6.0           /* more after ten boxes */
#define NUMBER_MOST 124.0 /* room for a row's number */
#define NUMBER_SHARE 0.27 /* of the width, where that is less */
#define AFTER_NUMBER 6.0
#define BEFORE_BOXES 8.0
#define LEAST_LEADER 24.0
#define LINES_IN_TURN 2 /* below the number of rows that alternate */
#define ROW_GAP 5.0
#define LEAST_REPEAT 6 /* rows: less is told as equal or alternating rows */

static double
tall (PangoLayout *layout)
{
  int height;
  pango_layout_get_size (layout, NULL, &height);
  return pango_units_to_double (height);
}

static double
wide (PangoLayout *layout)
{
  int width;
  pango_layout_get_size (layout, &width, NULL);
  return pango_units_to_double (width);
}

/* Room for the numbers of the band's rows, each a row by itself. */
static double
number_room (const BwBenchRows *rows)
{
  int last = bw_project_get_design (rows->project)->band.rows;
  /* The words' own line of a row, without beads. */
  g_autofree char *text = g_strdup_printf (_ ("Row %d %s  %s\n"), last, "↑", "");
  g_autoptr (PangoLayout) longest
      = bw_type_layout (rows->flow->cr, BW_TYPE_BENCH_BOLD, g_strstrip (text), 0);
  return MAX (wide (longest) + AFTER_NUMBER, MIN (NUMBER_MOST, NUMBER_SHARE * rows->flow->width));
}

static void
show (BwFlow *flow, PangoLayout *layout, double x)
{
  cairo_set_source_rgb (flow->cr, BW_ON_PAPER (PRINT));
  cairo_move_to (flow->cr, flow->left + x, flow->y);
  pango_cairo_update_layout (flow->cr, layout);
  pango_cairo_show_layout (flow->cr, layout);
  cairo_new_path (flow->cr);
}

static void
draw_box (BwFlow *flow, double x, double y)
{
  cairo_rectangle (flow->cr, flow->left + x, y, BOX, BOX);
  cairo_set_source_rgb (flow->cr, BW_ON_PAPER (NOTE));
  cairo_set_line_width (flow->cr, 0.6);
  cairo_stroke (flow->cr);
}

static double
width_of (int n)
{
  return (n - 1) * BOX_STEP + (n - 1) / 10 * TEN + BOX;
}

/* How many of n boxes go on a line from x on: all, or whole tens where tens go. */
static int
boxes_a_line (const BwFlow *flow, int n, double x)
{
  double room = flow->width - x + BOX_STEP - BOX;
  if (width_of (n) <= flow->width - x + BW_ROUNDING_MM)
    return n;
  int tens = (int)((room + TEN) / (10 * BOX_STEP + TEN));
  return tens > 0 ? 10 * tens : MAX (1, (int)(room / BOX_STEP));
}

static double
boxes_height (const BwFlow *flow, int n, double x)
{
  int a_line = boxes_a_line (flow, n, x);
  return (n + a_line - 1) / a_line * BOX_STEP;
}

/* n boxes from x on, lines of them one below the other. */
static void
draw_boxes (BwFlow *flow, int n, double x, double y)
{
  int a_line = boxes_a_line (flow, n, x);
  for (int i = 0; i < n; i++) {
    int at = i % a_line;
    draw_box (flow, x + at * BOX_STEP + at / 10 * TEN, y + i / a_line * BOX_STEP);
  }
}

/* The first two numbers of a label; equal where there is one; FALSE where there is none. */
static gboolean
rows_of (const char *label, int *first, int *last)
{
  const char *at = label + strcspn (label, "0123456789");
  if (!*at)
    return FALSE;
  *first = *last = (int)g_ascii_strtoull (at, (char **)&at, 10);
  at += strcspn (at, "0123456789");
  if (*at)
    *last = (int)g_ascii_strtoull (at, NULL, 10);
  return *last >= *first;
}

/* A rule under every tenth row keeps the place. */
static void
rule_tens (BwFlow *flow, int first, int last)
{
  if (last / 10 == (first - 1) / 10)
    return;
  cairo_set_source_rgb (flow->cr, BW_ON_PAPER (HAIR));
  cairo_set_line_width (flow->cr, 0.5);
  cairo_move_to (flow->cr, flow->left, flow->y - ROW_GAP / 2);
  cairo_rel_line_to (flow->cr, flow->width, 0);
  cairo_stroke (flow->cr);
}

/* Room for a row; a page that begins with rows begins with the key to their letters. */
static void
make_room (BwBenchRows *rows, double height)
{
  BwFlow *flow = rows->flow;
  bw_flow_room (flow, height);
  if (flow->y <= flow->top && !rows->keyless)
    bw_sheet_add_key (flow, rows->project);
}

/* Leads the eye to boxes that stand far off. */
static void
draw_leader (BwFlow *flow, double from, double to)
{
  if (to - from < LEAST_LEADER)
    return;
  cairo_set_source_rgb (flow->cr, BW_ON_PAPER (HAIR));
  cairo_set_line_width (flow->cr, 0.5);
  cairo_set_dash (flow->cr, (double[]){ 0.5, 3.5 }, 2, 0);
  cairo_move_to (flow->cr, flow->left + from, flow->y + 4 + BOX);
  cairo_rel_line_to (flow->cr, to - from, 0);
  cairo_stroke (flow->cr);
  cairo_set_dash (flow->cr, NULL, 0, 0);
}

/* A row: its number, its beads beside it, or below it where the number is long. `more`: it goes on
 * in the next lines, which must stay with it. Boxes of several rows stand at the right edge, below
 * one another. */
static void
add_row (BwBenchRows *rows, const char *number, const char *beads, gboolean goes_on, int n,
         double more)
{
  BwFlow *flow = rows->flow;
  double room = number_room (rows), indent = goes_on ? room - 22 : 0;
  g_autoptr (PangoLayout) label = bw_type_layout (flow->cr, BW_TYPE_BENCH_BOLD, number, 0);
  g_autoptr (PangoLayout) layout
      = bw_bead_words_bench (rows->beads, flow->cr, beads, flow->width - TICK - room);
  gboolean below = *beads && indent + wide (label) > room - AFTER_NUMBER;
  double first = below ? tall (label) : 0, height = *beads ? tall (layout) : tall (label);
  double end = TICK + (*beads && !below ? room + wide (layout) : indent + wide (label));
  double boxes_x = flow->width - width_of (boxes_a_line (flow, n, 0));
  gboolean beside = n > 1 && end + BEFORE_BOXES <= boxes_x
                    && (below || pango_layout_get_line_count (layout) == 1);
  double boxes = n > 1 && !beside ? boxes_height (flow, n, 0) : 0;
  make_room (rows, first + height + boxes + more);
  if (n == 1)
    draw_box (flow, 0, flow->y + 4);
  if (beside) {
    draw_leader (flow, end + BEFORE_BOXES, boxes_x - BEFORE_BOXES);
    draw_boxes (flow, n, boxes_x, flow->y + 4);
  }
  show (flow, label, TICK + indent);
  flow->y += first;
  show (flow, layout, TICK + room);
  flow->y += height;
  if (boxes > 0)
    draw_boxes (flow, n, boxes_x, flow->y + 1);
  flow->y += boxes + ROW_GAP;
}

/* What rows of the repeat are called. Owned. */
static char *
repeated_label (int first, int last)
{
  /* Translators: first and last row. */
  return g_strdup_printf (_ ("Rows %d–%d"), first, last);
}

/* x: where its boxes begin. */
static void
add_repeated (BwBenchRows *rows, int first, int last, double x)
{
  BwFlow *flow = rows->flow;
  g_autofree char *label = repeated_label (first, last);
  g_autoptr (PangoLayout) number = bw_type_layout (flow->cr, BW_TYPE_BENCH_BOLD, label, 0);
  double height
      = MAX (boxes_height (flow, last - first + 1, x) + 4, bw_type_height (BW_TYPE_BENCH_BOLD));
  bw_flow_room (flow, height);
  show (flow, number, TICK);
  draw_boxes (flow, last - first + 1, x, flow->y + 4);
  flow->y += height + ROW_GAP;
}

/* One place for the boxes of all repeats, right of the longest label. */
static double
repeat_boxes_x (const BwBenchRows *rows, int all)
{
  g_autofree char *label = repeated_label (all, all);
  g_autoptr (PangoLayout) longest = bw_type_layout (rows->flow->cr, BW_TYPE_BENCH_BOLD, label, 0);
  return TICK + MAX (number_room (rows), wide (longest) + AFTER_NUMBER);
}

/* The rest of the band, which is the rows 3 to repeat + 2 over and over. */
static void
add_repeat (BwBenchRows *rows)
{
  int k = rows->repeat, all = bw_project_get_design (rows->project)->band.rows;
  int times = (all - k - 2 + k - 1) / k;
  /* Translators: the last row of the repeat, how often it is woven again, the last row of all. */
  g_autofree char *text = g_strdup_printf (
      g_dngettext (
          GETTEXT_PACKAGE, "Repeat rows 3 to %d: %d time, up to row %d. Tick each row here.",
          "Repeat rows 3 to %d: %d times, up to row %d. Tick each row here.", (gulong)times),
      k + 2, times, all);
  bw_flow_space (rows->flow, 4);
  bw_flow_room (rows->flow, 60);
  bw_flow_text (rows->flow, BW_TYPE_BOLD, text);
  double x = repeat_boxes_x (rows, all);
  for (int first = k + 3; first <= all; first += k)
    add_repeated (rows, first, MIN (first + k - 1, all), x);
  rows->folded = TRUE;
}

void
bw_bench_rows_begin (BwBenchRows *rows, gboolean in_band)
{
  const BwDrawing *drawing = bw_project_get_drawing (rows->project);
  int repeat = in_band ? bw_join_repeat (drawing) : 0;
  gboolean pays = repeat >= LEAST_REPEAT && bw_drawing_rows (drawing) >= 2 * repeat + 2;
  rows->repeat = pays ? repeat : 0;
  rows->folded = FALSE;
  rows->last = 0;
}

void
bw_bench_rows_line (BwBenchRows *rows, const char *line)
{
  const char *text = line + strspn (line, " "), *parting = strstr (text, "  ");
  gboolean goes_on = text > line;
  g_autofree char *number = parting ? g_strndup (text, (gsize)(parting - text)) : g_strdup (text);
  const char *beads = parting ? parting + strspn (parting, " ") : "";
  int first = 0, last = 0;
  gboolean counted = !goes_on && rows_of (number, &first, &last);
  if (counted)
    rows->last = last;
  if (rows->repeat > 0 && counted && first > rows->repeat + 2 && !rows->folded)
    add_repeat (rows);
  if (rows->folded)
    return;
  /* Rows 1 and 2 are one pick-up. */
  int boxes = last == 2 ? 1 : last - first + 1;
  add_row (rows, number, beads, goes_on, counted ? boxes : 0,
           parting ? 0 : 2 * (bw_type_height (BW_TYPE_BENCH) + ROW_GAP));
  if (counted) {
    rows->first = first;
    rows->lines = parting ? 0 : LINES_IN_TURN;
  } else if (rows->lines == 0 || --rows->lines > 0) {
    return;
  }
  if (rows->lines == 0)
    rule_tens (rows->flow, rows->first, rows->last);
}

char *
bw_bench_rows_event (const BwBenchRows *rows, const char *sentence)
{
  if (!rows->folded)
    return g_strdup (sentence);
  /* Translators: what is to be done between two rows. */
  return g_strdup_printf (_ ("After row %d: %s"), rows->last, sentence);
}
