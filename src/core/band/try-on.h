/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The try-on: the strip is laid round the stone, its ends brought together, and the maker counts by
 * how many beads they miss or overlap. */
#pragma once

#include "core/band/fit.h"

typedef struct {
  int rows;           /* to end with: even, at least 6 */
  int change;         /* rows to add (positive) or to pick out (negative) to get there */
  double pulled_mm;   /* what pulling must then still close; ≤ 0: nothing */
  double over_mm;     /* what the strip is then longer than the way round; ≤ 0: it is not */
  double bed_mm;      /* how much thicker the bed must be for it to grip; 0: it grips as it is */
  double stay_bed_mm; /* how much thicker instead of picking rows out; 0: nothing is to be picked
                         out, or an odd row is among them */
} BwTryOn;

/* What to do with a strip of `rows` rows whose ends miss each other by short_beads beads of a
 * column (negative: they overlap). A bead more is two rows and one pitch of length. A strip that
 * pulling closes and that is not too long by more than the slack is left as it is. Else the fewest
 * beads with which what is still missing is no more than pulling gives, as bw_fit_init() has it for
 * that count, are best; where such a strip is longer by more than the slack, a bed thicker by the
 * excess / 2π takes it up (exact round every convex section: Steiner's formula for parallel
 * bodies). An odd row counts with half a bead, since it raises beads on both ends.
 *
 * short_beads is bounded to half of what the limits of rows allow. */
void bw_try_on_init (BwTryOn *try_on, const BwDesign *design, const BwStone *stone, int rows,
                     double short_beads);

/* By how many beads a strip of `rows` rows can overlap at most: three must be left to go round. */
double bw_try_on_most_over (int rows);

/* Makes the bed thicker by by_mm > 0: one layer of cord, or each of its layers, becomes so much
 * thicker that together they do; a girth measured over the bed is dropped, because it no longer
 * holds. FALSE with *error at /bed when the bed cannot be so thick; *design is then as it was. */
gboolean bw_try_on_thicken (BwDesign *design, const BwStone *stone, double by_mm, GError **error);
