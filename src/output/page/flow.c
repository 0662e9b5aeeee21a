/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Setting pages: what does not fit goes to the next page whole, or is cut where a reader does not
 * mind. */
#include "output/page/page.h"

#include <math.h>

static void
open_stretch (BwFlow *flow, BwTag tag)
{
  g_clear_pointer (&flow->cr, cairo_destroy);
  flow->cr = bw_sheet_open_stretch (flow->sheet, (int)flow->sheet->pages->len - 1, tag);
  flow->tag = tag;
}

/* A heading that has nothing under it, taken off the page again; NULL when there is none. A page
 * that would be left empty keeps it. Owned. */
static char *
take_back_heading (BwFlow *flow)
{
  int page = (int)flow->sheet->pages->len - 1;
  if (flow->last_heading < 0 || !bw_sheet_ends_with (flow->sheet, page, (guint)flow->last_heading))
    return NULL;
  g_clear_pointer (&flow->cr, cairo_destroy);
  bw_sheet_drop_from (flow->sheet, page, (guint)flow->last_heading);
  BwFlowEntry *entry = &g_array_index (flow->contents, BwFlowEntry, flow->contents->len - 1);
  char *heading = g_steal_pointer (&entry->heading);
  g_array_set_size (flow->contents, flow->contents->len - 1);
  return heading;
}

static void
open_page (BwFlow *flow)
{
  g_autofree char *heading = take_back_heading (flow);
  BwTag tag = flow->tag;
  bw_sheet_open_page (flow->sheet);
  open_stretch (flow, tag);
  flow->y = flow->top;
  flow->last_heading = -1;
  if (!heading)
    return;
  bw_flow_heading (flow, heading, 0);
  bw_flow_tag (flow, tag);
}

void
bw_flow_tag (BwFlow *flow, BwTag tag)
{
  if (flow->tag != tag)
    open_stretch (flow, tag);
}

/* The tray in print: without colour where ink is to be spared. */
static void
take_tray (BwFlow *flow, BwProject *project)
{
  flow->tray = *bw_project_get_tray (project);
  if (flow->sheet->paper.wishes & BW_PRINT_SPARING)
    for (int i = 0; i < flow->tray.n_colours; i++)
      flow->tray.colour[i].srgb = bw_tint_srgb (BW_TINT_SHEET, FALSE);
}

static void
clear_entry (gpointer entry)
{
  g_free (((BwFlowEntry *)entry)->heading);
}

void
bw_flow_init (BwFlow *flow, BwSheet *sheet, BwProject *project)
{
  *flow = (BwFlow){ .sheet = sheet,
                    .unit = bw_paper_unit (sheet->paper),
                    .left = sheet->margin,
                    .top = BW_SHEET_HEAD,
                    .last_heading = -1 };
  flow->width = sheet->paper.width / sheet->scale - 2 * sheet->margin;
  flow->bottom = sheet->paper.height / sheet->scale - BW_SHEET_FOOT;
  take_tray (flow, project);
  flow->contents = g_array_new (FALSE, FALSE, sizeof (BwFlowEntry));
  g_array_set_clear_func (flow->contents, clear_entry);
  open_page (flow);
}

BwSheet *
bw_flow_finish (BwFlow *flow)
{
  g_clear_pointer (&flow->cr, cairo_destroy);
  g_clear_pointer (&flow->contents, g_array_unref);
  return g_steal_pointer (&flow->sheet);
}

void
bw_flow_new_page (BwFlow *flow)
{
  open_page (flow);
}

double
bw_flow_left_over (const BwFlow *flow)
{
  return flow->bottom - flow->y;
}

void
bw_flow_part (BwFlow *flow)
{
  if (flow->y > flow->top)
    bw_flow_new_page (flow);
  bw_sheet_begin_part (flow->sheet);
}

void
bw_flow_room (BwFlow *flow, double height)
{
  if (height > bw_flow_left_over (flow) && flow->y > flow->top)
    bw_flow_new_page (flow);
}

void
bw_flow_space (BwFlow *flow, double height)
{
  if (flow->y > flow->top)
    flow->y += height;
}

static double
layout_height (PangoLayout *layout)
{
  int height;
  pango_layout_get_size (layout, NULL, &height);
  return pango_units_to_double (height);
}

static void
remember (BwFlow *flow, const char *heading)
{
  BwFlowEntry entry = { g_strdup (heading), flow->sheet->pages->len - 1 };
  g_array_append_val (flow->contents, entry);
}

#define BEFORE_HEADING 12.0
#define UNDER_HEADING 2.0
#define AFTER_HEADING 5.0

double
bw_flow_heading_height (const BwFlow *flow, const char *text)
{
  g_autoptr (PangoLayout) layout = bw_type_layout (flow->cr, BW_TYPE_HEADING, text, flow->width);
  return BEFORE_HEADING + layout_height (layout) + UNDER_HEADING + AFTER_HEADING;
}

