/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What lies on which page, in the order of the work: room is kept for the list on the first page,
 * and it is written when the last page is set. */
#include "config.h"

#include "output/sheet/sheet-parts.h"

#include "core/pattern/tint.h"

#include <glib/gi18n-lib.h>

#define COLUMNS 3
#define LINES 7 /* at most; a sheet has no more headings than they hold */
#define GAP 18.0
#define LINE 11.5
#define TITLE 14.0

void
bw_sheet_add_contents (BwFlow *flow)
{
  bw_flow_space (flow, 6);
  bw_flow_room (flow, TITLE + LINES * LINE);
  flow->contents_page = (int)flow->sheet->pages->len - 1;
  flow->contents_y = flow->y;
  flow->y += TITLE + LINES * LINE;
}

static void
draw_entry (cairo_t *cr, const BwFlowEntry *entry, double x, double y, double width)
{
  g_autofree char *page = g_strdup_printf ("%u", entry->page + 1);
  double number = bw_type_draw (cr, BW_TYPE_SMALL, page, x + width, y, 1);
  g_autoptr (PangoLayout) layout
      = bw_type_layout (cr, BW_TYPE_SMALL, entry->heading, width - number - 8);
  pango_layout_set_height (layout, -1);
  pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_END);
  int wide;
  pango_layout_get_size (layout, &wide, NULL);
  cairo_set_source_rgb (cr, BW_ON_PAPER (INK));
  cairo_move_to (cr, x, y);
  pango_cairo_show_layout (cr, layout);
  cairo_set_source_rgb (cr, BW_ON_PAPER (HAIR));
  cairo_set_line_width (cr, 0.5);
  cairo_set_dash (cr, (double[]){ 0.5, 2.5 }, 2, 0);
  cairo_move_to (cr, x + pango_units_to_double (wide) + 4, y + 7.5);
  cairo_line_to (cr, x + width - number - 4, y + 7.5);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
}

void
bw_sheet_draw_contents (BwFlow *flow)
{
  cairo_t *cr = bw_sheet_open_stretch (flow->sheet, flow->contents_page, BW_TAG_TEXT);
  double step = (flow->width + GAP) / COLUMNS;
  bw_type_draw (cr, BW_TYPE_BOLD, _ ("The way through these pages"), flow->left, flow->contents_y,
                0);
  guint n = MIN (flow->contents->len, COLUMNS * LINES), lines = (n + COLUMNS - 1) / COLUMNS;
  for (guint i = 0; i < n; i++)
    draw_entry (cr, &g_array_index (flow->contents, BwFlowEntry, i), flow->left + i / lines * step,
                flow->contents_y + TITLE + i % lines * LINE, step - GAP);
  cairo_destroy (cr);
}
