/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The chart on paper: lines of the band from left to right and from top to bottom, as many to a
 * page as go; a band wider than the page is cut along its columns too. */
#include "config.h"

#include "output/sheet/sheet-parts.h"

#include "core/base/tolerance.h"
#include "core/pattern/tint.h"
#include "output/chart/chart.h"
#include "output/chart/mark.h"
#include "output/page/label-room.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define PITCH 13.6        /* of a bead along the rows: room for a letter of 6 points */
#define SHARED_PITCH 12.4 /* at least, where the bail's chart goes on the same page */
#define MOST_PITCH 20.0   /* where the page has room */
#define MOST_LEFT 0.3     /* of a page that is not the last */
#define HALF_EMPTY 1.5    /* pages that such a one counts for */
#define SMALL 0.8         /* and beads smaller than the usual */
#define SMALL_LARGE 8.0   /* in large print, which is to be larger than the usual */
#define LEAST_PITCH 9.0   /* a letter of 4 points can still be read */
#define LARGE_PITCH 12.0  /* the least in large print: rather is the band's width cut */
#define MOST_PARTS 5      /* of a band's width, in large print */
#define AGAIN_ROWS 4
#define AGAIN_COLUMNS 2
#define LABEL 14.0 /* above a line: what it shows */
#define WORDS 40.0 /* below the heading of the bail's chart */
#define FLAGS 10.0 /* above a line with flags: room for each line of words beside them */
#define FLAG_LINES 2
#define FLAG_GAP 5.0   /* from the middle of the pointer to its words */
#define FLAG_APART 8.0 /* from those to the words of another */
#define POINTER 3.0    /* half its width */

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
static int
count_lines (const Layout *layout, int rows_a_line)
{
  int step = rows_a_line - AGAIN_ROWS;
  return MAX (1, (layout->rows - AGAIN_ROWS + step - 1) / step);
}

static gboolean
is_large (const BwFlow *flow)
{
  return (flow->sheet->paper.wishes & BW_PRINT_LARGE) != 0;
}

/* The size of beads below which it is a fault that they are so small. */
static double
least_pitch (const BwFlow *flow, double usual)
{
  return is_large (flow) ? PITCH : usual;
}

static void
balance (Layout *layout)
{
  int lines = count_lines (layout, layout->rows_a_line);
  int each = (layout->rows + (lines - 1) * AGAIN_ROWS + lines - 1) / lines;
  layout->rows_a_line = MIN (layout->rows_a_line, MAX (AGAIN_ROWS + 2, each + each % 2));
}

static double
page_height (const Layout *layout)
{
  return layout->flow->bottom - layout->flow->top;
}

static int
rows_that_fit (Layout *layout)
{
  double width, height;
  part_size (layout, 1, 1, &width, &height);
  int rows = 1 + (int)floor (2 * (layout->flow->width - width) / layout->chart.pitch);
  return MAX (AGAIN_ROWS + 2, rows & ~1);
}

/* What the present beads cost where so much of the first page is left: pages, and more where one
 * but the last would end far from full; G_MAXINT where not even a line goes there. */
static double
cost_of (Layout *layout, double room)
{
  double width, height, flags = layout->flags ? FLAGS * layout->flags->len : 0;
  part_size (layout, 1, layout->columns, &width, &height);
  double page = page_height (layout), line = height + LABEL;
  int lines = count_lines (layout, rows_that_fit (layout));
  int first = (int)floor ((room - flags) / line), others = (int)floor ((page - flags) / line);
  if (first < 1 || others < 1)
    return G_MAXINT;
  if (lines <= first)
    return 1;
  int more = (lines - first + others - 1) / others;
  double left = MAX (room - first * line, more > 1 ? page - others * line : 0);
  return 1 + more + (left > MOST_LEFT * page ? HALF_EMPTY : 0);
}

/* The largest beads of the least cost; FALSE where the whole width of the band does not fit so much
 * room. */
