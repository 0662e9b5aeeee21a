/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A small stone beside the chart: the piece from its best side, plain shapes that SVG and paper
 * draw alike. */
#pragma once

#include "project/project.h"
#include <cairo.h>

#define BW_STONE_CORNERS_MOST 4

/* A filled polygon, or a line of two corners. Millimetres; x from the left, y from the tip down. */
typedef struct {
  int n;
  double x[BW_STONE_CORNERS_MOST], y[BW_STONE_CORNERS_MOST];
  guint32 srgb;
  gboolean is_line;
} BwStoneShape;

/* The shapes in the order they are painted: what is seen of the stone, its edges, the beads. Where
 * the band is far too fine to be seen as beads not each bead is there. *width_mm × *height_mm hold
 * all of them. An array of BwStoneShape, owned. */
GArray *bw_chart_stone (BwProject *project, double *width_mm, double *height_mm);

/* Draws it `height` high with its top left corner at (0, 0). */
void bw_chart_stone_draw (const GArray *shapes, cairo_t *cr, double scale);
