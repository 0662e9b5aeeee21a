/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "core/band/odds.h"

#include "core/band/forecast.h"
#include "core/base/normal.h"
#include "core/base/tolerance.h"

#include <math.h>

#define CONTRADICTS_SDS 3.0 /* from what was known: three in a thousand by chance */
#define DOUBTED_SDS 2.5     /* from here on it fades, so that nothing jumps at three */
#define TAPER_SDS 4.0       /* either side; beyond lies less than one in ten thousand */

/* --- The ends of a band -------------------------------------------------------------------------
 */

/* What its columns lack and what they can give, one taper taken. */
typedef struct {
  BwDeciding deciding;
  double least_mm; /* what the loosest lacks, slack */
} Ends;

static Ends
ends_of (const BwFit *fit, double slope, double pivot_mm)
{
  Ends ends = { { -INFINITY, 0 }, INFINITY };
  for (int i = 0; i < fit->n_columns; i++) {
    const BwFitColumn *column = &fit->column[i];
    double gap = column->gap_mm + slope * (column->height_mm - pivot_mm);
    if (gap - column->pull_mm > ends.deciding.gap_mm - ends.deciding.pull_mm)
      ends.deciding = (BwDeciding){ gap, column->pull_mm };
    ends.least_mm = MIN (ends.least_mm, gap);
  }
  return ends;
}

/* The fit counts an odd row as a whole bead; it is half a one. */
static double
half_bead (const BwDesign *design, int rows)
{
  return rows % 2 * design->pitch.mm / 2;
}

BwDeciding
bw_deciding (const BwDesign *design, const BwStone *stone, int rows)
{
  g_autofree BwFit *fit = g_new (BwFit, 1);
  bw_fit_init (fit, design, stone, rows);
  BwDeciding deciding = ends_of (fit, 0, 0).deciding;
  deciding.gap_mm += half_bead (design, rows);
  return deciding;
}

/* --- What is not known --------------------------------------------------------------------------
 */

/* Squares, so that they add up. */
typedef struct {
  double all_mm2;  /* of a */
  double pull_mm2; /* of b */
  double read_mm2;
} Errors;

/* A girth by a strip of paper, or one told by calliper, which is known to half of that. */
static double
first_girth_sd_mm (const BwStoneMeasures *stone)
{
  return stone->girth_sd_mm * (stone->measured == BW_MEASURED_GIRTH ? 1 : 0.5);
}

/* And with a second one, where both together know it best. */
static double
best_girth_sd_mm (const BwStoneMeasures *stone)
{
  double first = first_girth_sd_mm (stone), second = stone->girth_sd_mm;
  return stone->has_second && second > 0 ? first * second / hypot (first, second) : first;
}

static double
tool_sd_mm (const BwDesign *design, const BwReading *reading)
{
  if (reading->tool == BW_TRIED_BY_CALLIPER)
    return BW_TRIED_CALLIPER_MM;
  return hypot (BW_TRIED_EYE_BEADS, BW_TRIED_EYE_STEP_BEADS / sqrt (12)) * design->pitch.mm;
}

/* The forecast's error, less the pull's share, and with the girth known as well as it is at its
 * best. */
static double
all_mm2 (const BwDesign *design, const BwStone *stone, double pull_mm2)
{
  double sigma = bw_forecast_sigma_mm (design, stone);
  double first = first_girth_sd_mm (&design->stone), best = best_girth_sd_mm (&design->stone);
  return MAX (sigma * sigma - pull_mm2 - first * first + best * best, 0);
}

static Errors
errors_of (const BwKnownStrip *known, const BwReading *reading)
{
  double pull = bw_forecast_pull_sd_mm (known->design, known->stone, (known->rows + 1) / 2);
  double tool = tool_sd_mm (known->design, reading);
  double hand = reading->how == BW_TRIED_PULLED ? BW_TRIED_HAND_SHARE * known->woven.pull_mm : 0;
  return (Errors){ .all_mm2 = all_mm2 (known->design, known->stone, pull * pull),
                   .pull_mm2 = pull * pull,
                   .read_mm2 = tool * tool + hand * hand };
}

/* How likely a prism tapers so, before it was measured: Student's distribution of four degrees of
 * freedom, whose far ends leave a stone that tapers much all it was measured to. */
