/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether what the hands tell comes true: each piece of a book is foretold from the pieces before
 * it, as it would have been when it was begun, and held against what it became.
 *
 * Piece j is foretold as normal with the mean and sd of bw_hands_init() for a next piece of its
 * kind, its readings' own error added. z is how many of these it lies off; told well, its mean is
 * 0, its sd 1. Of a finished piece the chance of each count is Φ((y(m − 1) − mean)/s) − Φ((y(m) −
 * mean)/s),  y(m) = ln (p* n / (m D)),  s = hypot (sd, girth_sd/(n p*)), p* the pitch at which its
 * n beads just close: m − 1 beads want a wider pitch than m. The likeliest is what would have been
 * told, and right where it is n. */
#pragma once

#include "core/workshop/hands.h"

/* How a piece ended; beads_around 0: not yet, or not known. */
typedef struct {
  int beads_around;
  double closing_pitch_mm, girth_sd_mm, diameter_mm;
} BwHandsEnd;

typedef struct {
  int pieces; /* that were foretold: those with readings and at least one such before them */
  double mean_z, sd_z;
  double within_one, within_two; /* shares that lie within one and two told errors; 0.683, 0.954 */
  int finished;                  /* counts foretold */
  double right_told, right_came; /* mean chance of the likeliest, share of them that were right */
  /* Every count of a finished piece told with 1 % or more, by the tenth of its chance. */
  int told[10];
  double chance[10], came[10]; /* means; 0 where nothing was told */
} BwCalibration;

/* ends: as many as pieces, or NULL. Quadratic in pieces; ten thousand take about a second. */
void bw_calibration_init (BwCalibration *self, BwHandsSpread spread, const BwHandsPiece *pieces,
                          const BwHandsEnd *ends, int n_pieces, int n_kinds);
