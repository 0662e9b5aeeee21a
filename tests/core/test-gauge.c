/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The gauge: what a swatch says, and what measuring does to the belief about the pitch. */
#include "stones.h"

static BwGauge
plain (void)
{
  return (BwGauge){ .column_mm = 1.3, .pitch_mm = 1.6 };
}

static void
a_swatch_gives_both_distances (void **state)
{
  BwSwatch swatch = { .columns = 10, .width_mm = 13.1, .rows = 24, .length_mm = 20.1 };
  assert_near (bw_swatch_column_mm (&swatch), 1.31, 1e-15);
  assert_near (bw_swatch_pitch_mm (&swatch), 2 * 20.1 / 25, 1e-15);
}

static void
unmeasured_the_pitch_is_the_gauges_within_two_per_cent (void **state)
{
  BwGauge gauge = plain ();
  BwPitch pitch = bw_gauge_pitch (&gauge, NULL, 0);
  assert_near (pitch.mm, 1.6, 1e-14);
  assert_near (pitch.sd_mm, 0.032, 1e-14);
}

/* By hand: prior 1.6 ± 0.032, precision 976.5625; a strip of 39 rows is 20 pitches, 33 mm ± 0.3,
 * precision 400/0.09 and reading 1.65. */
static void
one_strip_weighs_by_its_length (void **state)
{
  BwGauge gauge = plain ();
  BwCheck check = { .rows = 39, .length_mm = 33 };
  BwPitch pitch = bw_gauge_pitch (&gauge, &check, 1);
  double prior = 976.5625, reading = 400 / 0.09;
  assert_near (pitch.mm, (prior * 1.6 + reading * 1.65) / (prior + reading), 1e-13);
  assert_near (pitch.sd_mm, 1 / sqrt (prior + reading), 1e-13);
}

static void
a_swatch_counts_as_a_check (void **state)
{
  BwGauge gauge = plain ();
  BwCheck check = { .rows = 24, .length_mm = 20 };
  BwPitch told = bw_gauge_pitch (&gauge, &check, 1);
  gauge.has_swatch = TRUE;
  gauge.swatch = (BwSwatch){ .columns = 10, .width_mm = 13, .rows = 24, .length_mm = 20 };
  BwPitch swatch = bw_gauge_pitch (&gauge, NULL, 0);
  assert_near (swatch.mm, told.mm, 1e-14);
  assert_near (swatch.sd_mm, told.sd_mm, 1e-14);
}

static void
a_swatch_by_calliper_weighs_nine_times_one_by_ruler (void **state)
{
  BwGauge gauge = plain ();
  gauge.has_swatch = TRUE;
  gauge.swatch = (BwSwatch){ .columns = 10, .width_mm = 13, .rows = 24, .length_mm = 20 };
  double prior = 976.5625, m = 12.5, ruler = m * m / 0.09;
  BwPitch pitch = bw_gauge_pitch (&gauge, NULL, 0);
  assert_near (pitch.sd_mm, 1 / sqrt (prior + ruler), 1e-13);
  gauge.swatch.tool = BW_STRIP_BY_CALLIPER;
  pitch = bw_gauge_pitch (&gauge, NULL, 0);
  assert_near (pitch.sd_mm, 1 / sqrt (prior + 9 * ruler), 1e-13);
}

static void
known_hands_take_the_place_of_the_first_guess (void **state)
{
  BwGauge gauge = plain ();
  BwCheck check = { .rows = 39, .length_mm = 33 };
  gauge.has_hands = TRUE;
  gauge.hands = (BwGaugeHands){ 1.62, 0.01 };
  BwPitch pitch = bw_gauge_pitch (&gauge, NULL, 0);
  assert_near (pitch.mm, 1.62, 1e-13);
  assert_near (pitch.sd_mm, 0.01, 1e-13);
  double prior = 1e4, reading = 400 / 0.09;
  pitch = bw_gauge_pitch (&gauge, &check, 1);
  assert_near (pitch.mm, (prior * 1.62 + reading * 1.65) / (prior + reading), 1e-13);
  assert_near (pitch.sd_mm, 1 / sqrt (prior + reading), 1e-13);
}

static void
the_order_of_the_strips_does_not_matter (void **state)
{
  BwGauge gauge = plain ();
  BwCheck one[] = { { 20, 17 }, { 60, 49.5 }, { 40, 33 } };
  BwCheck other[] = { { 40, 33 }, { 20, 17 }, { 60, 49.5 } };
  BwPitch a = bw_gauge_pitch (&gauge, one, 3), b = bw_gauge_pitch (&gauge, other, 3);
  assert_near (a.mm, b.mm, 1e-14);
  assert_near (a.sd_mm, b.sd_mm, 1e-14);
}

