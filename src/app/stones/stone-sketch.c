/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/stones/stone-sketch.h"

#include "app/form/stone-outline.h"
#include "app/kit/palette.h"

#define AZIMUTH_DEG 20 /* three faces of six are seen, none edge on */
#define LINE_PX 1.4
#define MARGIN_PX 3

void
bw_stone_sketch_paint (GtkWidget *widget, cairo_t *cr, const BwStoneMeasures *measures, int width,
                       int height)
{
  BwPalette palette = bw_palette_get (widget);
  BwStone stone;
  if (!bw_stone_init (&stone, measures, NULL))
    return;
  double across = 2 * bw_outline_reach (&stone, AZIMUTH_DEG);
  double by = MIN ((width - 2 * MARGIN_PX) / across, (height - 2 * MARGIN_PX) / stone.length_mm);
  cairo_translate (cr, width / 2.0, (height + by * stone.length_mm) / 2);
  cairo_scale (cr, by, -by);
  bw_outline_stone_path (cr, &stone, AZIMUTH_DEG);
  gdk_cairo_set_source_rgba (cr, &palette.ink);
  cairo_set_line_width (cr, LINE_PX / by);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_stroke (cr);
}
