/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bail's loop: its arc, its opening, its parity, and the least rows that let a cord through. */
#include "stones.h"

#include "core/bail/hang-ring.h"
#include "core/design/bail.h"

static const BwGauge gauge = { .column_mm = 1.3, .pitch_mm = 1.6 };

static BwBail
plain (void)
{
  return (BwBail){ .style = BW_BAIL_FLAP,
                   .columns = 6,
                   .rows = 23,
                   .base_beads = 3,
                   .at_deg = 180,
                   .cord_mm = 3,
                   .clearance_mm = 2 };
}

static BwBead
eleven (void)
{
  return bw_bead_sizes (&(int){ 0 })[1];
}

static BwLoop
looped (const BwBail *bail)
{
  BwLoop loop = { 0 };
  BwBead bead = eleven ();
  BwFault fault = NO_FAULT;
  if (!bw_loop_init (&loop, bail, &bead, &gauge, &fault))
    fail_msg ("a possible bail was refused: fault %d at key %d", fault.kind, fault.key);
  return loop;
}

static void
the_arc_has_the_length_and_the_base_it_was_given (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (51);
  for (int k = 0; k < 2000; k++) {
    BwBail bail = plain ();
    bail.style = 1 + g_rand_int_range (rand, 0, 3);
    bail.base_beads = g_rand_int_range (rand, 1, 30) / 2.0;
    bail.rows = (int)(2 * bail.base_beads) + g_rand_int_range (rand, 0, 200);
    BwLoop loop = looped (&bail);
    double base = bail.base_beads * (bail.style == BW_BAIL_UPRIGHT ? 1.3 : 1.6);
    assert_near (loop.length_mm, (bail.rows + 1) * 0.8, 1e-14);
    assert_near (loop.base_mm, base, 1e-14);
    assert_near (2 * loop.radius_mm * loop.half_angle, loop.length_mm, 1e-13);
    assert_near (2 * loop.radius_mm * sin (loop.half_angle), base, 1e-9);
    assert_true (loop.half_angle > 0 && loop.half_angle < G_PI);
    assert_near (loop.opening_mm, loop.radius_mm * (1 - cos (loop.half_angle)) - 1.6, 1e-8);
    assert_near (loop.largest_cord_mm, loop.opening_mm - 2, 1e-13);
  }
}

/* A half circle: L = πr, b = 2r, so a base of 2 L/π stands at exactly 90°. */
static void
a_half_circle_opens_by_its_radius (void **state)
{
  BwBail bail = plain ();
  bail.rows = 19;
  bail.base_beads = 5;
  BwBead bead = eleven ();
  BwGauge wide = { .column_mm = 1.3, .pitch_mm = 1.6 };
  bail.style = BW_BAIL_UPRIGHT;
  wide.column_mm = 2 * 16 / G_PI / 5;
  BwLoop loop;
  assert_true (bw_loop_init (&loop, &bail, &bead, &wide, NULL));
  assert_near (loop.half_angle, G_PI / 2, 1e-12);
  assert_near (loop.opening_mm, 16 / G_PI - 1.6, 1e-12);
}

/* Common practice, no source: a 4 mm cord is given a loop of about 6 mm. */
static void
a_clearance_of_two_is_what_the_trade_gives_a_cord_of_four (void **state)
{
  BwBail bail = plain ();
  bail.cord_mm = 4;
  bail.rows = looped (&bail).rows_needed;
  BwLoop loop = looped (&bail);
  assert_true (loop.opening_mm >= 6 && loop.opening_mm < 7);
}

static void
more_rows_always_open_wider (void **state)
{
  BwBail bail = plain ();
  double before = -10;
  for (bail.rows = 6; bail.rows < 400; bail.rows++) {
    BwLoop loop = looped (&bail);
    assert_true (loop.opening_mm > before);
    before = loop.opening_mm;
  }
}

static void
the_rows_needed_are_the_least_that_pass_the_cord (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (52);
  for (int k = 0; k < 500; k++) {
    BwBail bail = plain ();
    bail.style = 1 + g_rand_int_range (rand, 0, 3);
    bail.base_beads = g_rand_int_range (rand, 1, 20) / 2.0;
    bail.rows = 60;
    bail.cord_mm = g_rand_double_range (rand, 0, 12);
    int needed = looped (&bail).rows_needed, least = 0;
    for (bail.rows = 1; bail.rows <= needed + 4 && !least; bail.rows++) {
      BwLoop loop;
      BwBead bead = eleven ();
      if (bw_loop_init (&loop, &bail, &bead, &gauge, NULL) && loop.parity_right
          && loop.largest_cord_mm >= bail.cord_mm)
        least = bail.rows;
    }
    assert_int_equal (needed, least);
  }
}

