/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The chance that a count closes and grips, against the same errors summed up over a grid. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "core/band/forecast.h"
#include "core/band/odds.h"
#include "core/base/normal.h"

#include "samples.h"

#include <math.h>

#define SEED 20

/* --- Two normal numbers ------------------------------------------------------------------------
 */

static double
density (double z)
{
  return exp (-0.5 * z * z) / sqrt (2 * G_PI);
}

/* Over the first, the chance of the second, by Simpson's rule. */
static double
both_by_sum (double h, double k, double rho)
{
  double sum = 0, lo = -9, step = (h - lo) / 4000, rest = sqrt (1 - rho * rho);
  for (int i = 0; i <= 4000; i++) {
    double x = lo + i * step, weight = i == 0 || i == 4000 ? 1 : 2 + 2 * (i % 2);
    sum += weight * density (x) * bw_normal_below ((k - rho * x) / rest);
  }
  return sum * step / 3;
}

static void
two_normal_numbers_are_below_both_limits_as_often_as_a_sum_says (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  for (int i = 0; i < 400; i++) {
    double h = sample_between (rand, -4, 4), k = sample_between (rand, -4, 4);
    double rho = sin (sample_between (rand, -1.5, 1.5));
    if (i % 5 == 0)
      h = 0;
    if (i % 7 == 0)
      k = 0;
    if (i % 11 == 0)
      k = h;
    assert_near (bw_normal_both_below (h, k, rho), both_by_sum (h, k, rho), 1e-7);
  }
}

/* Sheppard, Philosophical Transactions of the Royal Society A 192, 1899: from the middle on both
 * are below with a chance of 1/4 + asin ρ/2π. */
static void
limits_at_the_middle_and_out_of_reach_are_told_exactly (void **state)
{
  for (double rho = -0.99; rho < 1; rho += 0.09)
    assert_near (bw_normal_both_below (0, 0, rho), 0.25 + asin (rho) / (2 * G_PI), 1e-12);
  assert_near (bw_normal_both_below (INFINITY, 0.3, 0.4), bw_normal_below (0.3), 1e-12);
  assert_near (bw_normal_both_below (-0.2, INFINITY, -0.4), bw_normal_below (-0.2), 1e-12);
  assert_near (bw_normal_both_below (-INFINITY, 2, 0.5), 0, 1e-12);
  assert_near (bw_normal_both_below (0.5, -0.1, 1), bw_normal_below (-0.1), 1e-12);
  assert_near (bw_normal_both_below (0.5, -0.1, -1),
               bw_normal_below (0.5) + bw_normal_below (-0.1) - 1, 1e-12);
}

/* --- A strip -----------------------------------------------------------------------------------
 */

typedef struct {
  BwDesign design;
  BwStone stone;
  BwFit woven, count;
  BwReading reading;
  int rows;
} Strip;

static void
strip_init (Strip *strip, GRand *rand)
{
  BwDesign *design = &strip->design;
  *design = sample_design ();
  design->stone.second_girth_mm = 84.3 * sample_between (rand, 0.975, 1.025);
  if (g_rand_boolean (rand)) {
    design->stone.measured = BW_MEASURED_GIRTH;
    design->stone.values_mm[0] = 84.3;
  }
  design->bed.layers = g_rand_int_range (rand, 1, 3);
  design->pitch.sd_mm = sample_between (rand, 0.002, 0.03);
  sample_solve (design, &strip->stone);
  int n = bw_fit_recommended (design, &strip->stone);
  strip->rows = 2 * n - g_rand_int_range (rand, 0, 6);
  bw_fit_init (&strip->woven, design, &strip->stone, strip->rows);
  bw_fit_init (&strip->count, design, &strip->stone, 2 * (n + g_rand_int_range (rand, -1, 2)));
  strip->reading.how = g_rand_boolean (rand) ? BW_TRIED_SLACK : BW_TRIED_PULLED;
  strip->reading.tool = g_rand_boolean (rand) ? BW_TRIED_BY_EYE : BW_TRIED_BY_CALLIPER;
}

/* What a strip would lack with these errors, and what would be read of it. */
typedef struct {
  double open_mm, least_mm; /* pulled, where it is most open; slack, where it is least */
  double slack_mm;          /* of the column that is most open */
  double pull_mm;
} Lacks;

static Lacks
lacks_of (const BwFit *fit, double a, double b, double x, double pivot)
{
  Lacks lacks = { -INFINITY, INFINITY, 0, 0 };
  for (int i = 0; i < fit->n_columns; i++) {
    const BwFitColumn *column = &fit->column[i];
    double slack = column->gap_mm + a + x * (column->height_mm - pivot);
    double open = slack - column->pull_mm + b;
    if (open > lacks.open_mm) {
      lacks.open_mm = open;
      lacks.slack_mm = slack;
      lacks.pull_mm = column->pull_mm;
    }
    lacks.least_mm = MIN (lacks.least_mm, slack);
  }
  return lacks;
}