static double
usual (double taper_per_mm)
{
  double sds = taper_per_mm / BW_TAPER_USUAL;
  return pow (1 + sds * sds / 4, -2.5);
}

/* The tapers there may be, each with its likelihood before the strip is read. */
static void
set_tapers (BwKnownStrip *known)
{
  const BwStoneMeasures *stone = &known->design->stone;
  double first = first_girth_sd_mm (stone), second = stone->girth_sd_mm;
  known->n_tapers = 1;
  known->taper[0] = (BwKnownTaper){ .weight = 1 };
  if (!stone->has_second || !(second > 0))
    return;
  double apart = stone->second_at_mm - stone->at_mm, sd = hypot (first, second) / fabs (apart);
  known->n_tapers = BW_TAPERS;
  known->pivot_mm = stone->at_mm + apart * first * first / (first * first + second * second);
  for (int i = 0; i < BW_TAPERS; i++) {
    double z = TAPER_SDS * (2.0 * i / (BW_TAPERS - 1) - 1), slope = z * sd;
    double taper = known->stone->taper_per_mm + slope / known->stone->girth_mm;
    known->taper[i]
        = (BwKnownTaper){ .slope = slope, .weight = exp (-0.5 * z * z) * usual (taper) };
  }
}

static void
share_weights (BwKnownStrip *known)
{
  double all = 0;
  for (int i = 0; i < known->n_tapers; i++)
    all += known->taper[i].weight;
  for (int i = 0; i < known->n_tapers; i++)
    known->taper[i].weight /= all;
}

/* --- What a reading teaches ---------------------------------------------------------------------
 */

/* What would be read, and what of it is slack, by each taper. */
typedef struct {
  double read_mm[BW_TAPERS], deciding_mm[BW_TAPERS];
  double mean_mm, variance_mm2; /* over the tapers, of the former */
} Foretold;

static Foretold
foretell (const BwKnownStrip *known, gboolean is_pulled)
{
  Foretold foretold = { .mean_mm = 0 };
  g_autofree BwFit *fit = g_new (BwFit, 1);
  bw_fit_init (fit, known->design, known->stone, known->rows);
  double half = half_bead (known->design, known->rows), square = 0;
  for (int i = 0; i < known->n_tapers; i++) {
    BwDeciding is = ends_of (fit, known->taper[i].slope, known->pivot_mm).deciding;
    foretold.deciding_mm[i] = is.gap_mm + half - is.pull_mm;
    foretold.read_mm[i] = foretold.deciding_mm[i] + (is_pulled ? 0 : is.pull_mm);
    foretold.mean_mm += known->taper[i].weight * foretold.read_mm[i];
    square += known->taper[i].weight * foretold.read_mm[i] * foretold.read_mm[i];
  }
  foretold.variance_mm2 = MAX (square - foretold.mean_mm * foretold.mean_mm, 0);
  return foretold;
}

/* How far what was known is believed with a reading so many standard errors off it: wholly, less
 * and less, not at all. */
static double
belief (double sds)
{
  return CLAMP ((CONTRADICTS_SDS - sds) / (CONTRADICTS_SDS - DOUBTED_SDS), 0, 1);
}

/* One part of a sum of variances; all of it where there is nothing. */
static double
share_of (double part, double rest)
{
  return part + rest > 0 ? part / (part + rest) : 1;
}

/* What is left of the errors, of a and of a + b, and how the two go together; squares. */
static void
set_errors (BwKnownStrip *known, double slack, double pulled, double together)
{
  known->slack_sd_mm = sqrt (slack);
  known->pulled_sd_mm = sqrt (pulled);
  known->together = slack > 0 && pulled > 0 ? MIN (together / sqrt (slack * pulled), 1) : 0;
}

/* Normal and normal: what each says counts by the inverse square of its error. Where what was known
 * is doubted, the error of a is taken to be so much greater. */
