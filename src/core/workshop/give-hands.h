/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the pieces woven and wound before say of how much thread or bed gives in the next one.
 *
 * The share of piece j of kind k, a thread or a cord, is m + h + b_k + l_j: m what is usual, h how
 * hard this maker draws, b_k what is the thread's or the cord's own, l_j what the piece adds; the
 * latter three independent and normal with mean 0 and a third each of the usual variance
 * (judgement, no source), so that an empty book gives what is usual. That is the model of
 * "core/workshop/hands.h" with other spreads, and its closed form: the normal posterior of a linear
 * model. */
#pragma once

#include "core/design/give.h"

/* One reading: of which kind, and what it says by itself. */
typedef struct {
  int kind; /* 0 ≤ kind < n_kinds */
  BwGive said;
} BwGivePiece;

/* The belief about a next piece of each kind, and in the last place, next[n_kinds], of a kind never
 * used before. Owned. */
BwGive *bw_give_next (BwGive usual, const BwGivePiece *pieces, int n_pieces, int n_kinds);