static void
a_cord_no_loop_can_pass_is_told_by_nought (void **state)
{
  BwBail bail = plain ();
  BwBead bead = eleven ();
  BwGauge tiny = { .column_mm = 0.01, .pitch_mm = 0.01 };
  BwLoop loop;
  bail.cord_mm = 900;
  assert_true (bw_loop_init (&loop, &bail, &bead, &tiny, NULL));
  assert_int_equal (loop.rows_needed, 0);
}

/* Sewn to mirrored beads a whole base wants odd rows, a base with half a bead even ones; an upright
 * strip may have any. */
static void
rows_and_base_must_match_in_parity (void **state)
{
  BwBail bail = plain ();
  for (int halves = 1; halves < 12; halves++)
    for (bail.rows = 12; bail.rows < 20; bail.rows++) {
      bail.base_beads = halves / 2.0;
      BwLoop loop = looped (&bail);
      gboolean right = (bail.rows + 1) % 2 == halves % 2;
      assert_int_equal (loop.parity_right, right);
      assert_int_equal (loop.rows_below, right ? bail.rows : bail.rows - 1);
      assert_int_equal (loop.rows_above, right ? bail.rows : bail.rows + 1);
      bail.style = BW_BAIL_UPRIGHT;
      assert_true (looped (&bail).parity_right);
      bail.style = BW_BAIL_FLAP;
    }
}

static void
an_opening_may_be_less_than_nothing (void **state)
{
  BwBail bail = plain ();
  bail.rows = 6; /* 5.6 mm over a base of 4.8 */
  BwLoop loop = looped (&bail);
  assert_true (loop.opening_mm < 0);
  assert_true (loop.largest_cord_mm < loop.opening_mm);
}

static void
too_few_rows_to_arch_are_named (void **state)
{
  BwBail bail = plain ();
  BwBead bead = eleven ();
  BwLoop loop;
  BwFault fault = NO_FAULT;
  for (bail.rows = 1; bail.rows <= 5; bail.rows++) { /* up to 4.8 mm over a base of 4.8 */
    assert_false (bw_loop_init (&loop, &bail, &bead, &gauge, &fault));
    assert_fault (&fault, BW_FAULTY_LOOP_SHORT, BW_AT_BAIL_ROWS);
  }
}

static void
a_bail_has_half_its_columns_in_beads_a_row (void **state)
{
  BwBail bail = plain ();
  assert_int_equal (bw_bail_bead_count (&bail), 69);
  bail.style = BW_BAIL_NONE;
  assert_int_equal (bw_bail_bead_count (&bail), 0);
}

static void
refused_at (const BwBail *bail, BwFaultKind kind, BwFaultKey key)
{
  BwFault fault = NO_FAULT;
  assert_false (bw_bail_validate (bail, 14, &fault));
  assert_fault (&fault, kind, key);
}

static void
a_bail_is_narrower_than_its_band_by_a_column_on_either_side (void **state)
{
  BwBail bail = plain ();
  bail.columns = 12;
  assert_true (bw_bail_validate (&bail, 14, NULL));
  bail.columns = 14;
  refused_at (&bail, BW_FAULTY_BAIL_WIDE, BW_AT_BAIL_COLUMNS);
  bail.style = BW_BAIL_RING;
  refused_at (&bail, BW_FAULTY_BAIL_WIDE, BW_AT_BAIL_COLUMNS);
  bail.style = BW_BAIL_UPRIGHT; /* its columns lie round the stone, not across the band */
  assert_true (bw_bail_validate (&bail, 14, NULL));
  bail.style = BW_BAIL_FLAP;
  bail.columns = 5;
  refused_at (&bail, BW_FAULTY_ODD_BAIL, BW_AT_BAIL_COLUMNS);
  bail.columns = 0;
  refused_at (&bail, BW_FAULTY_RANGE, BW_AT_BAIL_COLUMNS);
  bail.columns = 14;
  bail.style = BW_BAIL_NONE;
  assert_true (bw_bail_validate (&bail, 14, NULL));
}

