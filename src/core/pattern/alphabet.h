/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An alphabet of strokes, our own: letters, numerals and a few signs, six units high, most of them
 * eight wide. A unit across is half a pitch where a unit up is a column: beads stand closer along
 * the ring than across it. */
#pragma once

#include <glib.h>

#define BW_GLYPH_HEIGHT 6.0

typedef struct {
  double x0, y0, x1, y1; /* y up */
} BwStroke;

/* Writes at most max strokes of a character (lower case counts as upper case), returns how many; −1
 * when the alphabet lacks it. A space has none. */
int bw_alphabet_strokes (gunichar character, BwStroke *strokes, int max);

/* How wide a character is, without the space after it; 0 when the alphabet lacks it. */
double bw_alphabet_width (gunichar character);
