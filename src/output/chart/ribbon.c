/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bead is a patch of its colour. Where rows are far too fine to be seen some stand for all. */
#include "output/chart/ribbon.h"

#include "core/base/lattice.h"
#include "core/pattern/tint.h"

#include <math.h>

#define FINEST 0.4 /* points: patches are not narrower */
#define GAP 0.06   /* between beads, in beads */

static double
rows_of (const BwDesign *design)
{
  return design->band.rows / 2.0 + 0.5;
}

static double
pitch_for (const BwDesign *design, double width)
{
  return width / rows_of (design);
}

double
bw_ribbon_height (const BwDesign *design, double width)
{
  return design->band.columns * pitch_for (design, width) * design->gauge.column_mm
         / design->gauge.pitch_mm;
}

double
bw_ribbon_width (const BwDesign *design, double height)
{
  return height / bw_ribbon_height (design, 1);
}

static void
draw_patch (cairo_t *cr, guint32 srgb, double x, double y, double width, double height)
{
  cairo_rectangle (cr, x + GAP * width / 2, y + GAP * height / 2, (1 - GAP) * width,
                   (1 - GAP) * height);
  cairo_set_source_rgb (cr, (srgb >> 16 & 255) / 255.0, (srgb >> 8 & 255) / 255.0,
                        (srgb & 255) / 255.0);
  cairo_fill (cr);
}

void
bw_ribbon_draw (cairo_t *cr, const BwDesign *design, const BwDrawing *drawing, const BwTray *tray,
                double width)
{
  double pitch = pitch_for (design, width);
  double tall = bw_ribbon_height (design, width) / design->band.columns;
  int step = 2 * (int)ceil (FINEST / pitch) - 1; /* odd, so that both kinds of row are seen */
  for (int row = 1; row <= design->band.rows; row += step)
    for (int column = 1; column <= design->band.columns; column++)
      if (bw_lattice_has (row, column))
        draw_patch (cr, tray->colour[bw_drawing_get (drawing, row, column)].srgb,
                    (row - 1) * pitch / 2, (design->band.columns - column) * tall, pitch * step,
                    tall);
}
