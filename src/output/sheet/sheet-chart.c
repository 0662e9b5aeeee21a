/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The chart on paper: lines of the band from left to right and from top to bottom, as many to a
 * page as go; a band wider than the page is cut along its columns too. */
#include "config.h"

#include "output/sheet/sheet-parts.h"

#include "core/pattern/tint.h"
#include "output/chart/chart.h"
#include "output/chart/mark.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define PITCH 13.6      /* of a bead along the rows: room for a letter of 6 points */
#define LEAST_PITCH 9.0 /* a letter of 4 points can still be read */
#define AGAIN_ROWS 4
#define AGAIN_COLUMNS 2
#define LABEL 14.0  /* above a line: what it shows */
#define WORDS 110.0 /* how it is read, and the key of a few colours */
#define FLAGS 9.0   /* above a line with flags: room for them */

typedef struct {
  BwFlow *flow;
  BwChart chart;
  int rows, columns;
  int rows_a_line, columns_a_line;
  GArray *flags; /* of Flag, what to do at a row; NULL: nothing */
} Layout;

typedef struct {
  int row;
  const char *text;
} Flag;

static void
part_size (const Layout *layout, int rows, int columns, double *width, double *height)
{
  BwChartPart part = { 1, rows, 1, columns, 0, 0 };
  bw_chart_part_size (&layout->chart, &part, width, height);
}

static void
set_pitch (Layout *layout, double pitch)
{
  const BwDesign *design = bw_project_get_design (layout->chart.project);
  layout->chart.pitch = pitch;
  /* Hands that set beads far apart still get a bead one can write into. */
  layout->chart.column = pitch * CLAMP (design->gauge.column_mm / design->gauge.pitch_mm, 0.6, 1.4);
}

/* Lines of one length look better, and none is a stub. */
static void
balance (Layout *layout)
{
  int step = layout->rows_a_line - AGAIN_ROWS;
  int lines = MAX (1, (layout->rows - AGAIN_ROWS + step - 1) / step);
  int each = (layout->rows + (lines - 1) * AGAIN_ROWS + lines - 1) / lines;
  layout->rows_a_line = MIN (layout->rows_a_line, MAX (AGAIN_ROWS + 2, each + each % 2));
}

/* The largest beads with which the whole width of the band fits the page, else the smallest that
 * can be read and as many columns as then fit. */
static void
choose (Layout *layout)
{
  double most = layout->flow->bottom - layout->flow->top - LABEL - 30, width, height;
  for (double pitch = PITCH; pitch >= LEAST_PITCH; pitch -= 0.2) {
    set_pitch (layout, pitch);
    part_size (layout, 1, layout->columns, &width, &height);
    if (height <= most)
      break;
  }
  layout->columns_a_line = layout->columns;
  for (; height > most; part_size (layout, 1, layout->columns_a_line, &width, &height))
    layout->columns_a_line--;
  part_size (layout, 1, 1, &width, &height);
  layout->rows_a_line = 1 + (int)floor (2 * (layout->flow->width - width) / layout->chart.pitch);
  layout->rows_a_line = MAX (AGAIN_ROWS + 2, layout->rows_a_line & ~1);
  balance (layout);
}

static gboolean
has_flag (const Layout *layout, const BwChartPart *part)
{
  for (guint i = 0; layout->flags && i < layout->flags->len; i++) {
    int row = g_array_index (layout->flags, Flag, i).row;
    if (row >= part->first_row + part->again_rows && row <= part->last_row)
      return TRUE;
  }
  return FALSE;
}

