/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A piece of beadwork in the air: it lies on top, its step of undo open, until it is laid down or
 * dropped. */
#pragma once

#include "editor/cloth/band-view.h"
#include "editor/tool/piece.h"

typedef struct {
  BwBandView *view;
  BwPiece *piece; /* NULL for none */
  BwPaint *paint;
  gboolean held;   /* the pointer pulls it */
  BwBeadAt from;   /* where the pointer took it, */
  int row, column; /* and where it lay then */
} BwBandAir;

/* Opens a step of that name with the piece on top. Takes piece; there must be none yet. */
void bw_band_air_take (BwBandAir *air, BwPiece *piece, const char *label);
/* Both do nothing without a piece. */
void bw_band_air_lay_down (BwBandAir *air);
void bw_band_air_drop (BwBandAir *air);

void bw_band_air_walk (BwBandAir *air, int along, int up);
/* Turns it as it is. TRUE when it had to go to the row beside. */
gboolean bw_band_air_do (BwBandAir *air, BwPieceDeed deed);

/* The pointer takes hold of the piece when it lies there; then it follows. */
gboolean bw_band_air_hold (BwBandAir *air, BwBandPoint at);
void bw_band_air_pull (BwBandAir *air, BwBandPoint at);
