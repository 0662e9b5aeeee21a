/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a colour looks in print: its own colour, a letter and a pattern, so that a chart can be read
 * when all three of printer, paper and light take the colour away. */
#pragma once

#include "project/tray.h"
#include <cairo.h>

/* A stroke of a pattern in a bead of size 1 × 1, y down; one of no length is a dot. */
typedef struct {
  double x0, y0, x1, y1;
} BwMarkStroke;

#define BW_MARK_WIDTH 0.07 /* of a stroke, in heights of the bead */

/* The strokes of the pattern of tray colour `colour`; patterns come round again after 16 colours,
 * letters never. Borrowed. */
const BwMarkStroke *bw_mark_strokes (int colour, int *n_strokes);

/* 0x000000 or 0xffffff: what can be read on this colour. */
guint32 bw_mark_ink (guint32 srgb);

/* The letter as text. */
void bw_mark_letter (const BwColour *colour, char letter[7]);

/* A bead whose top left corner is (x, y), without its letter. */
void bw_mark_draw (cairo_t *cr, const BwTray *tray, int colour, double x, double y, double width,
                   double height);
/* Its letter in the middle, as high as the bead allows. */
void bw_mark_draw_letter (cairo_t *cr, const BwTray *tray, int colour, double x, double y,
                          double width, double height);