/* A flag stands to the right of its row's line, near the page's edge to the left. */
static void
draw_flags (const Layout *layout, const BwChartPart *part, cairo_t *cr, double y)
{
  for (guint i = 0; layout->flags && i < layout->flags->len; i++) {
    const Flag *flag = &g_array_index (layout->flags, Flag, i);
    if (flag->row < part->first_row + part->again_rows || flag->row > part->last_row)
      continue;
    double x = bw_chart_row_x (&layout->chart, part, flag->row);
    gboolean left = x > layout->flow->width - 60;
    cairo_move_to (cr, x, y + 8);
    cairo_rel_line_to (cr, -3, -5);
    cairo_rel_line_to (cr, 6, 0);
    cairo_close_path (cr);
    cairo_set_source_rgb (cr, BW_ON_PAPER (PRINT));
    cairo_fill (cr);
    bw_type_draw (cr, BW_TYPE_SMALL, flag->text, left ? x - 5 : x + 5, y - 1, left ? 1 : 0);
  }
}

static void
draw_part (Layout *layout, const BwChartPart *part)
{
  BwFlow *flow = layout->flow;
  double width, height;
  bw_chart_part_size (&layout->chart, part, &width, &height);
  double label = has_flag (layout, part) ? LABEL + FLAGS : LABEL;
  bw_flow_room (flow, height + label);
  g_autofree char *rows
      = g_strdup_printf (_ ("rows %d to %d"), part->first_row + part->again_rows, part->last_row);
  g_autofree char *columns
      = g_strdup_printf (_ ("%s, columns %d to %d"), rows, part->first_column + part->again_columns,
                         part->last_column);
  bw_type_draw (flow->cr, BW_TYPE_SMALL,
                part->last_column - part->first_column + 1 == layout->columns ? rows : columns,
                flow->left, flow->y, 0);
  cairo_save (flow->cr);
  cairo_translate (flow->cr, flow->left, flow->y + label - 3);
  draw_flags (layout, part, flow->cr, -9);
  bw_chart_draw (&layout->chart, part, flow->cr);
  cairo_restore (flow->cr);
  flow->y += height + label;
}

/* The lines of some columns, each after the first beginning with the last rows of the one before.
 */
static void
draw_rows (Layout *layout, int first_column, int last_column, int again_columns)
{
  for (int done = 0; done < layout->rows;) {
    int again = done > 0 ? MIN (AGAIN_ROWS, done) : 0;
    int first = done - again + 1;
    int last = MIN (layout->rows, first + layout->rows_a_line - 1);
    BwChartPart part = { first, last, first_column, last_column, again, again_columns };
    draw_part (layout, &part);
    done = last;
  }
}

static void
draw_chart (Layout *layout)
{
  for (int done = 0; done < layout->columns;) {
    int again = done > 0 ? AGAIN_COLUMNS : 0;
    int first = done - again + 1;
    int last = MIN (layout->columns, first + layout->columns_a_line - 1);
    draw_rows (layout, first, last, again);
    done = last;
  }
}

typedef struct {
  const BwTray *tray;
  GArray *colours; /* of int: those in use */
  int a_row;
} Key;

#define KEY_ROW 17.0

static void
draw_key (cairo_t *cr, double width, double height, gpointer data)
{
  const Key *key = data;
  const BwTray *tray = key->tray;
  double step = width / key->a_row;
  for (guint i = 0; i < key->colours->len; i++) {
    int colour = g_array_index (key->colours, int, i);
    double x = (i % (guint)key->a_row) * step, y = floor (i / (guint)key->a_row) * KEY_ROW;
    bw_mark_draw_whole (cr, tray, colour, x, y, 19, 14);
    g_autofree char *name = bw_sheet_one_line (tray->colour[colour].name);
    g_autoptr (PangoLayout) layout = bw_type_layout (cr, BW_TYPE_SMALL, name, step - 28);
    pango_layout_set_auto_dir (layout, FALSE);
    pango_layout_set_height (layout, -1);
    pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_END);
    cairo_set_source_rgb (cr, BW_ON_PAPER (PRINT));
    cairo_move_to (cr, x + 23, y + 2.5);
    pango_cairo_show_layout (cr, layout);
    cairo_new_path (cr);
  }
}

