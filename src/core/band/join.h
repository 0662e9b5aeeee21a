/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The join: whether the two ends interlock, by how much they miss or overlap, and whether the
 * drawing runs on across them. */
#pragma once

#include "core/base/lattice.h"
#include "core/pattern/drawing.h"
#include "core/band/fit.h"

typedef struct {
  int rows;
  gboolean interlocks; /* rows even; FALSE: gap and overlap are 0 and mean nothing */
  double gap_mm, overlap_mm;
  double gap_beads, overlap_beads;
  int repeat_rows;        /* k, the least even k ≤ rows/2 with row i = row i + k; 0: none */
  gboolean repeat_closes; /* k divides rows (even rows only) */
  int repeat_below, repeat_above; /* nearest row counts k divides; 0: none */
  GArray *broken; /* of BwBeadAt: beads of the first k rows that differ from the bead
                     k rows back across the join; never NULL */
} BwJoin;

void bw_join_init (BwJoin *join, const BwFit *fit, const BwDesign *design,
                   const BwDrawing *drawing);
void bw_join_clear (BwJoin *join);

/* The least even k ≤ rows/2 with row i = row i + k throughout, 0 when there is none. Linear time.
 */
int bw_join_repeat (const BwDrawing *drawing);
