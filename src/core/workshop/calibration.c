/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "core/workshop/calibration.h"

#include "core/base/normal.h"

#include <math.h>

#define LISTED 0.01 /* as the forecast lists counts */
#define REACH 5.0   /* standard errors */

typedef struct {
  double sum, squares;
  int within_one, within_two;
} Scores;

static void
score (Scores *scores, const BwHandsPiece *piece, BwHandsBelief next)
{
  double z = (piece->y - next.mean) / hypot (next.sd, 1 / sqrt (piece->weight));
  scores->sum += z;
  scores->squares += z * z;
  scores->within_one += fabs (z) <= 1;
  scores->within_two += fabs (z) <= 2;
}

/* The logarithm of the pitch with which m beads just close. */
static double
closing_at (const BwHandsEnd *end, int m)
{
  return log (end->closing_pitch_mm * end->beads_around / (m * end->diameter_mm));
}

static void
tell (BwCalibration *self, double chance, gboolean came)
{
  int tenth = CLAMP ((int)(10 * chance), 0, 9);
  self->told[tenth]++;
  self->chance[tenth] += chance;
  self->came[tenth] += came;
}

/* Every count that the belief gives a chance, the likeliest of them as what would be told. */
static void
foretell (BwCalibration *self, const BwHandsEnd *end, BwHandsBelief next)
{
  double s = hypot (next.sd, end->girth_sd_mm / (end->beads_around * end->closing_pitch_mm));
  int around
      = (int)ceil (end->beads_around
                   * (exp (REACH * s + fabs (closing_at (end, end->beads_around) - next.mean)) - 1))
        + 1;
  double best = 0;
  gboolean right = FALSE;
  for (int m = MAX (end->beads_around - around, 4); m <= end->beads_around + around; m++) {
    double chance = bw_normal_below ((closing_at (end, m - 1) - next.mean) / s)
                    - bw_normal_below ((closing_at (end, m) - next.mean) / s);
    if (chance >= LISTED)
      tell (self, chance, m == end->beads_around);
    if (chance > best) {
      best = chance;
      right = m == end->beads_around;
    }
  }
  self->finished++;
  self->right_told += best;
  self->right_came += right;
}

static void
divide (BwCalibration *self, const Scores *scores)
{
  double n = MAX (self->pieces, 1), ends = MAX (self->finished, 1);
  self->mean_z = scores->sum / n;
  self->sd_z = sqrt (MAX (scores->squares / n - self->mean_z * self->mean_z, 0));
  self->within_one = scores->within_one / n;
  self->within_two = scores->within_two / n;
  self->right_told /= ends;
  self->right_came /= ends;
  for (int i = 0; i < 10; i++) {
    self->chance[i] /= MAX (self->told[i], 1);
    self->came[i] /= MAX (self->told[i], 1);
  }
}

void
bw_calibration_init (BwCalibration *self, BwHandsSpread spread, const BwHandsPiece *pieces,
                     const BwHandsEnd *ends, int n_pieces, int n_kinds)
{
  Scores scores = { 0 };
  gboolean begun = FALSE;
  *self = (BwCalibration){ 0 };
  for (int i = 0; i < n_pieces; i++) {
    BwHands before;
    if (pieces[i].weight <= 0)
      continue;
    if (begun) {
      bw_hands_init (&before, spread, pieces, i, n_kinds);
      BwHandsBelief next = before.next[pieces[i].kind];
      bw_hands_clear (&before);
      score (&scores, &pieces[i], next);
      self->pieces++;
      if (ends && ends[i].beads_around > 0)
        foretell (self, &ends[i], next);
    }
    begun = TRUE;
  }
  divide (self, &scores);
}