static gboolean
fill_pages (Layout *layout, double room, double least)
{
  double best = 0, cheapest = G_MAXINT;
  for (double pitch = MOST_PITCH; pitch >= LEAST_PITCH - BW_ROUNDING_MM; pitch -= 0.2) {
    set_pitch (layout, pitch);
    double cost = cost_of (layout, room);
    if (pitch < least - BW_ROUNDING_MM)
      cost += is_large (layout->flow) ? SMALL_LARGE : SMALL;
    if (cost < cheapest) {
      cheapest = cost;
      best = pitch;
    }
  }
  set_pitch (layout, cheapest < G_MAXINT ? best : least);
  return cheapest < G_MAXINT;
}

/* The smallest that can be read, and as many columns as then fit. */
static void
cut_columns (Layout *layout)
{
  double most = page_height (layout) - LABEL - 30, width, height;
  for (double pitch = PITCH; pitch >= LEAST_PITCH; pitch -= 0.2) {
    set_pitch (layout, pitch);
    part_size (layout, 1, layout->columns, &width, &height);
    if (height <= most)
      break;
  }
  for (; height > most; part_size (layout, 1, layout->columns_a_line, &width, &height))
    layout->columns_a_line--;
}

/* In large print letters stay large, in parts of the band as wide as each other that fit what is
 * left of the page; FALSE where too little is. */
static gboolean
cut_large (Layout *layout, double room)
{
  double width, height, most = room - LABEL - FLAGS * FLAG_LINES;
  set_pitch (layout, PITCH);
  for (int parts = 2; parts <= MOST_PARTS; parts++) {
    int all = layout->columns + (parts - 1) * AGAIN_COLUMNS;
    layout->columns_a_line = (all + parts - 1) / parts;
    part_size (layout, 1, layout->columns_a_line, &width, &height);
    if (height <= most)
      return TRUE;
  }
  layout->columns_a_line = layout->columns;
  return FALSE;
}

/* room: what is left of the page for the chart. */
static void
choose (Layout *layout, double room, double least)
{
  layout->columns_a_line = layout->columns;
  gboolean large = is_large (layout->flow);
  gboolean fits = fill_pages (layout, room, least);
  gboolean small = large && layout->chart.pitch < LARGE_PITCH - BW_ROUNDING_MM;
  if (!fits && !(large && cut_large (layout, room)))
    cut_columns (layout);
  else if (fits && small && !cut_large (layout, room))
    fill_pages (layout, room, least);
  layout->rows_a_line = rows_that_fit (layout);
  balance (layout);
}

static gboolean
is_in (const Flag *flag, const BwChartPart *part)
{
  return flag->row >= part->first_row + part->again_rows && flag->row <= part->last_row;
}

/* Room above a line of the chart for the flags in it, one above the other where need be. */
static double
flags_room (const Layout *layout, const BwChartPart *part)
{
  int n = 0;
  for (guint i = 0; layout->flags && i < layout->flags->len; i++)
    n += is_in (&g_array_index (layout->flags, Flag, i), part);
  return FLAGS * MIN (n, FLAG_LINES);
}

/* No words of another flag may stand over it. */
static void
draw_pointer (cairo_t *cr, BwLabelRoom *room, double x)
{
  cairo_set_source_rgb (cr, BW_ON_PAPER (PRINT));
  cairo_move_to (cr, x, -1);
  cairo_rel_line_to (cr, -POINTER, -5);
  cairo_rel_line_to (cr, 2 * POINTER, 0);
  cairo_close_path (cr);
  cairo_fill (cr);
  bw_label_room_take (room, (BwLabelBox){ x - POINTER, -6, 2 * POINTER, 5 });
}

/* To words a line higher than the pointer's. */
static void
draw_stem (cairo_t *cr, double x, double top)
{
  cairo_set_line_width (cr, 0.5);
  cairo_move_to (cr, x, -6);
  cairo_line_to (cr, x, top);
  cairo_stroke (cr);
}

/* The words stand to the right of the pointer or to the left, or a line higher, where they are
 * free. */