static void
every_strip_makes_the_pitch_surer (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (7);
  BwGauge gauge = plain ();
  BwCheck checks[BW_CHECKS_MAX];
  double sd = bw_gauge_pitch (&gauge, NULL, 0).sd_mm;
  for (int i = 0; i < BW_CHECKS_MAX; i++) {
    checks[i].rows = g_rand_int_range (rand, 2, 200);
    checks[i].length_mm = (checks[i].rows + 1) / 2.0 * g_rand_double_range (rand, 1.5, 1.7);
    BwPitch pitch = bw_gauge_pitch (&gauge, checks, i + 1);
    assert_true (pitch.sd_mm < sd);
    assert_true (pitch.mm > 1.5 && pitch.mm < 1.7);
    sd = pitch.sd_mm;
  }
}

static void
a_pitch_scales_with_the_strips_it_was_measured_on (void **state)
{
  BwGauge gauge = plain ();
  BwCheck check = { .rows = 4001, .length_mm = 2001 * 1.7 };
  /* Two thousand pitches leave the first guess no weight. */
  BwPitch pitch = bw_gauge_pitch (&gauge, &check, 1);
  assert_near (pitch.mm, 1.7, 1e-4);
  assert_near (pitch.sd_mm, 0.3 / 2001, 1e-4);
}

static void
refuses_for (const BwGauge *gauge, BwFaultKind kind, BwFaultKey key)
{
  BwFault fault = NO_FAULT;
  assert_false (bw_gauge_validate (gauge, &fault));
  assert_fault (&fault, kind, key);
}

static void
refuses (const BwGauge *gauge, BwFaultKey key)
{
  refuses_for (gauge, BW_FAULTY_RANGE, key);
}

static void
a_distance_must_be_a_possible_one (void **state)
{
  const double wrong[] = { 0, -1.6, 1e308, (double)NAN };
  assert_true (bw_gauge_validate (&(BwGauge){ .column_mm = 1.3, .pitch_mm = 1.6 }, NULL));
  for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++) {
    refuses (&(BwGauge){ .column_mm = wrong[i], .pitch_mm = 1.6 }, BW_AT_GAUGE_COLUMN);
    refuses (&(BwGauge){ .column_mm = 1.3, .pitch_mm = wrong[i] }, BW_AT_GAUGE_PITCH);
  }
}

static void
a_swatch_must_be_one_that_can_be_woven (void **state)
{
  BwGauge gauge = plain ();
  const BwSwatch good = { .columns = 10, .width_mm = 13, .rows = 24, .length_mm = 20 };
  gauge.has_swatch = TRUE;
  gauge.swatch = good;
  assert_true (bw_gauge_validate (&gauge, NULL));
  gauge.swatch.columns = 9;
  refuses_for (&gauge, BW_FAULTY_ODD_COLUMNS, BW_AT_SWATCH_COLUMNS);
  gauge.swatch.columns = 0;
  refuses (&gauge, BW_AT_SWATCH_COLUMNS);
  gauge.swatch = good;
  gauge.swatch.rows = 1;
  refuses (&gauge, BW_AT_SWATCH_ROWS);
  gauge.swatch = good;
  gauge.swatch.width_mm = (double)NAN;
  refuses (&gauge, BW_AT_SWATCH_WIDTH);
  gauge.swatch = good;
  gauge.swatch.length_mm = -3;
  refuses (&gauge, BW_AT_SWATCH_LENGTH);
  gauge.has_swatch = FALSE;
  assert_true (bw_gauge_validate (&gauge, NULL));
}

static void
hands_must_be_ones_that_tell_something (void **state)
{
  BwGauge gauge = plain ();
  gauge.has_hands = TRUE;
  gauge.hands = (BwGaugeHands){ 1.6, 0.02 };
  assert_true (bw_gauge_validate (&gauge, NULL));
  const double wrong[] = { 0, -0.01, 0.33, (double)NAN };
  for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++) {
    gauge.hands = (BwGaugeHands){ 1.6, wrong[i] };
    refuses (&gauge, BW_AT_HANDS_PITCH_SD);
  }
  gauge.hands = (BwGaugeHands){ 0, 0.01 };
  refuses (&gauge, BW_AT_HANDS_PITCH);
  gauge.has_hands = FALSE;
  assert_true (bw_gauge_validate (&gauge, NULL));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_swatch_gives_both_distances),
    cmocka_unit_test (unmeasured_the_pitch_is_the_gauges_within_two_per_cent),
    cmocka_unit_test (one_strip_weighs_by_its_length),
    cmocka_unit_test (a_swatch_counts_as_a_check),
    cmocka_unit_test (a_swatch_by_calliper_weighs_nine_times_one_by_ruler),
    cmocka_unit_test (known_hands_take_the_place_of_the_first_guess),
    cmocka_unit_test (hands_must_be_ones_that_tell_something),
    cmocka_unit_test (the_order_of_the_strips_does_not_matter),
    cmocka_unit_test (every_strip_makes_the_pitch_surer),
    cmocka_unit_test (a_pitch_scales_with_the_strips_it_was_measured_on),
    cmocka_unit_test (a_distance_must_be_a_possible_one),
    cmocka_unit_test (a_swatch_must_be_one_that_can_be_woven),
  };
  return cmocka_run_group_tests_name ("gauge", tests, NULL, NULL);
}
