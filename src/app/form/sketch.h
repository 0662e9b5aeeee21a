/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bench sketch: a drawing with words on it. Subclasses draw. */
#pragma once

#include "app/form/card.h"
#include "app/kit/palette.h"

#define BW_TYPE_SKETCH (bw_sketch_get_type ())
G_DECLARE_DERIVABLE_TYPE (BwSketch, bw_sketch, BW, SKETCH, BwCard)

struct _BwSketchClass {
  BwCardClass parent_class;
  void (*draw) (BwSketch *self, cairo_t *cr, const BwPalette *palette, double width, double height);
};

/* Only inside draw. Writes text with its anchor (0..1 of its box) at (x, y). */
void bw_sketch_write (BwSketch *self, cairo_t *cr, double x, double y, double anchor_x,
                      double anchor_y, const char *text);
/* Height of a line of writing. */
double bw_sketch_line_height (BwSketch *self);

/* Moves heights apart so that neighbours keep `gap`, all within lo..hi when there is room; the
 * order is kept. y: n values in any order. */
void bw_sketch_spread (double *y, int n, double gap, double lo, double hi);