void
bw_flow_heading (BwFlow *flow, const char *text, double keep)
{
  g_autoptr (PangoLayout) layout = bw_type_layout (flow->cr, BW_TYPE_HEADING, text, flow->width);
  double height = layout_height (layout);
  bw_flow_space (flow, BEFORE_HEADING);
  bw_flow_room (flow, height + 6 + keep);
  remember (flow, text);
  gboolean at_top = flow->y <= flow->top;
  bw_flow_tag (flow, BW_TAG_HEADING);
  const GArray *stretches = g_ptr_array_index (flow->sheet->pages, flow->sheet->pages->len - 1);
  flow->last_heading = at_top ? -1 : (int)stretches->len - 1;
  cairo_set_source_rgb (flow->cr, BW_ON_PAPER (TIDE));
  cairo_move_to (flow->cr, flow->left, flow->y);
  pango_cairo_update_layout (flow->cr, layout);
  pango_cairo_show_layout (flow->cr, layout);
  flow->y += height + UNDER_HEADING;
  cairo_set_line_width (flow->cr, 0.4);
  cairo_set_source_rgb (flow->cr, BW_ON_PAPER (HAIR));
  cairo_move_to (flow->cr, flow->left, flow->y);
  cairo_rel_line_to (flow->cr, flow->width, 0);
  cairo_stroke (flow->cr);
  flow->y += AFTER_HEADING;
  bw_flow_tag (flow, BW_TAG_TEXT);
}

/* How many of the lines from `first` on stay on this page: all, or as many as leave no line alone
 * on either side. */
static int
lines_that_stay (const BwFlow *flow, PangoLayout *layout, int first, double line)
{
  int n = pango_layout_get_line_count (layout) - first;
  int fit = (int)floor (bw_flow_left_over (flow) / line);
  if (fit >= n)
    return n;
  if (n - fit < 2)
    fit = n - 2;
  if (flow->y <= flow->top)
    return MAX (1, fit);
  return fit < 2 ? 0 : fit;
}

/* Draws n lines from number `first`, whose tops are `line` apart. */
static void
draw_lines (BwFlow *flow, PangoLayout *layout, double x, int first, int n, double line)
{
  PangoLayoutIter *iter = pango_layout_get_iter (layout);
  for (int i = 0; i < first; i++)
    pango_layout_iter_next_line (iter);
  for (int i = 0; i < n; i++) {
    PangoRectangle logical;
    pango_layout_iter_get_line_extents (iter, NULL, &logical);
    double rise = pango_units_to_double (pango_layout_iter_get_baseline (iter) - logical.y);
    cairo_move_to (flow->cr, x + pango_units_to_double (logical.x), flow->y + rise);
    pango_cairo_show_layout_line (flow->cr, pango_layout_iter_get_line_readonly (iter));
    flow->y += line;
    pango_layout_iter_next_line (iter);
  }
  pango_layout_iter_free (iter);
}

static void
flow_layout (BwFlow *flow, PangoLayout *layout, BwType type, const char *mark, double x)
{
  int total = pango_layout_get_line_count (layout), stay;
  open_stretch (flow, BW_TAG_TEXT);
  double line = layout_height (layout) / total;
  for (int first = 0; first < total; first += stay) {
    stay = lines_that_stay (flow, layout, first, line);
    if (stay > 0) {
      if (first == 0 && mark)
        bw_type_draw (flow->cr, type, mark, flow->left, flow->y, 0);
      cairo_set_source_rgb (flow->cr, BW_TINT_RGB (bw_type_ink (type), FALSE));
      draw_lines (flow, layout, x, first, stay, line);
    }
    if (first + stay < total)
      bw_flow_new_page (flow);
  }
  flow->y += 3;
}

void
bw_flow_text (BwFlow *flow, BwType type, const char *text)
{
  g_autoptr (PangoLayout) layout = bw_type_layout (flow->cr, type, text, flow->width);
  flow_layout (flow, layout, type, NULL, flow->left);
}

void
bw_flow_whole (BwFlow *flow, BwType type, const char *text)
{
  g_autoptr (PangoLayout) layout = bw_type_layout (flow->cr, type, text, flow->width);
  bw_flow_room (flow, layout_height (layout));
  flow_layout (flow, layout, type, NULL, flow->left);
}

void
bw_flow_item (BwFlow *flow, const char *mark, const char *text, double indent)
{
  g_autoptr (PangoLayout) layout
      = bw_type_layout (flow->cr, BW_TYPE_TEXT, text, flow->width - indent);
  flow_layout (flow, layout, BW_TYPE_TEXT, mark, flow->left + indent);
}

void
bw_flow_figure (BwFlow *flow, double height, BwFlowFigure draw, gpointer data)
{
  bw_flow_room (flow, height);
  bw_flow_tag (flow, BW_TAG_FIGURE);
  cairo_save (flow->cr);
  cairo_translate (flow->cr, flow->left, flow->y);
  draw (flow->cr, flow->width, height, data);
  cairo_restore (flow->cr);
  cairo_new_path (flow->cr);
  flow->y += height;
  bw_flow_tag (flow, BW_TAG_TEXT);
}
