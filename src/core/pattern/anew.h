/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A drawing laid anew on a band of another size: what motifs have made is made again, and what was
 * set by hand follows in the way the maker chooses. */
#pragma once

#include "core/pattern/made.h"

/* What becomes of the beads set by hand. */
typedef enum {
  BW_ANEW_REPEAT,  /* row by row and column by column as they are, from the beginning again where
                      the band is longer or wider; cut off where it is shorter or narrower */
  BW_ANEW_STRETCH, /* drawn out or drawn together to the new rows and columns */
  BW_ANEW_GROUND,  /* left out: the motifs and the ground alone */
  BW_N_ANEW,
} BwAnewWay;

/* made: as laid on `old`; renewed: the same on a band of the size of `drawing`, in the same order
 * (bw_made_renew()). A bead counts as set by hand where the motifs, laid one after the other on the
 * ground, would have given it another colour; in rows that came after a motif was laid, and are
 * copies of earlier ones, where the row they are copied from has it set by hand. Such beads come
 * beneath the motifs where none lay on them, else upon them. A motif of which
 * fewer than half of the beads are left counts as gone and is not made again. Every bead of
 * `drawing` gets a colour that `old` or a motif has. On equal motifs and an equal size the drawing
 * becomes what `old` is, except that BW_ANEW_GROUND leaves out what was set by hand. n_made
 * 0..BW_MADE_MAX. */
void bw_anew_draw (const BwDrawing *old, const BwMade *made, const BwMade *renewed, int n_made,
                   BwAnewWay way, BwDrawing *drawing);

/* How many beads of the drawing were set by hand, in that sense. */
int bw_anew_by_hand (const BwDrawing *old, const BwMade *made, int n_made);
