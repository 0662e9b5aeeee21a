/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The forecast: the chances follow their formula, and drawing stones at random gives them too. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include "core/band/forecast.h"
#include "samples.h"

#define DESIGNS 60

static double
normal_below (double z)
{
  return erfc (-z / G_SQRT2) / 2;
}

static double
closes_with (const BwDesign *design, const BwStone *stone, int n, double sigma)
{
  double lambda = bw_fit_closing_scale (design, stone, n);
  return lambda > 0 ? normal_below ((lambda - 1) * stone->girth_mm / sigma) : 0;
}

static double
listed_chance (const BwForecast *forecast, int n)
{
  for (int i = 0; i < forecast->n_chances; i++)
    if (forecast->chance[i].beads_around == n)
      return forecast->chance[i].p;
  return 0;
}

static void
every_chance_follows_the_formula_and_none_of_a_hundredth_is_missing (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (30);
  for (int k = 0; k < DESIGNS; k++) {
    BwStone stone;
    BwForecast forecast;
    BwDesign design = sample_random_design (rand, &stone);
    bw_forecast_init (&forecast, &design, &stone);
    int n = bw_fit_recommended (&design, &stone);
    double sigma = hypot (design.stone.girth_sd_mm, n * design.pitch.sd_mm);
    assert_int_equal (forecast.recommended, n);
    assert_near (forecast.sigma_mm, sigma, 1e-12);
    for (int m = MAX (3, n - 15); m < n + 15; m++) {
      double p
          = closes_with (&design, &stone, m, sigma) - closes_with (&design, &stone, m - 1, sigma);
      if (fabs (p - 0.01) > 1e-9)
        assert_near (listed_chance (&forecast, m), p < 0.01 ? 0 : p, 1e-9);
    }
    for (int i = 1; i < forecast.n_chances; i++)
      assert_true (forecast.chance[i].beads_around > forecast.chance[i - 1].beads_around);
    assert_near (forecast.closes_probability,
                 closes_with (&design, &stone, design.band.rows / 2, sigma), 1e-12);
  }
}

/* Round a stone known by a strip of paper bed and pull come on top, by hand: a bed of 0.35 mm gives
 * 2π 0.85 × 0.02, 2π 0.35 × 0.05, and n beads of 1.6 mm n × 1.6 × 0.003. */
static void
a_strip_of_paper_knows_neither_bed_nor_pull (void **state)
{
  BwStone stone;
  BwForecast forecast;
  BwDesign design = sample_design ();
  design.stone.has_second = FALSE;
  sample_solve (&design, &stone);
  int n = bw_fit_recommended (&design, &stone);
  double flats = hypot (0.4, n * 0.032);
  double bed = 2 * G_PI * 0.85 * 0.02, pull = hypot (2 * G_PI * 0.35 * 0.05, n * 1.6 * 0.003);
  assert_near (bw_forecast_sigma_of (&design, &stone, n), flats, 1e-12);
  assert_near (bw_forecast_pull_sd_mm (&design, &stone, n), pull, 1e-12);
  design.stone.measured = BW_MEASURED_GIRTH;
  design.stone.values_mm[0] = stone.girth_mm;
  sample_solve (&design, &stone);
  n = bw_fit_recommended (&design, &stone);
  pull = hypot (2 * G_PI * 0.35 * 0.05, n * 1.6 * 0.003);
  bw_forecast_init (&forecast, &design, &stone);
  assert_near (forecast.sigma_mm, hypot (hypot (0.4, n * 0.032), hypot (bed, pull)), 1e-12);
  design.bed.has_girth_over = TRUE;
  design.bed.girth_over_mm = stone.girth_mm + 2 * G_PI * 0.35;
  assert_near (bw_forecast_sigma_of (&design, &stone, n), hypot (hypot (0.4, n * 0.032), pull),
               1e-12);
}

static void
all_chances_together_are_one (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (31);
  for (int k = 0; k < DESIGNS; k++) {
    BwStone stone;
    BwForecast forecast;
    double listed = 0;
    BwDesign design = sample_random_design (rand, &stone);
    bw_forecast_init (&forecast, &design, &stone);
    for (int i = 0; i < forecast.n_chances; i++)
      listed += forecast.chance[i].p;
    assert_near (forecast.p_total, 1, 1e-9);
    assert_true (listed > 0.9 && listed <= 1 + 1e-12);
  }
}