static void
each_number_must_be_a_possible_one (void **state)
{
  static const struct {
    gsize offset;
    BwFaultKey key;
    gboolean may_be_negative;
  } keys[] = {
    { G_STRUCT_OFFSET (BwBail, base_beads), BW_AT_BAIL_BASE_BEADS, FALSE },
    { G_STRUCT_OFFSET (BwBail, at_deg), BW_AT_BAIL_AT, TRUE },
    { G_STRUCT_OFFSET (BwBail, cord_mm), BW_AT_BAIL_CORD, FALSE },
    { G_STRUCT_OFFSET (BwBail, clearance_mm), BW_AT_BAIL_CLEARANCE, FALSE },
  };
  const double wrong[] = { 1e308, -1e308, (double)NAN, -1 };
  for (gsize k = 0; k < G_N_ELEMENTS (keys); k++)
    for (gsize i = 0; i < G_N_ELEMENTS (wrong) - (keys[k].may_be_negative ? 1 : 0); i++) {
      BwBail bail = plain ();
      G_STRUCT_MEMBER (double, &bail, keys[k].offset) = wrong[i];
      refused_at (&bail, BW_FAULTY_RANGE, keys[k].key);
    }
  BwBail bail = plain ();
  bail.base_beads = 2.25;
  refused_at (&bail, BW_FAULTY_HALF_BEADS, BW_AT_BAIL_BASE_BEADS);
  bail.base_beads = 0;
  refused_at (&bail, BW_FAULTY_RANGE, BW_AT_BAIL_BASE_BEADS);
  bail = plain ();
  bail.rows = 0;
  refused_at (&bail, BW_FAULTY_RANGE, BW_AT_BAIL_ROWS);
}

/* Over the tip the base is what the stone makes it, and of the height the stone takes its part. */
static void
a_loop_over_the_tip_rises_over_what_stands_in_it (void **state)
{
  BwBail bail = plain ();
  bail.rows = 61;
  bail.style = BW_BAIL_OVER;
  for (int base = 8; base < 45; base++)
    for (int taken = 1; taken < 40; taken += 3) {
      BwLoop loop, less;
      assert_true (bw_loop_solve (&loop, &bail, (BwLoopSite){ base, taken }, &gauge, NULL));
      double crest = loop.radius_mm * (1 - cos (loop.half_angle));
      assert_near (2 * loop.radius_mm * sin (loop.half_angle), base, 1e-9);
      assert_near (2 * loop.radius_mm * loop.half_angle, 62 * 0.8, 1e-9);
      assert_near (loop.opening_mm, crest - taken, 1e-9);
      assert_true (loop.parity_right);
      BwBail fit = bail;
      fit.rows = loop.rows_needed;
      assert_true (bw_loop_solve (&less, &fit, (BwLoopSite){ base, taken }, &gauge, NULL));
      assert_true (less.largest_cord_mm >= bail.cord_mm);
      fit.rows--;
      assert_true (bw_loop_solve (&less, &fit, (BwLoopSite){ base, taken }, &gauge, NULL));
      assert_true (less.largest_cord_mm < bail.cord_mm);
    }
}

/* The stone may grow under it: that is no fault of the bail's, and nothing passes. */
static void
a_loop_over_the_tip_too_short_to_reach_lies_straight (void **state)
{
  BwBail bail = plain ();
  bail.rows = 9;
  bail.style = BW_BAIL_OVER;
  BwLoop loop;
  assert_true (bw_loop_solve (&loop, &bail, (BwLoopSite){ 30, 5 }, &gauge, NULL));
  assert_near (loop.length_mm, 8, 1e-12);
  assert_near (2 * loop.radius_mm * sin (loop.half_angle), 30, 1e-6);
  assert_true (loop.opening_mm > -5 && loop.opening_mm < -4.9);
  assert_true (loop.rows_needed > 30 / 0.8);
}

/* How deep a ring hangs in the flap it runs through, and how much it leaves beyond the flap's wall:
 * its two edges point by point, laid against the inside of the wall. */
