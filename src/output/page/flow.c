/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Setting pages: what does not fit goes to the next page whole, or is cut where a reader does not
 * mind. Text is set by pango, so that every script runs as it should. */
#include "output/page/page.h"
#include "core/pattern/tint.h"
#include "project/document/units.h"

#include <math.h>

static const struct {
  const char *font;
  BwTint ink;
} types[BW_N_TYPES] = {
  [BW_TYPE_TEXT] = { "Sans 9", BW_TINT_PRINT },
  [BW_TYPE_BOLD] = { "Sans Bold 9", BW_TINT_PRINT },
  [BW_TYPE_SMALL] = { "Sans 7.5", BW_TINT_NOTE },
  [BW_TYPE_TINY] = { "Sans 5.5", BW_TINT_INK },
  [BW_TYPE_TINY_BOLD] = { "Sans Bold 5.5", BW_TINT_PRINT },
  [BW_TYPE_HEADING] = { "Sans Bold 12", BW_TINT_TIDE },
  [BW_TYPE_TITLE] = { "Sans Bold 20", BW_TINT_INK },
};

char *
bw_sheet_one_line (const char *text)
{
  GString *line = g_string_new (NULL);
  for (const char *c = text; *c; c = g_utf8_next_char (c)) {
    gunichar character = g_utf8_get_char (c);
    g_string_append_unichar (line, g_unichar_iscntrl (character) ? ' ' : character);
  }
  return g_string_free (line, FALSE);
}

/* Lengths must not depend on the screen or the printer: no hinting, one unit a point, and letters
 * where they belong, not on the next whole point. */
static PangoLayout *
plain_layout (cairo_t *cr)
{
  PangoLayout *layout = pango_cairo_create_layout (cr);
  PangoContext *context = pango_layout_get_context (layout);
  cairo_font_options_t *options = cairo_font_options_create ();
  cairo_font_options_set_hint_style (options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
  pango_cairo_context_set_font_options (context, options);
  pango_cairo_context_set_resolution (context, 72);
  pango_context_set_round_glyph_positions (context, FALSE);
  pango_layout_context_changed (layout);
  cairo_font_options_destroy (options);
  return layout;
}

PangoLayout *
bw_type_layout (cairo_t *cr, BwType type, const char *text, double width)
{
  PangoLayout *layout = plain_layout (cr);
  PangoFontDescription *font = pango_font_description_from_string (types[type].font);
  pango_layout_set_font_description (layout, font);
  pango_font_description_free (font);
  g_autofree char *kept = bw_units_kept (text);
  pango_layout_set_text (layout, kept, -1);
  pango_layout_set_line_spacing (layout, 1.1f);
  if (width > 0) {
    pango_layout_set_width (layout, pango_units_from_double (width));
    pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  }
  return layout;
}

double
bw_type_draw (cairo_t *cr, BwType type, const char *text, double x, double y, double align)
{
  g_autoptr (PangoLayout) layout = bw_type_layout (cr, type, text, 0);
  int width;
  pango_layout_get_size (layout, &width, NULL);
  cairo_set_source_rgb (cr, BW_TINT_RGB (types[type].ink, FALSE));
  cairo_move_to (cr, x - align * pango_units_to_double (width), y);
  pango_cairo_show_layout (cr, layout);
  cairo_new_path (cr);
  return pango_units_to_double (width);
}

double
bw_type_height (BwType type)
{
  static const double heights[BW_N_TYPES] = { 11.5, 11.5, 9.6, 7.2, 7.2, 15.4, 25.6 };
  return heights[type];
}

static void
open_page (BwFlow *flow)
{
  /* A recording without bounds would never be let go by a PDF surface that it is painted on. */
  cairo_rectangle_t paper = { 0, 0, flow->sheet->paper.width, flow->sheet->paper.height };
  cairo_surface_t *page = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, &paper);
  g_ptr_array_add (flow->sheet->pages, page);
  flow->cr = cairo_create (page);
  flow->y = flow->top;
}

static void
clear_entry (gpointer entry)
{
  g_free (((BwFlowEntry *)entry)->heading);
}

void
bw_flow_init (BwFlow *flow, BwSheet *sheet)
{
  *flow = (BwFlow){ .sheet = sheet, .left = BW_SHEET_MARGIN, .top = BW_SHEET_HEAD };
  flow->width = sheet->paper.width - 2 * BW_SHEET_MARGIN;
  flow->bottom = sheet->paper.height - BW_SHEET_FOOT;
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
  cairo_destroy (flow->cr);
  open_page (flow);
}

double
bw_flow_left_over (const BwFlow *flow)
{
  return flow->bottom - flow->y;
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

void
bw_flow_heading (BwFlow *flow, const char *text, double keep)
{
  g_autoptr (PangoLayout) layout = bw_type_layout (flow->cr, BW_TYPE_HEADING, text, flow->width);
  double height = layout_height (layout);
  bw_flow_space (flow, 12);
  bw_flow_room (flow, height + 6 + keep);
  remember (flow, text);
  cairo_set_source_rgb (flow->cr, BW_ON_PAPER (TIDE));
  cairo_move_to (flow->cr, flow->left, flow->y);
  pango_cairo_update_layout (flow->cr, layout);
  pango_cairo_show_layout (flow->cr, layout);
  flow->y += height + 2;
  cairo_set_line_width (flow->cr, 0.4);
  cairo_set_source_rgb (flow->cr, BW_ON_PAPER (HAIR));
  cairo_move_to (flow->cr, flow->left, flow->y);
  cairo_rel_line_to (flow->cr, flow->width, 0);
  cairo_stroke (flow->cr);
  flow->y += 5;
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
  double line = layout_height (layout) / total;
  for (int first = 0; first < total; first += stay) {
    stay = lines_that_stay (flow, layout, first, line);
    if (stay > 0) {
      if (first == 0 && mark)
        bw_type_draw (flow->cr, type, mark, flow->left, flow->y, 0);
      cairo_set_source_rgb (flow->cr, BW_TINT_RGB (types[type].ink, FALSE));
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
  cairo_save (flow->cr);
  cairo_translate (flow->cr, flow->left, flow->y);
  draw (flow->cr, flow->width, height, data);
  cairo_restore (flow->cr);
  cairo_new_path (flow->cr);
  flow->y += height;
}
