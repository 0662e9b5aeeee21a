/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What lies on which page, in the order of the work: room is kept for the list on the first page,
 * and it is written when the last page is set. */
#include "config.h"

#include "output/sheet/sheet-parts.h"

#include "core/pattern/tint.h"

#include <glib/gi18n-lib.h>

#define GAP 18.0
#define LINE 11.5
#define TITLE 14.0

/* Columns as wide as a heading wants; or, lower, with most of the headings on two lines. */
static const struct {
  double width; /* of the text, at least */
  int columns, lines;
} ways[] = { { 440, 3, 8 }, { 300, 2, 13 }, { 0, 1, 22 }, { 0, 2, 17 }, { 0, 3, 14 } };

static double
height_of (int way)
{
  return TITLE + ways[way].lines * LINE;
}

static int
way_of (const BwFlow *flow)
{
  int way = 0;
  while (flow->width < ways[way].width)
    way++;
  return way;
}

double
bw_sheet_contents_height (const BwFlow *flow)
{
  return height_of (way_of (flow));
}

void
bw_sheet_add_contents (BwFlow *flow)
{
  int way = way_of (flow), lower = way;
  bw_flow_space (flow, 6);
  while (lower < (int)G_N_ELEMENTS (ways) - 1 && height_of (lower) > bw_flow_left_over (flow))
    lower++;
  if (height_of (lower) <= bw_flow_left_over (flow))
    way = lower;
  else
    bw_flow_part (flow); /* a page of their own behind the cover */
  flow->contents_page = (int)flow->sheet->pages->len - 1;
  flow->contents_y = flow->y;
  flow->contents_columns = ways[way].columns;
  flow->y += height_of (way);
}

/* A line of the list, or several where the heading is long. */
typedef struct {
  PangoLayout *heading; /* owned */
  char *page;           /* owned */
  double number;        /* how wide the page's number is */
  int lines;
} Entry;

static void
clear_entry (gpointer data)
{
  Entry *entry = data;
  g_object_unref (entry->heading);
  g_free (entry->page);
}

static double
wide (PangoLayout *layout)
{
  int width;
  pango_layout_get_size (layout, &width, NULL);
  return pango_units_to_double (width);
}

static GArray *
entries_of (const BwFlow *flow, cairo_t *cr, double width)
{
  GArray *entries = g_array_new (FALSE, FALSE, sizeof (Entry));
  g_array_set_clear_func (entries, clear_entry);
  for (guint i = 0; i < flow->contents->len; i++) {
    const BwFlowEntry *of = &g_array_index (flow->contents, BwFlowEntry, i);
    Entry entry = { .page = g_strdup_printf ("%u", of->page + 1) };
    g_autoptr (PangoLayout) number = bw_type_layout (cr, BW_TYPE_SMALL, entry.page, 0);
    entry.number = wide (number);
    entry.heading = bw_type_layout (cr, BW_TYPE_SMALL, of->heading, width - entry.number - 8);
    entry.lines = pango_layout_get_line_count (entry.heading);
    g_array_append_val (entries, entry);
  }
  return entries;
}

static double
last_line (PangoLayout *layout)
{
  PangoRectangle line;
  pango_layout_line_get_extents (
      pango_layout_get_line_readonly (layout, pango_layout_get_line_count (layout) - 1), NULL,
      &line);
  return pango_units_to_double (line.width);
}

/* The number and its dots stand beside the last line. */
static void
draw_entry (cairo_t *cr, const Entry *entry, double x, double y, double width)
{
  double low = y + (entry->lines - 1) * LINE;
  /* Before its heading, so that a reader of the text has it on a line of its own. */
  bw_type_draw (cr, BW_TYPE_SMALL, entry->page, x + width, low, 1);
  cairo_set_source_rgb (cr, BW_ON_PAPER (INK));
  cairo_move_to (cr, x, y);
  pango_cairo_show_layout (cr, entry->heading);
  cairo_new_path (cr);
  cairo_set_source_rgb (cr, BW_ON_PAPER (HAIR));
  cairo_set_line_width (cr, 0.5);
  cairo_set_dash (cr, (double[]){ 0.5, 2.5 }, 2, 0);
  cairo_move_to (cr, x + last_line (entry->heading) + 4, low + 7.5);
  cairo_line_to (cr, x + width - entry->number - 4, low + 7.5);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
}

/* How many columns the entries fill when none is longer than so many lines. */
static int
columns_of (const GArray *entries, int most)
{
  int columns = 1;
  for (int i = 0, lines = 0; i < (int)entries->len; i++) {
    int more = g_array_index (entries, Entry, i).lines;
    columns += lines + more > most;
    lines = lines + more > most ? more : lines + more;
  }
  return columns;
}

void
bw_sheet_draw_contents (BwFlow *flow)
{
  cairo_t *cr = bw_sheet_open_stretch (flow->sheet, flow->contents_page, BW_TAG_TEXT);
  int columns = flow->contents_columns;
  double step = (flow->width + GAP) / columns, x = flow->left, y = flow->contents_y + TITLE;
  g_autoptr (GArray) entries = entries_of (flow, cr, step - GAP);
  int most = 1;
  while (columns_of (entries, most) > columns)
    most++;
  bw_type_draw (cr, BW_TYPE_BOLD, _ ("The way through these pages"), x, flow->contents_y, 0);
  for (int i = 0, lines = 0; i < (int)entries->len; i++) {
    const Entry *entry = &g_array_index (entries, Entry, i);
    if (lines + entry->lines > most) {
      lines = 0;
      x += step;
    }
    draw_entry (cr, entry, x, y + lines * LINE, step - GAP);
    lines += entry->lines;
  }
  cairo_destroy (cr);
}
