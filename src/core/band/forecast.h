/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How sure the row count is: the girth's and the pitch's uncertainty carried round the ring. */
#pragma once

#include "core/band/fit.h"

typedef struct {
  int beads_around;
  double p; /* that this is the smallest count that closes */
} BwChance;

#define BW_FORECAST_MAX 512

typedef struct {
  double sigma_mm; /* σ_eff = hypot(girth_sd, n sd_p) with n the recommended count; after a try-on
                      what the reading leaves of it */
  int recommended; /* beads around; after a try-on the count it tells */
  double closes_probability; /* of the project's own count */
  int try_on_row; /* the first: 2n − 2 for the smallest n with P ≥ 1 %; where the error is so
                     large that no n has that, for the smallest n that closes with 1 % */
  int n_chances;
  BwChance chance[BW_FORECAST_MAX]; /* every n with P ≥ 1 %, ascending */
  double p_total; /* sum over all n, those below 1 % as well: 1 but for rounding */
} BwForecast;

/* P(n) = Φ((λ_n − 1) g1/σ_eff) − Φ((λ_{n−1} − 1) g1/σ_eff). */
void bw_forecast_init (BwForecast *forecast, const BwDesign *design, const BwStone *stone);

/* σ_eff alone. */
double bw_forecast_sigma_mm (const BwDesign *design, const BwStone *stone);

/* The chance that the recommended count is right the first time if the pitch's sd were sd_mm and
 * the girth's girth_sd_mm, the rest as it is: what a swatch or a try-on would add. 0..1. */
double bw_forecast_chance_with (const BwDesign *design, const BwStone *stone, double sd_mm,
                                double girth_sd_mm);
