/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bench sketch: a drawing with numbers written on it, each a place to type. Subclasses draw;
 * while they do, every number they write that names a field becomes a target: it lights up under
 * the pointer, a click or Enter opens an entry on it, Tab's arrow keys walk from number to number.
 */
#pragma once

#include "app/form/card.h"
#include "app/kit/palette.h"

#define BW_TYPE_SKETCH (bw_sketch_get_type ())
G_DECLARE_DERIVABLE_TYPE (BwSketch, bw_sketch, BW, SKETCH, BwCard)

struct _BwSketchClass {
  BwCardClass parent_class;
  void (*draw) (BwSketch *self, cairo_t *cr, const BwPalette *palette, double width, double height);
};

/* Only inside draw. Writes text with its anchor (0..1 of its box) at (x, y); pointer names the
 * field it tells, NULL for plain words. */
void bw_sketch_write (BwSketch *self, cairo_t *cr, double x, double y, double anchor_x,
                      double anchor_y, const char *text, const char *pointer);
/* A dimension line from end to end with ticks, its number in the middle, upright on an upright line
 * that has room for it. */
void bw_sketch_dimension (BwSketch *self, cairo_t *cr, double x0, double y0, double x1, double y1,
                          const char *text, const char *pointer);
/* Height of a line of writing, and width of a text. */
double bw_sketch_line_height (BwSketch *self);
double bw_sketch_text_width (BwSketch *self, const char *text);

/* Opens the entry of the first target that names this field; FALSE when none does. */
gboolean bw_sketch_edit (BwSketch *self, const char *pointer);
/* Where a field's number stands in widget pixels; FALSE when it is not written. */
gboolean bw_sketch_find (BwSketch *self, const char *pointer, GdkRectangle *place);

/* Moves heights apart so that neighbours keep `gap`, all within lo..hi when there is room; the
 * order is kept. y: n values in any order. */
void bw_sketch_spread (double *y, int n, double gap, double lo, double hi);
