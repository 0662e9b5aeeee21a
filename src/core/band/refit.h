/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A drawing brought to another number of rows while the band is on the bench: what is woven stays,
 * what is still to come is fitted. */
#pragma once

#include "core/pattern/drawing.h"

typedef enum {
  BW_REFIT_REPEAT,  /* the motif goes on: rows gained are those one repeat before, and where there
                       is no repeat the drawing begins anew; rows lost are cut off */
  BW_REFIT_STRETCH, /* the rows still to come are spread over the new ones */
  BW_REFIT_GROUND, /* rows gained are plain, in the colour most beads have; rows lost are cut off */
  BW_N_REFITS,
} BwRefit;

/* A new drawing of `rows` (≥ 1) rows. The first `woven` rows, as far as both drawings have them,
 * are those of `drawing` whatever is chosen. Colours stay in their columns, so that a new row is
 * always taken from a row that fills the same columns. Owned by the caller. */
BwDrawing *bw_refit (const BwDrawing *drawing, int rows, int woven, BwRefit how);