static void
lay_ring (double inner_mm, double wire_mm, double length_mm, double wall_mm, double *deep,
          double *beyond)
{
  double radius = inner_mm / 2, lift = -1e9, lowest = -1e9;
  for (int i = 0; i <= 100000; i++) {
    double angle = G_PI * i / 100000, x = radius * cos (angle), y = radius * sin (angle);
    if (fabs (x) <= length_mm / 2 + 1e-9)
      lowest = fmax (lowest, (radius + wire_mm) * sin (angle));
    if (fabs (fabs (x) - length_mm / 2) < radius * 1e-4 && lift < -1e8)
      lift = y;
  }
  *deep = lowest - lift;
  *beyond = radius + lift - wall_mm;
}

/* The ring runs in its flap and lets the cord through; half a millimetre less does not. */
static void
the_ring_is_the_least_that_runs_in_its_flap_and_lets_the_cord_through (void **state)
{
  GRand *dice = g_rand_new_with_seed (51);
  int tight = 0, wide = 0;
  for (int i = 0; i < 60; i++) {
    BwDesign design = { .bead = { .diameter_mm = 1.6, .length_mm = 1.3 },
                        .gauge = { .column_mm = 1.3, .pitch_mm = 1.6 },
                        .bail = { .style = BW_BAIL_RING,
                                  .columns = 2 * g_rand_int_range (dice, 1, 9),
                                  .cord_mm = g_rand_double_range (dice, 1, 5),
                                  .clearance_mm = 2 } };
    BwLoop loop = { .opening_mm = g_rand_double_range (dice, 1.5, 8) };
    BwHangRing ring;
    assert_true (bw_hang_ring_init (&ring, &design, &loop));
    double length = design.bail.columns * 1.3, deep, beyond;
    double wanted = design.bail.cord_mm + design.bail.clearance_mm;
    lay_ring (ring.inner_mm, ring.wire_mm, length, 1.6, &deep, &beyond);
    assert_true (deep <= loop.opening_mm + 0.02 && beyond >= wanted - 0.02);
    assert_true (fabs (ring.passes_mm - (beyond - design.bail.clearance_mm)) < 0.02);
    if (ring.inner_mm - 0.5 < length)
      continue;
    lay_ring (ring.inner_mm - 0.5, ring.wire_mm, length, 1.6, &deep, &beyond);
    tight += deep > loop.opening_mm;
    wide += beyond < wanted;
    assert_true (deep > loop.opening_mm - 0.02 || beyond < wanted + 0.02);
  }
  assert_true (tight > 5 && wide > 5);
  g_rand_free (dice);
}

static void
no_ring_goes_where_nothing_passes (void **state)
{
  BwDesign design = { .bail = { .style = BW_BAIL_RING, .columns = 6 } };
  BwLoop loop = { .opening_mm = -0.1 };
  BwHangRing ring;
  assert_false (bw_hang_ring_init (&ring, &design, &loop));
  design.bail.style = BW_BAIL_FLAP;
  loop.opening_mm = 4;
  assert_false (bw_hang_ring_init (&ring, &design, &loop));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_ring_is_the_least_that_runs_in_its_flap_and_lets_the_cord_through),
    cmocka_unit_test (no_ring_goes_where_nothing_passes),
    cmocka_unit_test (a_loop_over_the_tip_rises_over_what_stands_in_it),
    cmocka_unit_test (a_loop_over_the_tip_too_short_to_reach_lies_straight),
    cmocka_unit_test (the_arc_has_the_length_and_the_base_it_was_given),
    cmocka_unit_test (a_half_circle_opens_by_its_radius),
    cmocka_unit_test (a_clearance_of_two_is_what_the_trade_gives_a_cord_of_four),
    cmocka_unit_test (more_rows_always_open_wider),
    cmocka_unit_test (the_rows_needed_are_the_least_that_pass_the_cord),
    cmocka_unit_test (a_cord_no_loop_can_pass_is_told_by_nought),
    cmocka_unit_test (rows_and_base_must_match_in_parity),
    cmocka_unit_test (an_opening_may_be_less_than_nothing),
    cmocka_unit_test (too_few_rows_to_arch_are_named),
    cmocka_unit_test (a_bail_has_half_its_columns_in_beads_a_row),
    cmocka_unit_test (a_bail_is_narrower_than_its_band_by_a_column_on_either_side),
    cmocka_unit_test (each_number_must_be_a_possible_one),
  };
  return cmocka_run_group_tests_name ("bail", tests, NULL, NULL);
}
