/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How sure the row count is: the girth's and the pitch's uncertainty carried round the ring.
 *
 * σ_eff = hypot (girth_sd, n sd_p). The girth's error (0.4 mm unless the maker says otherwise) is
 * that of a strip of paper. Where the way round the bed is known by a calliper on the stone, the
 * girth is known to about half of that, and the rest stands for what nobody measures: how thick the
 * bed came out, how much it gives and how far the thread stretches. Where a strip of paper told it,
 * round the stone or over the bed, these come on top:
 *
 *   σ_eff² = girth_sd² + (n sd_p)² + (2π (1 − q) sd_t)² + (2π t q / 3)² + (0.3 n p ε)²,
 *
 * sd_t left out where the girth over the bed was measured. So it is in tests/bench/bench-study.c
 * that what is told comes true. Where squeeze and stretch were learnt ("core/design/give.h"), their
 * own errors stand for a third of q and 0.3 ε, and a girth told by calliper is known by so much
 * better as they are known better than is usual:
 *
 *   girth_sd² − (2π t)² (0.05² − sd_q²) − (n p)² (0.003² − sd_ε²), at least girth_sd²/4. */
#pragma once

#include "core/band/fit.h"

typedef struct {
  int beads_around;
  double p; /* that this is the smallest count that closes */
} BwChance;

/* What bed and pull are known to, of a study of makers: thickness of the bed, 0.02 mm; squeeze,
 * 0.15 ± 0.05; stretch, 0.010 ± 0.003; the latter two as shares of what they are taken to be. */
#define BW_KNOWN_BED_MM 0.02
#define BW_KNOWN_SQUEEZE_SHARE (1 / 3.0)
#define BW_KNOWN_STRETCH_SHARE 0.3
/* Of the square of a girth's error told by calliper what is the calliper's own: half of the error.
 */
#define BW_OWN_GIRTH_SHARE 0.25

#define BW_FORECAST_MAX 512

typedef struct {
  double sigma_mm; /* σ_eff with n the recommended count; after a try-on what the reading leaves of
                      it */
  int recommended; /* beads around; after a try-on the count it tells */
  double closes_probability; /* of the project's own count */
  int try_on_row; /* the first: 2n − 2 for the smallest n with P ≥ 1 %; where the error is so
                     large that no n has that, for the smallest n that closes with 1 % */
  int n_chances;
  BwChance chance[BW_FORECAST_MAX]; /* every n with P ≥ 1 %, ascending */
  double p_total; /* sum over all n, those below 1 % as well: 1 but for rounding */
} BwForecast;

/* What is told of one count: the forecast's own numbers of it, without those of all others. */
typedef struct {
  double fewest; /* that it is the smallest that closes */
  double closes;
  double sigma_mm; /* σ_eff, the forecast's */
} BwCountChance;

BwCountChance bw_forecast_count (const BwDesign *design, const BwStone *stone, int beads_around);

/* P(n) = Φ((λ_n − 1) g1/σ_eff) − Φ((λ_{n−1} − 1) g1/σ_eff). */
void bw_forecast_init (BwForecast *forecast, const BwDesign *design, const BwStone *stone);

/* σ_eff alone. */
double bw_forecast_sigma_mm (const BwDesign *design, const BwStone *stone);

/* σ_eff with n beads around, whatever a try-on taught. */
double bw_forecast_sigma_of (const BwDesign *design, const BwStone *stone, int beads_around);

/* How well squeeze and stretch are known: their own sd once learnt, else those shares. */
double bw_forecast_squeeze_sd (const BwDesign *design);
double bw_forecast_stretch_sd (const BwDesign *design);

/* What pulling gives is known to no better than this: hypot (2π t sd_q, n p sd_ε), t the thickness
 * of the bed at the middle of the band. */
double bw_forecast_pull_sd_mm (const BwDesign *design, const BwStone *stone, int beads_around);

/* The chance that the recommended count is right the first time if the pitch's sd were sd_mm and
 * the girth's girth_sd_mm, the rest as it is: what a swatch or a try-on would add. 0..1. */
double bw_forecast_chance_with (const BwDesign *design, const BwStone *stone, double sd_mm,
                                double girth_sd_mm);
