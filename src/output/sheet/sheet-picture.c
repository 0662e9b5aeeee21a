/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A picture is given with clear ground round the piece; on paper the ground is left out, so that
 * the piece is as large as its place allows. */
#include "output/sheet/sheet-parts.h"

#include <string.h>

static gboolean
is_drawn (const unsigned char *pixel)
{
  guint32 value;
  memcpy (&value, pixel, sizeof value);
  return value >> 24 > 8;
}

/* The least box that holds everything drawn; the whole picture when it is not one with a clear
 * ground, or empty. */
static cairo_rectangle_int_t
drawn_box (cairo_surface_t *picture)
{
  int width = cairo_image_surface_get_width (picture);
  int height = cairo_image_surface_get_height (picture);
  int left = width, right = -1, top = height, bottom = -1;
  const unsigned char *data = cairo_image_surface_get_data (picture);
  if (cairo_image_surface_get_format (picture) != CAIRO_FORMAT_ARGB32 || !data)
    return (cairo_rectangle_int_t){ 0, 0, width, height };
  cairo_surface_flush (picture);
  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++)
      if (is_drawn (data + (gsize)y * (gsize)cairo_image_surface_get_stride (picture) + 4 * x)) {
        left = MIN (left, x);
        right = MAX (right, x);
        top = MIN (top, y);
        bottom = y;
      }
  if (right < 0)
    return (cairo_rectangle_int_t){ 0, 0, width, height };
  return (cairo_rectangle_int_t){ left, top, right - left + 1, bottom - top + 1 };
}

void
bw_sheet_place_picture (cairo_t *cr, cairo_surface_t *picture, double width, double height,
                        double across)
{
  cairo_rectangle_int_t box = drawn_box (picture);
  double scale = MIN (width / box.width, height / box.height);
  cairo_save (cr);
  cairo_translate (cr, (width - scale * box.width) * across, (height - scale * box.height) / 2);
  cairo_scale (cr, scale, scale);
  cairo_rectangle (cr, 0, 0, box.width, box.height);
  cairo_clip (cr);
  cairo_set_source_surface (cr, picture, -box.x, -box.y);
  cairo_pattern_set_filter (cairo_get_source (cr), CAIRO_FILTER_GOOD);
  cairo_paint (cr);
  cairo_restore (cr);
}

void
bw_sheet_draw_picture (cairo_t *cr, cairo_surface_t *picture, double width, double height)
{
  bw_sheet_place_picture (cr, picture, width, height, 0.5);
}