/* A stone drawn from the girth's error: its sections scaled by 1 + error/girth. */
static int
draw_count (const BwDesign *design, const BwStone *stone, double error_mm)
{
  BwDesign drawn = *design;
  BwStone real;
  double lambda = 1 + error_mm / stone->girth_mm;
  for (int i = 0; i < BW_FACES_MAX; i++)
    drawn.stone.values_mm[i] *= lambda;
  drawn.stone.second_girth_mm *= lambda;
  sample_solve (&drawn, &real);
  return bw_fit_recommended (&drawn, &real);
}

/* Box and Muller, Annals of Mathematical Statistics 29(2), 1958, 610–611. */
static double
draw_normal (GRand *rand)
{
  double u = 1 - g_rand_double (rand), v = g_rand_double (rand);
  return sqrt (-2 * log (u)) * cos (2 * G_PI * v);
}

static void
stones_drawn_at_random_want_each_count_as_often_as_foretold (void **state)
{
  enum { DRAWS = 4000 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (32);
  BwStone stone;
  BwForecast forecast;
  int wanted[200] = { 0 };
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  bw_forecast_init (&forecast, &design, &stone);
  for (int k = 0; k < DRAWS; k++)
    wanted[draw_count (&design, &stone, forecast.sigma_mm * draw_normal (rand))]++;
  assert_true (forecast.n_chances >= 3);
  for (int i = 0; i < forecast.n_chances; i++) {
    double p = forecast.chance[i].p;
    double found = wanted[forecast.chance[i].beads_around] / (double)DRAWS;
    assert_near (found, p, 4 * sqrt (p * (1 - p) / DRAWS));
  }
}

static void
a_try_on_is_due_two_rows_before_the_first_likely_count_closes (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (33);
  for (int k = 0; k < DESIGNS; k++) {
    BwStone stone;
    BwForecast forecast;
    BwDesign design = sample_random_design (rand, &stone);
    bw_forecast_init (&forecast, &design, &stone);
    assert_true (forecast.n_chances > 0 && forecast.chance[0].p >= 0.01);
    assert_int_equal (forecast.try_on_row, 2 * forecast.chance[0].beads_around - 2);
  }
}

static void
measuring_better_makes_the_forecast_surer (void **state)
{
  BwStone stone;
  BwForecast forecast;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  bw_forecast_init (&forecast, &design, &stone);
  double now = bw_forecast_chance_with (&design, &stone, design.pitch.sd_mm, 0.4);
  double swatch = bw_forecast_chance_with (&design, &stone, design.pitch.sd_mm / 3, 0.4);
  assert_near (now, listed_chance (&forecast, forecast.recommended), 1e-12);
  assert_true (swatch > now + 0.1);
  assert_true (bw_forecast_chance_with (&design, &stone, 0, 0) >= 1);
}

static void
without_any_error_the_recommended_count_is_certain (void **state)
{
  BwStone stone;
  BwForecast forecast;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  design.pitch.sd_mm = 0;
  design.stone.girth_sd_mm = 0;
  bw_forecast_init (&forecast, &design, &stone);
  assert_int_equal (forecast.n_chances, 1);
  assert_int_equal (forecast.chance[0].beads_around, forecast.recommended);
  assert_near (forecast.chance[0].p, 1, 0);
  assert_near (forecast.p_total, 1, 0);
  assert_int_equal (forecast.try_on_row, 2 * forecast.recommended - 2);
}

/* With an error of many beads no single count stands out; a try-on is still due somewhere. */
static void
with_a_vast_error_a_try_on_is_due_where_one_in_a_hundred_closes (void **state)
{
  BwStone stone;
  BwForecast forecast;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  for (double sd = 0.05; sd < 1e4; sd *= 3) {
    design.stone.girth_sd_mm = 100 * sd;
    bw_forecast_init (&forecast, &design, &stone);
    assert_near (forecast.p_total, 1, 1e-9);
    int n = forecast.try_on_row / 2 + 1;
    assert_in_range (n, 3, forecast.recommended);
    assert_true (closes_with (&design, &stone, n, forecast.sigma_mm) >= 0.01);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (every_chance_follows_the_formula_and_none_of_a_hundredth_is_missing),
    cmocka_unit_test (a_strip_of_paper_knows_neither_bed_nor_pull),
    cmocka_unit_test (all_chances_together_are_one),
    cmocka_unit_test (stones_drawn_at_random_want_each_count_as_often_as_foretold),
    cmocka_unit_test (a_try_on_is_due_two_rows_before_the_first_likely_count_closes),
    cmocka_unit_test (measuring_better_makes_the_forecast_surer),
    cmocka_unit_test (without_any_error_the_recommended_count_is_certain),
    cmocka_unit_test (with_a_vast_error_a_try_on_is_due_where_one_in_a_hundred_closes),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
