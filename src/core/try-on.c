/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stone itself has spoken: its girth is no longer asked for, only what pulling gives. */
#include "try-on.h"

#include "limits.h"
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

void
bw_try_on_init (BwTryOn *try_on, const BwDesign *design, const BwStone *stone, int rows,
                double short_beads)
{
  double most = BW_ROWS_MAX / 2.0, round = rows / 2.0 + CLAMP (short_beads, -most, most);
  int n = fewest (design, stone, round);
  double missing = (round - n) * design->pitch.mm;
  *try_on = (BwTryOn){
    .rows = 2 * n, .change = 2 * n - rows, .pulled_mm = missing, .over_mm = -missing
  };
  if (try_on->over_mm > design->limits.slack_mm)
    try_on->bed_mm = try_on->over_mm / (2 * G_PI);
}
