/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What another stone of the kind wants: for each count of beads the girth over the bed it fits, and
 * what becomes of the drawing at it, so that one pattern serves every stone. */
#pragma once

#include "core/band/fit.h"
#include "core/pattern/drawing.h"

/* One count of beads and the stones it is for: the design's own stone made thicker or thinner all
 * round, its heights and bed kept. Girths are taken half way up the band. */
typedef struct {
  int beads_around, rows;
  double least_mm, most_mm; /* girth over the relaxed bed: below the one the count is loose in some
                               column, above the other it does not close */
  double bed_mm;            /* how much of them is the bed's: the bare girth is so much less */
  int repeat_rows;          /* of the drawing; 0: it has none */
  int rows_over;            /* after the last whole repeat; of a drawing without one: rows more than
                               it has, or fewer where below 0 */
} BwOtherStone;

#define BW_OTHER_STONES 4 /* counts to either side of the design's own */

/* A line for each count from the design's own less BW_OTHER_STONES to as many more that any such
 * stone suits, in order. A try-on's reading speaks of one stone and is left out of account; the
 * pitch is as believed. The design must be valid. An array of BwOtherStone, owned. */
GArray *bw_other_stones (const BwDesign *design, const BwStone *stone, const BwDrawing *drawing);