static void
draw_flag (cairo_t *cr, const Flag *flag, BwLabelRoom *room, double x)
{
  g_autoptr (PangoLayout) layout = bw_type_layout (cr, BW_TYPE_SMALL, flag->text, 0);
  int width, height;
  pango_layout_get_size (layout, &width, &height);
  double w = pango_units_to_double (width), h = pango_units_to_double (height);
  BwVec2 corner[2 * FLAG_LINES];
  for (int i = 0; i < 2 * FLAG_LINES; i++)
    corner[i] = bw_vec2 (i % 2 ? x - FLAG_GAP - w : x + FLAG_GAP, -FLAGS * (i / 2) - 10);
  int at = bw_label_room_place (room, w, h, corner, G_N_ELEMENTS (corner));
  if (at < 0)
    return;
  bw_label_room_take (
      room, (BwLabelBox){ corner[at].x - FLAG_APART, corner[at].y, w + 2 * FLAG_APART, h });
  cairo_set_source_rgb (cr, BW_ON_PAPER (PRINT));
  if (at > 1)
    draw_stem (cr, x, corner[at].y + h / 2);
  cairo_move_to (cr, corner[at].x, corner[at].y);
  pango_cairo_show_layout (cr, layout);
  cairo_new_path (cr);
}

static void
draw_flags (const Layout *layout, const BwChartPart *part, cairo_t *cr)
{
  BwLabelRoom room;
  bw_label_room_init (&room, (BwLabelBox){ 0, -FLAGS * FLAG_LINES - 2, layout->flow->width,
                                           FLAGS * FLAG_LINES + 6 });
  for (int pass = 0; pass < 2; pass++)
    for (guint i = 0; layout->flags && i < layout->flags->len; i++) {
      const Flag *flag = &g_array_index (layout->flags, Flag, i);
      double x = bw_chart_row_x (&layout->chart, part, flag->row);
      if (!is_in (flag, part))
        continue;
      if (pass == 0)
        draw_pointer (cr, &room, x);
      else
        draw_flag (cr, flag, &room, x);
    }
  bw_label_room_clear (&room);
}

static void
draw_part (Layout *layout, const BwChartPart *part)
{
  BwFlow *flow = layout->flow;
  double width, height;
  bw_chart_part_size (&layout->chart, part, &width, &height);
  double label = LABEL + flags_room (layout, part);
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
  draw_flags (layout, part, flow->cr);
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
  GArray *colours;     /* of int: those in use */
  guint first, beyond; /* of them, those that are drawn */
  guint a_row;
} Key;

#define KEY_ROW 17.0
#define KEY_NAME 23.0 /* from a bead to its name, both at their left */
#define KEY_GAP 9.0
#define KEYS_A_ROW 6 /* at most */
#define LEAST_KEYS 2
#define KEY_ROWS 3 /* at most, where names are long: rather are they cut */

static void
draw_key (cairo_t *cr, double width, double height, gpointer data)
{
  const Key *key = data;
  const BwTray *tray = key->tray;
  double step = width / key->a_row;
  for (guint i = 0; i < key->beyond - key->first; i++) {
    int colour = g_array_index (key->colours, int, key->first + i);
    double x = i % key->a_row * step, y = i / key->a_row * KEY_ROW;
    bw_mark_draw_whole (cr, tray, colour, x, y, 19, 14);
    g_autofree char *name = bw_sheet_one_line (tray->colour[colour].name);
    g_autoptr (PangoLayout) layout
        = bw_type_layout (cr, BW_TYPE_SMALL, name, step - KEY_NAME - KEY_GAP / 2);
    pango_layout_set_auto_dir (layout, FALSE);
    pango_layout_set_height (layout, -1);
    pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_END);
    cairo_set_source_rgb (cr, BW_ON_PAPER (PRINT));
    cairo_move_to (cr, x + KEY_NAME, y + 2.5);
    pango_cairo_show_layout (cr, layout);
    cairo_new_path (cr);
  }
}

static double
widest_name (const BwFlow *flow, const GArray *colours)
{
  double widest = 0;
  for (guint i = 0; i < colours->len; i++) {
    const BwColour *colour = &flow->tray.colour[g_array_index (colours, int, i)];
    g_autofree char *name = bw_sheet_one_line (colour->name);
    g_autoptr (PangoLayout) layout = bw_type_layout (flow->cr, BW_TYPE_SMALL, name, 0);
    int width;
    pango_layout_get_size (layout, &width, NULL);
    widest = MAX (widest, pango_units_to_double (width));
  }
  return widest;
}

