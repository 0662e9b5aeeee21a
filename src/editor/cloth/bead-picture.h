/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The picture of one bead seen from outside the band: a glass cylinder, its hole upright, lit from
 * the upper left. Plain pixels, no toolkit. */
#pragma once

#include "project/document/tray.h"

/* Where the bead lies in its picture, in pixels: the brick it owns, and the share of it the glass
 * fills (the rest is the shadow between the beads). */
typedef struct {
  double x, y, width, height;
  double fill_x, fill_y; /* 0..1 */
  gboolean calm;         /* little shine, so that a letter can be read on it */
} BwBeadFrame;

/* Paints into pixels, premultiplied ARGB in 32-bit words (cairo's ARGB32), width × height, row by
 * row. Everything is overwritten; what the brick does not cover becomes transparent. Bricks smaller
 * than BW_BEAD_PLAIN_PX pixels are plain rectangles. */
#define BW_BEAD_PLAIN_PX 5.0
void bw_bead_picture_paint (guint32 *pixels, int width, int height, const BwBeadFrame *frame,
                            guint32 srgb, BwFinish finish);

/* Whether a letter on this colour wants to be black (else white): the better contrast ratio of the
 * two (WCAG 2.1, W3C Recommendation, 2018, "contrast ratio"). */
gboolean bw_bead_letter_is_black (guint32 srgb);
