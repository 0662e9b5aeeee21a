/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What to do when the ends of a strip miss each other, or overlap. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "core/band/try-on.h"

#include "samples.h"

#include <math.h>

#define SEED 4711

static void
ends_that_meet_want_nothing (void **state)
{
  BwTryOn try_on;
  BwStone stone;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  bw_try_on_init (&try_on, &design, &stone, 110, 0);
  assert_int_equal (try_on.change, 0);
  assert_near (try_on.pulled_mm, 0, 1e-9);
  assert_near (try_on.bed_mm, 0, 1e-9);
  assert_near (try_on.stay_bed_mm, 0, 1e-9);
}

/* Pulling would close it with a bead less, too. */
static void
a_strip_that_fits_is_not_picked_out (void **state)
{
  BwTryOn try_on;
  BwStone stone;
  BwDesign design = sample_design ();
  design.thread.stretch = 0.05;
  sample_solve (&design, &stone);
  bw_try_on_init (&try_on, &design, &stone, 110, 0);
  assert_int_equal (try_on.change, 0);
  bw_try_on_init (&try_on, &design, &stone, 110, -0.9 * design.limits.slack_mm / design.pitch.mm);
  assert_int_equal (try_on.change, 0);
  bw_try_on_init (&try_on, &design, &stone, 110, -1.1 * design.limits.slack_mm / design.pitch.mm);
  assert_true (try_on.change < 0);
}

static void
a_thicker_bed_can_take_up_what_would_be_picked_out (void **state)
{
  BwTryOn try_on;
  BwStone stone;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  bw_try_on_init (&try_on, &design, &stone, 110, -2);
  assert_true (try_on.change <= -4);
  assert_near (try_on.stay_bed_mm, 2 * design.pitch.mm / (2 * G_PI), 1e-9);
  bw_try_on_init (&try_on, &design, &stone, 111, -2);
  assert_near (try_on.stay_bed_mm, 0, 1e-9);
  assert_near (bw_try_on_most_over (110), 52, 1e-9);
  assert_near (bw_try_on_most_over (2), 0, 1e-9);
}

static double
thickness_of (const BwDesign *design, const BwStone *stone)
{
  BwBedding bedding;
  assert_true (bw_bedding_init (&bedding, &design->bed, stone, bw_design_span (design), NULL));
  return bedding.bottom_mm;
}

static void
a_bed_is_made_thicker_by_just_that_much (void **state)
{
  BwStone stone;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  double before = thickness_of (&design, &stone);
  assert_true (bw_try_on_thicken (&design, &stone, 0.25, NULL));
  assert_near (thickness_of (&design, &stone), before + 0.25, 1e-9);
  design.bed.has_girth_over = TRUE;
  design.bed.girth_over_mm = stone.girth_mm + 3;
  before = thickness_of (&design, &stone);
  assert_true (bw_try_on_thicken (&design, &stone, 0.1, NULL));
  assert_false (design.bed.has_girth_over);
  assert_near (thickness_of (&design, &stone), before + 0.1, 1e-9);
}

static void
a_bed_too_thick_is_refused_and_changes_nothing (void **state)
{
  g_autoptr (GError) error = NULL;
  BwStone stone;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  double before = thickness_of (&design, &stone);
  int layers = design.bed.layers;
  assert_false (bw_try_on_thicken (&design, &stone, 1e6, &error));
  assert_true (g_str_has_prefix (error->message, "/bed/cord_thickness_mm: "));
  assert_near (thickness_of (&design, &stone), before, 1e-12);
  assert_int_equal (design.bed.layers, layers);
}

/* Without any give in thread and bed. */
static void
a_bead_short_is_two_rows (void **state)
{
  BwTryOn try_on;
  BwStone stone;
  BwDesign design = sample_design ();
  design.thread.stretch = 0;
  design.bed.squeeze = 0;
  sample_solve (&design, &stone);
  for (int beads = -5; beads <= 5; beads++) {
    bw_try_on_init (&try_on, &design, &stone, 100, beads);
    assert_int_equal (try_on.change, 2 * beads);
    assert_near (try_on.over_mm, 0, 1e-9);
  }
  bw_try_on_init (&try_on, &design, &stone, 101, 0.5);
  assert_int_equal (try_on.rows, 102);
  assert_int_equal (try_on.change, 1);
}

/* Pulling closes a little; more than it gives takes another bead, and what is then too long goes
 * into the bed: its girth grows by 2π for each millimetre of thickness. */
static void
what_pulling_does_not_close_takes_a_bead_and_more_bed (void **state)
{
  BwTryOn much;
  BwStone stone;
  BwDesign design = sample_design ();
  double p = design.pitch.mm;
  design.thread.stretch = 0;
  design.bed.squeeze = 0;
  sample_solve (&design, &stone);
  bw_try_on_init (&much, &design, &stone, 110, 0.25);
  assert_int_equal (much.rows, 112);
  assert_near (much.over_mm, 0.75 * p, 1e-9);
  assert_near (much.bed_mm, 0.75 * p / (2 * G_PI), 1e-9);
}

/* Were the model the truth, the maker would count what it computes, and the advice would be the
 * recommended count: gap and pull of a count are both those of the tightest column. */
static void
a_true_model_is_told_its_own_recommendation (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  int right = 0, all = 200;
  for (int k = 0; k < all; k++) {
    BwStone stone;
    BwFit fit;
    BwTryOn try_on;
    BwDesign design = sample_random_design (rand, &stone);
    int recommended = 2 * bw_fit_recommended (&design, &stone);
    int rows = MAX (recommended - 4, 6);
    bw_fit_init (&fit, &design, &stone, rows);
    bw_try_on_init (&try_on, &design, &stone, rows, fit.gap_max_mm / design.pitch.mm);
    assert_true (ABS (try_on.rows - recommended) <= 2);
    right += try_on.rows == recommended;
  }
  assert_true (right >= all * 8 / 10);
}

static void
absurd_counts_stay_within_the_limits (void **state)
{
  BwTryOn try_on;
  BwStone stone;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  bw_try_on_init (&try_on, &design, &stone, 10, -1e12);
  assert_int_equal (try_on.rows, 6);
  bw_try_on_init (&try_on, &design, &stone, 10, 1e12);
  assert_true (try_on.rows <= BW_ROWS_MAX);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (ends_that_meet_want_nothing),
    cmocka_unit_test (a_strip_that_fits_is_not_picked_out),
    cmocka_unit_test (a_thicker_bed_can_take_up_what_would_be_picked_out),
    cmocka_unit_test (a_bed_is_made_thicker_by_just_that_much),
    cmocka_unit_test (a_bed_too_thick_is_refused_and_changes_nothing),
    cmocka_unit_test (a_bead_short_is_two_rows),
    cmocka_unit_test (what_pulling_does_not_close_takes_a_bead_and_more_bed),
    cmocka_unit_test (a_true_model_is_told_its_own_recommendation),
    cmocka_unit_test (absurd_counts_stay_within_the_limits),
  };
  return cmocka_run_group_tests_name ("try-on", tests, NULL, NULL);
}
