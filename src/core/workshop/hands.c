/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The unknowns are eliminated from the leaves up. A piece's own l_j goes first: what it leaves is a
 * reading of h + b_k that is less sure by the spread of pieces. The readings of a kind then meet in
 * one, which without b_k is a reading of h. Down again, h tells each kind what the others know. */
#include "core/workshop/hands.h"

#include <math.h>

#define SHRINK_PIECES 10.0 /* weight of the usual spread when another is estimated; judgement */
/* The grid of factors of the usual spread, each way from 1. */
#define GRID_STEPS 7
#define GRID_RATIO 1.35

/* A normal reading gathered from many: precision and precision × mean. */
typedef struct {
  double precision, weighted;
} Sum;

BwHandsSpread
bw_hands_usual_spread (void)
{
  return (BwHandsSpread){ 0.013, 0.013, sqrt (0.02 * 0.02 - 2 * 0.013 * 0.013) };
}

BwHandsReading
bw_hands_strip (int rows, double length_mm, double error_mm, double diameter_mm)
{
  return (BwHandsReading){ log (2 * length_mm / ((rows + 1) * diameter_mm)), error_mm / length_mm };
}

BwHandsReading
bw_hands_finished (int beads_around, double closing_pitch_mm, double girth_sd_mm,
                   double diameter_mm)
{
  /* Uniform over the step of one bead round, whose standard deviation is the step / √12; the step
   * ends where a bead less would close. */
  double error = hypot (girth_sd_mm, closing_pitch_mm / sqrt (12));
  double middle_mm = closing_pitch_mm * beads_around / (beads_around - 0.5);
  return (BwHandsReading){ log (middle_mm / diameter_mm),
                           error / (beads_around * closing_pitch_mm) };
}

void
bw_hands_add (BwHandsPiece *piece, BwHandsReading reading)
{
  double weight = 1 / (reading.sd * reading.sd);
  piece->y = (piece->weight * piece->y + weight * reading.y) / (piece->weight + weight);
  piece->weight += weight;
}

static void
add (Sum *sum, double mean, double precision)
{
  sum->precision += precision;
  sum->weighted += precision * mean;
}

/* Precision of a reading once an unknown of this spread stands between. */
static double
beyond (double precision, double spread)
{
  return precision > 0 ? 1 / (spread * spread + 1 / precision) : 0;
}

static Sum *
sum_kinds (BwHandsSpread spread, const BwHandsPiece *pieces, int n_pieces, int n_kinds)
{
  Sum *kinds = g_new0 (Sum, MAX (n_kinds, 1));
  for (int i = 0; i < n_pieces; i++)
    add (&kinds[pieces[i].kind], pieces[i].y, beyond (pieces[i].weight, spread.piece));
  return kinds;
}

static double
mean_of (Sum sum)
{
  return sum.precision > 0 ? sum.weighted / sum.precision : 0;
}

static BwHandsBelief
next_of_kind (BwHandsSpread spread, BwHandsBelief hands, Sum kind)
{
  double prior = 1 / (spread.kind * spread.kind), all = prior + kind.precision;
  double mean = (prior * hands.mean + kind.weighted) / all;
  double variance
      = 1 / all + prior * prior / (all * all) * hands.sd * hands.sd + spread.piece * spread.piece;
  return (BwHandsBelief){ mean, sqrt (variance) };
}

void
bw_hands_init (BwHands *self, BwHandsSpread spread, const BwHandsPiece *pieces, int n_pieces,
               int n_kinds)
{
  g_autofree Sum *kinds = sum_kinds (spread, pieces, n_pieces, n_kinds);
  Sum hands = { 1 / (spread.hands * spread.hands), 0 };
  for (int k = 0; k < n_kinds; k++)
    add (&hands, mean_of (kinds[k]), beyond (kinds[k].precision, spread.kind));
  self->hands = (BwHandsBelief){ mean_of (hands), 1 / sqrt (hands.precision) };
  self->n_kinds = n_kinds;
  self->next = g_new (BwHandsBelief, MAX (n_kinds, 1));
  for (int k = 0; k < n_kinds; k++)
    self->next[k] = next_of_kind (spread, self->hands, kinds[k]);
}

void
bw_hands_clear (BwHands *self)
{
  g_clear_pointer (&self->next, g_free);
  self->n_kinds = 0;
}

/* Of independent readings of one unknown with prior variance v: −½ Σ ln(2π/w_i) … gathered so that
 * each piece is seen once. The readings' own scatter about their mean does not depend on the spread
 * of what is above them, but on the weights, which do. */
typedef struct {
  double log_weights; /* Σ ln w_i */
  double squares;     /* Σ w_i y_i² */
  Sum sum;
} Scatter;

static void
scatter (Scatter *s, double y, double weight)
{
  if (weight <= 0)
    return;
  s->log_weights += log (weight);
  s->squares += weight * y * y;
  add (&s->sum, y, weight);
}

