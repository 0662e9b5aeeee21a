/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stone itself has spoken: its girth is no longer asked for, only what pulling gives. */
#include "core/band/try-on.h"

#include "core/base/limits.h"
#include <math.h>

#define ROWS_LEAST 6 /* three beads around */

/* What pulling gives at this many beads around: the least of all columns. */
static double
pull_mm (const BwDesign *design, const BwStone *stone, int n)
{
  double least = INFINITY;
  g_autofree BwFit *fit = g_new (BwFit, 1);
  bw_fit_init (fit, design, stone, 2 * n);
  for (int i = 0; i < fit->n_columns; i++)
    least = MIN (least, fit->column[i].pull_mm);
  return least;
}

/* The fewest beads with which pulling closes what is missing. */
static int
fewest (const BwDesign *design, const BwStone *stone, double round)
{
  double p = design->pitch.mm;
  int n = (int)CLAMP (floor (round), ROWS_LEAST / 2, BW_ROWS_MAX / 2);
  while (n > ROWS_LEAST / 2 && (round - n + 1) * p <= pull_mm (design, stone, n - 1))
    n--;
  while (n < BW_ROWS_MAX / 2 && (round - n) * p > pull_mm (design, stone, n))
    n++;
  return n;
}

/* Nobody picks out a strip that closes and grips. */
static gboolean
fits_as_it_is (const BwDesign *design, const BwStone *stone, int rows, double missing_mm)
{
  return rows % 2 == 0 && rows >= ROWS_LEAST && missing_mm >= -design->limits.slack_mm
         && missing_mm <= pull_mm (design, stone, rows / 2);
}

static double
thicker_mm (const BwDesign *design, double over_mm)
{
  return over_mm > design->limits.slack_mm ? over_mm / (2 * G_PI) : 0;
}

void
bw_try_on_init (BwTryOn *try_on, const BwDesign *design, const BwStone *stone, int rows,
                double short_beads)
{
  double most = BW_ROWS_MAX / 2.0, beads = CLAMP (short_beads, -most, most);
  double round = rows / 2.0 + beads, p = design->pitch.mm;
  int n = fits_as_it_is (design, stone, rows, beads * p) ? rows / 2 : fewest (design, stone, round);
  double missing = (round - n) * p;
  *try_on = (BwTryOn){
    .rows = 2 * n, .change = 2 * n - rows, .pulled_mm = missing, .over_mm = -missing
  };
  try_on->bed_mm = thicker_mm (design, -missing);
  if (try_on->change < 0 && rows % 2 == 0)
    try_on->stay_bed_mm = thicker_mm (design, -beads * p);
}

double
bw_try_on_most_over (int rows)
{
  return MAX (rows - ROWS_LEAST, 0) / 2.0;
}

gboolean
bw_try_on_thicken (BwDesign *design, const BwStone *stone, double by_mm, GError **error)
{
  BwDesign thicker = *design;
  BwBedding bedding;
  if (!bw_bedding_init (&bedding, &design->bed, stone, bw_design_span (design), error))
    return FALSE;
  thicker.bed.has_girth_over = FALSE;
  thicker.bed.layers = MAX (thicker.bed.layers, 1);
  thicker.bed.cord_thickness_mm = (bedding.bottom_mm + by_mm) / thicker.bed.layers;
  if (!bw_design_validate (&thicker, NULL, error))
    return FALSE;
  *design = thicker;
  return TRUE;
}