void
bw_sheet_add_key (BwFlow *flow, BwProject *project)
{
  guint64 counts[256] = { 0 };
  bw_drawing_count (bw_project_get_drawing (project), counts);
  if (bw_project_get_bail_drawing (project))
    bw_drawing_count (bw_project_get_bail_drawing (project), counts);
  g_autoptr (GArray) colours = g_array_new (FALSE, FALSE, sizeof (int));
  for (int i = 0; i < bw_project_get_tray (project)->n_colours; i++)
    if (counts[i] > 0)
      g_array_append_val (colours, i);
  Key key = { &flow->tray, colours, 4 };
  bw_flow_figure (flow, ceil (colours->len / 4.0) * KEY_ROW + 2, draw_key, &key);
  bw_flow_space (flow, 4);
}

static void
tell_bail (BwFlow *flow, const BwDesign *design)
{
  int margin = (design->band.columns - design->bail.columns) / 2;
  g_autofree char *text = g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE,
                   "The bail laid flat. Its column 1 goes on from column %d of the band, %d column "
                   "of the band stays free at either edge.",
                   "The bail laid flat. Its column 1 goes on from column %d of the band, %d "
                   "columns of the band stay free at either edge.",
                   (gulong)margin),
      margin + 1, margin);
  bw_flow_text (flow, BW_TYPE_TEXT,
                design->bail.style == BW_BAIL_OVER
                    ? _ ("The bail laid flat: a strip of its own that goes over the tip.")
                : design->bail.style == BW_BAIL_UPRIGHT
                    ? _ ("The bail laid flat: a strip of its own that stands across the band.")
                    : text);
}

static void
add_bail (BwFlow *flow, BwProject *project)
{
  const BwDrawing *drawing = bw_project_get_bail_drawing (project);
  if (!drawing)
    return;
  Layout layout = { .flow = flow,
                    .chart = { .project = project, .in_bail = TRUE, .tray = &flow->tray },
                    .rows = bw_drawing_rows (drawing),
                    .columns = bw_drawing_columns (drawing) };
  choose (&layout);
  double width, height;
  part_size (&layout, 1, layout.columns_a_line, &width, &height);
  bw_flow_heading (flow, _ ("Chart of the bail"), height + LABEL + 50);
  tell_bail (flow, bw_project_get_design (project));
  draw_chart (&layout);
}

static GArray *
flags_of (BwProject *project)
{
  GArray *flags = g_array_new (FALSE, FALSE, sizeof (Flag));
  const GArray *lengths = bw_project_path (project)->lengths;
  int rows = bw_project_get_design (project)->band.rows;
  Flag try_on = { bw_project_forecast (project)->try_on_row, _ ("try on") };
  if (try_on.row <= rows)
    g_array_append_val (flags, try_on);
  for (guint i = 1; i < lengths->len; i++) {
    Flag change = { g_array_index (lengths, BwThreadLength, i).from_row, _ ("new thread") };
    if (change.row <= rows)
      g_array_append_val (flags, change);
  }
  return flags;
}

void
bw_sheet_add_chart (BwFlow *flow, BwProject *project)
{
  const BwDrawing *drawing = bw_project_get_drawing (project);
  Layout layout = { .flow = flow,
                    .chart = { .project = project, .tray = &flow->tray },
                    .rows = bw_drawing_rows (drawing),
                    .columns = bw_drawing_columns (drawing) };
  g_autoptr (GArray) flags = flags_of (project);
  layout.flags = flags;
  choose (&layout);
  double width, line;
  part_size (&layout, 1, layout.columns_a_line, &width, &line);
  bw_flow_heading (flow, _ ("Chart of the band"), WORDS + line + LABEL + FLAGS);
  bw_flow_text (
      flow, BW_TYPE_TEXT,
      _ ("The band as it is worn: the tip of the stone is up, rows run to the right in the order "
         "woven. A row's number stands where the needle enters it, the arrow shows which way it "
         "goes. Rows 1 and 2 are picked up together, column 1 first. Pale beads without a letter "
         "are those of the line before, to lay the lines together. The ribbon below shows over "
         "which face of the stone the beads come to lie. Flags mark the row before which a new "
         "thread begins, and the row after which the strip is tried on."));
  bw_sheet_add_key (flow, project);
  draw_chart (&layout);
  add_bail (flow, project);
}