/* ln of ∫ Π N(y_i; u, 1/w_i) N(u; 0, v) du as the part that is left after the reading of u, with
 * its mean and precision in s->sum, is handed upwards. */
static double
within (const Scatter *s)
{
  if (s->sum.precision <= 0)
    return 0;
  return 0.5 * (s->log_weights - log (s->sum.precision))
         - 0.5 * (s->squares - s->sum.weighted * s->sum.weighted / s->sum.precision);
}

/* The pieces' part: each kind's readings gathered, what they say within the kind in *total. Owned.
 */
static Scatter *
scatter_pieces (double spread, const BwHandsPiece *pieces, int n_pieces, int n_kinds, double *total)
{
  Scatter *kinds = g_new0 (Scatter, MAX (n_kinds, 1));
  for (int i = 0; i < n_pieces; i++)
    scatter (&kinds[pieces[i].kind], pieces[i].y, beyond (pieces[i].weight, spread));
  *total = 0;
  for (int k = 0; k < n_kinds; k++)
    *total += within (&kinds[k]);
  return kinds;
}

/* The part above the kinds, which does not see the pieces any more. */
static double
likelihood_of_kinds (double hands_spread, double kind_spread, const Scatter *kinds, int n_kinds)
{
  Scatter hands = { 0 };
  for (int k = 0; k < n_kinds; k++)
    scatter (&hands, mean_of (kinds[k].sum), beyond (kinds[k].sum.precision, kind_spread));
  double last = beyond (hands.sum.precision, hands_spread), mean = mean_of (hands.sum);
  return last > 0 ? within (&hands) + 0.5 * log (last) - 0.5 * last * mean * mean : 0;
}

double
bw_hands_log_likelihood (BwHandsSpread spread, const BwHandsPiece *pieces, int n_pieces,
                         int n_kinds)
{
  double within_kinds;
  g_autofree Scatter *kinds
      = scatter_pieces (spread.piece, pieces, n_pieces, n_kinds, &within_kinds);
  return within_kinds + likelihood_of_kinds (spread.hands, spread.kind, kinds, n_kinds);
}

typedef struct {
  double likely;
  BwHandsSpread spread;
} Fitted;

/* All spreads of hands and kinds for one spread of pieces: these are gathered once. */
static void
fit_above (Fitted *best, double piece, const BwHandsPiece *pieces, int n_pieces, int n_kinds)
{
  BwHandsSpread usual = bw_hands_usual_spread ();
  double within_kinds;
  g_autofree Scatter *kinds = scatter_pieces (piece, pieces, n_pieces, n_kinds, &within_kinds);
  for (int a = -GRID_STEPS; a <= GRID_STEPS; a++)
    for (int b = -GRID_STEPS; b <= GRID_STEPS; b++) {
      BwHandsSpread spread
          = { usual.hands * pow (GRID_RATIO, a), usual.kind * pow (GRID_RATIO, b), piece };
      double likely
          = within_kinds + likelihood_of_kinds (spread.hands, spread.kind, kinds, n_kinds);
      if (likely > best->likely)
        *best = (Fitted){ likely, spread };
    }
}

static double
shrunk (double found, double usual, int n)
{
  return sqrt ((n * found * found + SHRINK_PIECES * usual * usual) / (n + SHRINK_PIECES));
}

/* Pieces with readings, and the kinds they are of. */
static int
count_told (const BwHandsPiece *pieces, int n_pieces, int n_kinds, int *kinds)
{
  g_autofree gboolean *is_told = g_new0 (gboolean, MAX (n_kinds, 1));
  int told = 0;
  for (int i = 0; i < n_pieces; i++)
    if (pieces[i].weight > 0) {
      is_told[pieces[i].kind] = TRUE;
      told++;
    }
  *kinds = 0;
  for (int k = 0; k < n_kinds; k++)
    *kinds += is_told[k];
  return told;
}

BwHandsSpread
bw_hands_fit_spread (const BwHandsPiece *pieces, int n_pieces, int n_kinds, gboolean *fitted)
{
  BwHandsSpread usual = bw_hands_usual_spread ();
  Fitted best = { -HUGE_VAL, usual };
  int kinds, told = count_told (pieces, n_pieces, n_kinds, &kinds);
  *fitted = told >= BW_HANDS_FIT_FROM;
  if (!*fitted)
    return usual;
  for (int c = -GRID_STEPS; c <= GRID_STEPS; c++)
    fit_above (&best, usual.piece * pow (GRID_RATIO, c), pieces, n_pieces, n_kinds);
  return (BwHandsSpread){ shrunk (best.spread.hands, usual.hands, 1),
                          shrunk (best.spread.kind, usual.kind, kinds),
                          shrunk (best.spread.piece, usual.piece, told) };
}

BwHandsPitch
bw_hands_pitch (BwHandsBelief next, double diameter_mm)
{
  double mm = diameter_mm * exp (next.mean);
  return (BwHandsPitch){ mm, mm * next.sd };
}