static void
weigh (BwKnownStrip *known, const Foretold *foretold, const BwReading *reading, Errors errors,
       double believed)
{
  gboolean is_pulled = reading->how == BW_TRIED_PULLED;
  double doubted = believed * (is_pulled ? errors.pull_mm2 : 0); /* all times believed */
  double known_to = errors.all_mm2 + doubted, noise = believed * errors.read_mm2;
  double learnt = share_of (known_to, noise), of_all = share_of (errors.all_mm2, doubted);
  for (int i = 0; i < known->n_tapers; i++) {
    BwKnownTaper *taper = &known->taper[i];
    double off = reading->short_mm - foretold->read_mm[i];
    taper->pulled_mm = learnt * off;
    taper->slack_mm = of_all * learnt * off;
    if (believed > 0)
      taper->weight *= exp (-0.5 * believed * off * off / (known_to + noise));
  }
  double left = learnt * errors.read_mm2;
  if (is_pulled)
    set_errors (known, of_all * (of_all * left + errors.pull_mm2), left, of_all * left);
  else
    set_errors (known, left, left + errors.pull_mm2, left);
}

/* By how much more is missing, pulled, than the fit foretells: mean and error over the tapers. */
static void
sum_up (BwKnownStrip *known, const Foretold *foretold)
{
  double mean = 0, square = 0, fit_mm = known->woven.gap_mm - known->woven.pull_mm;
  for (int i = 0; i < known->n_tapers; i++) {
    double longer = foretold->deciding_mm[i] + known->taper[i].pulled_mm - fit_mm;
    mean += known->taper[i].weight * longer;
    square += known->taper[i].weight * longer * longer;
  }
  known->longer_mm = mean;
  known->longer_sd_mm
      = sqrt (MAX (square - mean * mean, 0) + known->pulled_sd_mm * known->pulled_sd_mm);
}

void
bw_known_strip_init (BwKnownStrip *known, const BwDesign *design, const BwStone *stone, int rows,
                     const BwReading *reading)
{
  *known = (BwKnownStrip){ .design = design, .stone = stone, .rows = rows };
  known->woven = bw_deciding (design, stone, rows);
  double most = BW_ROWS_MAX / 2.0 * design->pitch.mm;
  BwReading read = { CLAMP (reading->short_mm, -most, most), reading->how, reading->tool };
  Errors errors = errors_of (known, &read);
  set_tapers (known);
  share_weights (known);
  gboolean is_pulled = read.how == BW_TRIED_PULLED;
  Foretold foretold = foretell (known, is_pulled);
  double off = read.short_mm - foretold.mean_mm;
  double off_sd = sqrt (errors.all_mm2 + (is_pulled ? errors.pull_mm2 : 0) + errors.read_mm2
                        + foretold.variance_mm2);
  weigh (known, &foretold, &read, errors, belief (fabs (off) / off_sd));
  share_weights (known);
  sum_up (known, &foretold);
  known->astray_mm = fabs (off) > CONTRADICTS_SDS * off_sd ? off : 0;
}

/* --- What a count has --------------------------------------------------------------------------
 */

/* The standard score of a limit; an error of nothing leaves no doubt. */
static double
score (double limit_mm, double sd_mm)
{
  if (sd_mm > 0)
    return limit_mm / sd_mm;
  return limit_mm >= -BW_ROUNDING_MM ? (double)INFINITY : (double)-INFINITY;
}

static void
add_taper (BwOdds *odds, const BwKnownStrip *known, const BwKnownTaper *taper, const Ends *ends)
{
  double room = ends->deciding.pull_mm - ends->deciding.gap_mm - taper->pulled_mm;
  double spare = ends->least_mm + known->design->limits.slack_mm + taper->slack_mm;
  double room_score = score (room, known->pulled_sd_mm);
  double spare_score = score (spare, known->slack_sd_mm);
  double closes = bw_normal_below (room_score);
  double loose = bw_normal_both_below (room_score, -spare_score, known->together);
  double less = bw_normal_below (score (room - known->design->pitch.mm, known->pulled_sd_mm));
  odds->closes += taper->weight * closes;
  odds->snug += taper->weight * MAX (closes - loose, 0);
  odds->fewest += taper->weight * (closes - less);
  odds->off_mm += taper->weight * MAX (MAX (-room, -spare), 0);
}

BwOdds
bw_known_strip_odds (const BwKnownStrip *known, int beads_around)
{
  BwOdds odds = { 0 };
  g_autofree BwFit *fit = g_new (BwFit, 1);
  bw_fit_init (fit, known->design, known->stone, 2 * beads_around);
  for (int i = 0; i < known->n_tapers; i++) {
    Ends ends = ends_of (fit, known->taper[i].slope, known->pivot_mm);
    add_taper (&odds, known, &known->taper[i], &ends);
  }
  return odds;
}