typedef struct {
  double all_sd, pull_sd, read_sd, slope_sd, pivot;
} Errors;

/* From what was measured, in other words than the core's: two girths, each with its error. */
static Errors
errors_of (const Strip *strip)
{
  const BwStoneMeasures *stone = &strip->design.stone;
  double second = stone->girth_sd_mm;
  double first = stone->measured == BW_MEASURED_GIRTH ? second : second / 2;
  double apart = stone->second_at_mm - stone->at_mm;
  double sigma = bw_forecast_sigma_mm (&strip->design, &strip->stone);
  double pull = bw_forecast_pull_sd_mm (&strip->design, &strip->stone, strip->woven.beads_around);
  double best = 1 / (1 / (first * first) + 1 / (second * second));
  double p = strip->design.pitch.mm, tool = 0.15;
  if (strip->reading.tool == BW_TRIED_BY_EYE)
    tool = p * sqrt (0.15 * 0.15 + 0.25 / 12);
  Lacks told = lacks_of (&strip->woven, 0, 0, 0, 0);
  double hand = strip->reading.how == BW_TRIED_PULLED ? 0.15 * told.pull_mm : 0;
  return (Errors){
    .all_sd = sqrt (sigma * sigma - pull * pull - first * first + best),
    .pull_sd = pull,
    .read_sd = hypot (tool, hand),
    .slope_sd = hypot (first, second) / apart,
    .pivot = (stone->at_mm / (first * first) + stone->second_at_mm / (second * second)) * best,
  };
}

#define SDS 4.5

/* Every error in small steps, each case as likely as it is with the reading: what share of them
 * closes, and what share closes and grips. */
static void
sum_up (const Strip *strip, double *closes, double *snug)
{
  Errors is = errors_of (strip);
  const BwDesign *design = &strip->design;
  double all = 0, close = 0, both = 0, half = strip->rows % 2 * design->pitch.mm / 2;
  double girth = strip->stone.girth_mm, told = strip->stone.taper_per_mm;
  for (double u = -SDS; u <= SDS; u += 0.15)
    for (double v = -SDS; v <= SDS; v += 0.15) {
      double x = u * is.slope_sd, b = v * is.pull_sd, k = (told + x / girth) / 0.001;
      double usual = pow (1 + k * k / 4, -2.5);
      Lacks was = lacks_of (&strip->woven, 0, b, x, is.pivot);
      Lacks will = lacks_of (&strip->count, 0, b, x, is.pivot);
      double read = half + (strip->reading.how == BW_TRIED_SLACK ? was.slack_mm : was.open_mm);
      for (double w = -SDS; w <= SDS; w += 0.02) {
        double a = w * is.all_sd, off = (strip->reading.short_mm - read - a) / is.read_sd;
        double likely = usual * exp (-0.5 * (u * u + v * v + w * w + off * off));
        gboolean closed = will.open_mm + a <= 0;
        all += likely;
        close += closed ? likely : 0;
        both += closed && will.least_mm + a >= -design->limits.slack_mm ? likely : 0;
      }
    }
  *closes = close / all;
  *snug = both / all;
}

static void
a_count_closes_and_grips_as_often_as_its_errors_let_it (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  g_autofree Strip *strip = g_new (Strip, 1);
  int told = 0;
  for (int k = 0; k < 30; k++) {
    double closes, snug;
    BwKnownStrip known;
    strip_init (strip, rand);
    Lacks foretold = lacks_of (&strip->woven, 0, 0, 0, 0);
    double slack = strip->reading.how == BW_TRIED_SLACK ? foretold.slack_mm : foretold.open_mm;
    strip->reading.short_mm = slack + sample_between (rand, -0.6, 0.6);
    bw_known_strip_init (&known, &strip->design, &strip->stone, strip->rows, &strip->reading);
    BwOdds odds = bw_known_strip_odds (&known, strip->count.beads_around);
    sum_up (strip, &closes, &snug);
    assert_near (odds.closes, closes, 0.004);
    assert_near (odds.snug, snug, 0.004);
    told += snug > 0.05 && snug < 0.95;
  }
  assert_true (told >= 12);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (two_normal_numbers_are_below_both_limits_as_often_as_a_sum_says),
    cmocka_unit_test (limits_at_the_middle_and_out_of_reach_are_told_exactly),
    cmocka_unit_test (a_count_closes_and_grips_as_often_as_its_errors_let_it),
  };
  return cmocka_run_group_tests_name ("odds", tests, NULL, NULL);
}