/* As many as their names leave room for, in rows as long as each other. */
static guint
keys_a_row (const BwFlow *flow, const GArray *colours)
{
  guint n = MAX (1, colours->len);
  guint fit = (guint)(flow->width / (KEY_NAME + widest_name (flow, colours) + KEY_GAP));
  guint rows = (n + KEY_ROWS - 1) / KEY_ROWS;
  fit = CLAMP (MAX (fit, MIN (rows, KEYS_A_ROW - 2)), LEAST_KEYS, KEYS_A_ROW);
  rows = (n + fit - 1) / fit;
  return (n + rows - 1) / rows;
}

/* A key that is longer than what is left of the page goes on on the next. */
static void
draw_whole_key (BwFlow *flow, GArray *colours)
{
  Key key = { &flow->tray, colours, 0, 0, keys_a_row (flow, colours) };
  while (key.beyond < colours->len) {
    guint rows = (colours->len - key.beyond + key.a_row - 1) / key.a_row;
    bw_flow_room (flow, MIN (2, rows) * KEY_ROW + 2);
    guint lines = (guint)MAX (1, (bw_flow_left_over (flow) - 2) / KEY_ROW);
    key.first = key.beyond;
    key.beyond = MIN (colours->len, key.first + lines * key.a_row);
    bw_flow_figure (flow, (key.beyond - key.first + key.a_row - 1) / key.a_row * KEY_ROW + 2,
                    draw_key, &key);
  }
  bw_flow_space (flow, 4);
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
  draw_whole_key (flow, colours);
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
  const char *title = _ ("Chart of the bail");
  double head = bw_flow_heading_height (flow, title) + WORDS, whole = page_height (&layout) - head;
  double left = bw_flow_left_over (flow) - head;
  double least = least_pitch (flow, LEAST_PITCH);
  set_pitch (&layout, least);
  gboolean here = cost_of (&layout, left) <= 1;
  choose (&layout, here ? left : whole, here ? least : least_pitch (flow, PITCH));
  bw_flow_heading (flow, title, here ? left : whole);
  tell_bail (flow, bw_project_get_design (project));
  draw_chart (&layout);
}

/* What the chart of the bail takes below that of the band, its beads hardly smaller than usual. */
static double
bail_height (BwFlow *flow, BwProject *project)
{
  const BwDrawing *drawing = bw_project_get_bail_drawing (project);
  if (!drawing)
    return 0;
  Layout layout = { .flow = flow,
                    .chart = { .project = project, .in_bail = TRUE, .tray = &flow->tray },
                    .rows = bw_drawing_rows (drawing),
                    .columns = bw_drawing_columns (drawing) };
  double width, height;
  set_pitch (&layout, SHARED_PITCH);
  part_size (&layout, 1, layout.columns, &width, &height);
  return bw_flow_heading_height (flow, _ ("Chart of the bail")) + WORDS
         + count_lines (&layout, rows_that_fit (&layout)) * (height + LABEL);
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
  bw_flow_heading (flow, _ ("Chart of the band"), 0.5 * page_height (&layout));
  bw_flow_text (
      flow, BW_TYPE_TEXT,
      _ ("The band as it is worn: the tip of the stone is up, rows run to the right in the order "
         "woven. A row's number stands where the needle enters it, the arrow shows which way it "
         "goes. Rows 1 and 2 are picked up together, column 1 first. Pale beads without a letter "
         "are those of the line before, to lay the lines together. The ribbon below shows over "
         "which face of the stone the beads come to lie. Flags mark the row before which a new "
         "thread begins, and the row after which the strip is tried on."));
  bw_sheet_add_key (flow, project);
  double left = bw_flow_left_over (flow), both = left - bail_height (flow, project);
  double shared = least_pitch (flow, SHARED_PITCH);
  set_pitch (&layout, shared);
  gboolean share = cost_of (&layout, both) <= 1;
  choose (&layout, share ? both : left, share ? shared : least_pitch (flow, PITCH));
  draw_chart (&layout);
  add_bail (flow, project);
}
