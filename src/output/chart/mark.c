/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Patterns are a few strokes each, kept to the rim of the bead so that the letter stands free. */
#include "output/chart/mark.h"

#include "core/pattern/tint.h"
#include "core/pattern/colour.h"
#include "output/page/page.h"

#include <math.h>

#define MOST_STROKES 4
#define ROUND 0.18 /* of a bead's corners, in heights */
#define PAIR 0.42  /* and of two */
#define STROKE 0.07
#define DOT 0.13 /* as wide as a stroke it would be lost in print */

static const struct {
  int n;
  BwMarkStroke stroke[MOST_STROKES];
} patterns[BW_MARK_PATTERNS] = {
  { 0, { { 0 } } },
  { 2, { { .12, .15, .12, .85 }, { .88, .15, .88, .85 } } },
  { 2, { { .1, .1, .9, .1 }, { .1, .9, .9, .9 } } },
  { 2, { { .06, .42, .3, .08 }, { .7, .92, .94, .58 } } },
  { 2, { { .06, .58, .3, .92 }, { .7, .08, .94, .42 } } },
  { 4, { { .1, .14, .1, .14 }, { .9, .14, .9, .14 }, { .1, .86, .1, .86 }, { .9, .86, .9, .86 } } },
  { 2, { { .1, .5, .1, .5 }, { .9, .5, .9, .5 } } },
  { 4, { { .1, .12, .9, .12 }, { .9, .12, .9, .88 }, { .9, .88, .1, .88 }, { .1, .88, .1, .12 } } },
  { 4,
    { { .08, .15, .08, .85 },
      { .19, .15, .19, .85 },
      { .81, .15, .81, .85 },
      { .92, .15, .92, .85 } } },
  { 2, { { .5, .09, .5, .09 }, { .5, .91, .5, .91 } } },
  { 4, { { .05, .35, .2, .1 }, { .05, .65, .2, .9 }, { .95, .35, .8, .1 }, { .95, .65, .8, .9 } } },
  { 4, { { .06, .2, .22, .5 }, { .22, .5, .06, .8 }, { .94, .2, .78, .5 }, { .78, .5, .94, .8 } } },
  { 3, { { .1, .14, .1, .14 }, { .1, .5, .1, .5 }, { .1, .86, .1, .86 } } },
  { 1, { { .1, .1, .9, .1 } } },
  { 1, { { .1, .9, .9, .9 } } },
  { 1, { { .12, .15, .12, .85 } } },
};

const BwMarkStroke *
bw_mark_strokes (int colour, int *n_strokes)
{
  *n_strokes = patterns[colour % BW_MARK_PATTERNS].n;
  return patterns[colour % BW_MARK_PATTERNS].stroke;
}

double
bw_mark_stroke_width (const BwMarkStroke *stroke)
{
  return stroke->x0 == stroke->x1 && stroke->y0 == stroke->y1 ? DOT : STROKE;
}

guint32
bw_mark_ink (guint32 srgb)
{
  guint32 light = bw_tint_srgb (BW_TINT_GLEAM, FALSE), deep = bw_tint_srgb (BW_TINT_PRINT, FALSE);
  return bw_colour_contrast (srgb, light) > bw_colour_contrast (srgb, deep) ? light : deep;
}

static void
set_source (cairo_t *cr, guint32 srgb)
{
  cairo_set_source_rgb (cr, (srgb >> 16 & 255) / 255.0, (srgb >> 8 & 255) / 255.0,
                        (srgb & 255) / 255.0);
}

static void
bead_path (cairo_t *cr, double x, double y, double width, double height)
{
  double r = ROUND * MIN (width, height);
  cairo_new_sub_path (cr);
  cairo_arc (cr, x + width - r, y + r, r, -G_PI / 2, 0);
  cairo_arc (cr, x + width - r, y + height - r, r, 0, G_PI / 2);
  cairo_arc (cr, x + r, y + height - r, r, G_PI / 2, G_PI);
  cairo_arc (cr, x + r, y + r, r, G_PI, 3 * G_PI / 2);
  cairo_close_path (cr);
}

void
bw_mark_draw (cairo_t *cr, const BwTray *tray, int colour, double x, double y, double width,
              double height)
{
  guint32 srgb = tray->colour[colour].srgb;
  int n;
  const BwMarkStroke *stroke = bw_mark_strokes (colour, &n);
  bead_path (cr, x, y, width, height);
  set_source (cr, srgb);
  cairo_fill_preserve (cr);
  cairo_set_source_rgb (cr, BW_ON_PAPER (INK));
  cairo_set_line_width (cr, 0.025 * height);
  cairo_stroke (cr);
  set_source (cr, bw_mark_ink (srgb));
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  for (int i = 0; i < n; i++) {
    cairo_move_to (cr, x + stroke[i].x0 * width, y + stroke[i].y0 * height);
    cairo_line_to (cr, x + stroke[i].x1 * width, y + stroke[i].y1 * height);
    cairo_set_line_width (cr, bw_mark_stroke_width (&stroke[i]) * height);
    cairo_stroke (cr);
  }
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
}

void
bw_mark_pen_init (BwMarkPen *pen, const BwTray *tray, double width, double height)
{
  *pen = (BwMarkPen){ .tray = tray, .width = width, .height = height };
}

void
bw_mark_pen_clear (BwMarkPen *pen)
{
  for (int i = 0; i < BW_TRAY_MAX; i++)
    g_clear_object (&pen->letter[i]);
}

static void
shape_letter (BwMarkPen *pen, cairo_t *cr, int colour)
{
  char letter[BW_TRAY_LETTER];
  PangoRectangle ink;
  bw_tray_print_letter (pen->tray, colour, letter);
  PangoLayout *layout = bw_type_plain (cr);
  PangoFontDescription *font = pango_font_description_from_string (BW_FACE " Bold");
  double size = (letter[1] ? PAIR : BW_MARK_LETTER) * MIN (pen->height, pen->width);
  pango_font_description_set_absolute_size (font, size * PANGO_SCALE);
  pango_layout_set_font_description (layout, font);
  pango_layout_set_text (layout, letter, -1);
  pango_layout_get_extents (layout, &ink, NULL);
  pen->letter[colour] = layout;
  pen->x[colour] = pen->width / 2 - (ink.x + ink.width / 2.0) / PANGO_SCALE;
  pen->y[colour] = pen->height / 2 - (ink.y + ink.height / 2.0) / PANGO_SCALE;
  pango_font_description_free (font);
}

void
bw_mark_pen_draw (BwMarkPen *pen, cairo_t *cr, int colour, double x, double y)
{
  if (!pen->letter[colour])
    shape_letter (pen, cr, colour);
  set_source (cr, bw_mark_ink (pen->tray->colour[colour].srgb));
  cairo_move_to (cr, x + pen->x[colour], y + pen->y[colour]);
  pango_cairo_show_layout (cr, pen->letter[colour]);
  cairo_new_path (cr);
}

void
bw_mark_draw_whole (cairo_t *cr, const BwTray *tray, int colour, double x, double y, double width,
                    double height)
{
  g_auto (BwMarkPen) pen = { 0 };
  bw_mark_pen_init (&pen, tray, width, height);
  bw_mark_draw (cr, tray, colour, x, y, width, height);
  bw_mark_pen_draw (&pen, cr, colour, x, y);
}
