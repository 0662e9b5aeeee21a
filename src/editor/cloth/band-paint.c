/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The strokes that every part of a frame is drawn with: flat rectangles, words, a bead's brick and
 * the ring round it. */
#include "editor/cloth/band-paint.h"

void
bw_band_paint_rect (const BwBandPaint *paint, double x, double y, double width, double height,
                    GdkRGBA colour)
{
  if (width <= 0 || height <= 0)
    return;
  graphene_rect_t rect = GRAPHENE_RECT_INIT ((float)x, (float)y, (float)width, (float)height);
  gtk_snapshot_append_color (paint->snapshot, &colour, &rect);
}

double
bw_band_paint_text_width (const BwBandPaint *paint, const char *words)
{
  int width;
  pango_layout_set_text (paint->text, words, -1);
  pango_layout_get_pixel_size (paint->text, &width, NULL);
  return width;
}

void
bw_band_paint_text (const BwBandPaint *paint, const char *words, double x, double y, GdkRGBA colour)
{
  double width = bw_band_paint_text_width (paint, words);
  double left = bw_band_snap (paint, x - width / 2), top = bw_band_snap (paint, y);

  gtk_snapshot_save (paint->snapshot);
  gtk_snapshot_translate (paint->snapshot, &GRAPHENE_POINT_INIT ((float)left, (float)top));
  gtk_snapshot_append_layout (paint->snapshot, paint->text, &colour);
  gtk_snapshot_restore (paint->snapshot);
}

void
bw_band_paint_label (const BwBandPaint *paint, const char *words, double x, double y,
                     GdkRGBA ground, GdkRGBA ink)
{
  double width = bw_band_paint_text_width (paint, words) + 8;
  graphene_rect_t rect = GRAPHENE_RECT_INIT ((float)bw_band_snap (paint, x - width / 2),
                                             (float)bw_band_snap (paint, y), (float)width,
                                             (float)paint->style->text);
  GskRoundedRect rounded;
  gsk_rounded_rect_init_from_rect (&rounded, &rect, 3);
  gtk_snapshot_push_rounded_clip (paint->snapshot, &rounded);
  gtk_snapshot_append_color (paint->snapshot, &ground, &rect);
  gtk_snapshot_pop (paint->snapshot);
  bw_band_paint_text (paint, words, x, y, ink);
}

graphene_rect_t
bw_band_paint_brick (const BwBandPaint *paint, int long_row, int column)
{
  BwBandPoint middle = bw_band_middle (long_row, column);
  double left = bw_band_paint_x (paint, middle.u - 0.5);
  double right = bw_band_paint_x (paint, middle.u + 0.5);
  double top = bw_band_paint_y (paint, column), bottom = bw_band_paint_y (paint, column - 1);
  return GRAPHENE_RECT_INIT ((float)left, (float)top, (float)(right - left), (float)(bottom - top));
}

void
bw_band_paint_ring (const BwBandPaint *paint, graphene_rect_t rect, double out, double thickness,
                    GdkRGBA colour, float radius)
{
  GskRoundedRect rounded;
  float t = (float)thickness;
  float widths[4] = { t, t, t, t };
  GdkRGBA colours[4] = { colour, colour, colour, colour };
  graphene_rect_inset (&rect, (float)-out, (float)-out);
  gsk_rounded_rect_init_from_rect (&rounded, &rect, radius);
  gtk_snapshot_append_border (paint->snapshot, &rounded, widths, colours);
}

void
bw_band_paint_marked (const BwBandPaint *paint, BwBeadAt bead, GdkRGBA colour, double thickness)
{
  int period = 2 * bw_band_layout_around (paint->layout);
  for (int image = paint->range.first_image; image <= paint->range.last_image; image++) {
    graphene_rect_t rect = bw_band_paint_brick (paint, bead.row + image * period, bead.column);
    float radius = MIN (rect.size.width, rect.size.height) * 0.2f;
    bw_band_paint_ring (paint, rect, thickness + 1, 1, bw_band_style_shadow (0.75), radius);
    bw_band_paint_ring (paint, rect, thickness, thickness, colour, radius);
    bw_band_paint_ring (paint, rect, 0, 1, bw_band_style_gleam (0.9), radius);
  }
}
