/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The design: its defaults, and every joint condition with the key it names. */
#include "stones.h"

#include <string.h>

static void
refused_at (const BwDesign *design, BwFaultKind kind, BwFaultKey key)
{
  BwFault fault = NO_FAULT;
  BwStone stone, before;
  memset (&stone, 0x33, sizeof stone);
  before = stone;
  assert_false (bw_design_validate (design, &stone, &fault));
  assert_fault (&fault, kind, key);
  assert_memory_equal (&stone, &before, sizeof stone);
}

static void
sound (const BwDesign *design)
{
  BwFault fault = NO_FAULT;
  if (!bw_design_validate (design, NULL, &fault))
    fail_msg ("a sound design was refused: fault %d at key %d", fault.kind, fault.key);
}

static void
the_bench_design_is_sound_and_gives_its_stone (void **state)
{
  BwDesign design = bench_design ();
  BwStone stone, alone = solved (&design.stone);
  assert_true (bw_design_validate (&design, &stone, NULL));
  assert_memory_equal (&stone, &alone, sizeof stone);
}

static void
the_defaults_are_those_of_the_project_file (void **state)
{
  BwDesign d;
  bw_design_defaults (&d);
  assert_near (d.stone.density_g_cm3, 2.65, 0);
  assert_near (d.stone.girth_sd_mm, 0.4, 0);
  assert_near (d.bead.glass_g_cm3, 2.5, 0);
  assert_near (d.bed.cord_thickness_mm, 0.35, 0);
  assert_near (d.bed.cord_width_mm, 1, 0);
  assert_int_equal (d.bed.layers, 1);
  assert_near (d.bed.squeeze, 0.15, 0);
  assert_near (d.bed.overhang_mm, 1, 0);
  assert_near (d.band.seam_deg, 180, 0);
  assert_int_equal (d.bail.style, BW_BAIL_NONE);
  assert_near (d.bail.clearance_mm, 2, 0);
  assert_near (d.thread.diameter_mm, 0.15, 0);
  assert_near (d.thread.needle_mm, 0.36, 0);
  assert_near (d.thread.working_mm, 2000, 0);
  assert_near (d.thread.tail_mm, 90, 0);
  assert_near (d.thread.stretch, 0.01, 0);
  assert_near (d.limits.slack_mm, 0.8, 0);
  assert_near (d.limits.friction, 0.2, 0);
  assert_near (d.supply.spare, 0.1, 0);
  assert_near (d.supply.pack_g, 5, 0);
  assert_int_equal (d.supply.pieces, 1);
  assert_false (d.supply.has_prices);
}

static void
a_band_lies_where_it_is_put (void **state)
{
  BwDesign design = bench_design ();
  BwBandSpan span = bw_design_span (&design);
  assert_near (span.bottom_mm, 14.2, 0);
  assert_near (span.width_mm, 18.2, 1e-14);
  assert_near (bw_band_span_mid (span), 23.3, 1e-14);
}

static void
a_centred_band_has_as_much_prism_on_either_side (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (71);
  for (int k = 0; k < 300; k++) {
    DrawnStone drawn;
    draw_stone (&drawn, rand);
    BwStone stone = solved (&drawn.measures);
    BwDesign design = bench_design ();
    design.stone = drawn.measures;
    double prism = stone.shoulder_mm - stone.base_shoulder_mm;
    design.band.columns = 2 * MAX (1, (int)(prism * g_rand_double_range (rand, 0.1, 1) / 2.6));
    double bottom = bw_design_centred_bottom (&design, &stone);
    double width = bw_design_span (&design).width_mm;
    if (width <= prism)
      assert_near (bottom - stone.base_shoulder_mm, stone.shoulder_mm - bottom - width, 1e-10);
  }
}

/* A band wider than the prism is moved as far as it must be to stay on the stone. */
static void
a_centred_band_stays_on_the_stone (void **state)
{
  BwDesign design = bench_design ();
  BwStone stone = solved (&design.stone);
  design.bail.style = BW_BAIL_NONE;
  for (design.band.columns = 2; design.band.columns * 1.3 <= 58; design.band.columns += 2) {
    design.band.bottom_mm = bw_design_centred_bottom (&design, &stone);
    sound (&design);
  }
}

/* A short prism near the tip: what does not fit above is moved down. */
static void
a_centred_band_is_moved_down_from_the_tip (void **state)
{
  BwDesign design = bench_design ();
  design.stone.has_second = FALSE;
  design.stone.base = BW_BASE_POINT;
  design.stone.has_base_shoulder = TRUE;
  design.stone.base_shoulder_mm = 30;
  design.stone.shoulder_mm = 50;
  design.stone.at_mm = 40;
  design.band.columns = 30; /* 39 mm about a middle at 40, on a stone of 58 */
  BwStone stone = solved (&design.stone);
  design.band.bottom_mm = bw_design_centred_bottom (&design, &stone);
  assert_near (design.band.bottom_mm, 58 - 39, 1e-12);
  sound (&design);
}

static void
a_band_off_the_stone_is_named (void **state)
{
  BwDesign design = bench_design ();
  design.band.bottom_mm = 58 - 18.2;
  sound (&design);
  design.band.bottom_mm += 0.001;
  refused_at (&design, BW_FAULTY_BAND_HIGH, BW_AT_BAND_BOTTOM);
  design.band.bottom_mm = 0;
  sound (&design);
  design.band.bottom_mm = -0.001;
  refused_at (&design, BW_FAULTY_RANGE, BW_AT_BAND_BOTTOM);
  design.band.bottom_mm = 0;
  design.band.columns = 46; /* 59.8 mm on a stone of 58 */
  refused_at (&design, BW_FAULTY_BAND_WIDE, BW_AT_BAND_COLUMNS);
}

static void
columns_are_even_and_within_two_and_two_hundred (void **state)
{
  const int wrong[] = { 0, -2, 1, 201, 202, G_MAXINT };
  for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++) {
    BwDesign design = bench_design ();
    design.band.columns = wrong[i];
    refused_at (&design, BW_FAULTY_RANGE, BW_AT_BAND_COLUMNS);
  }
  BwDesign odd = bench_design ();
  odd.band.columns = 13;
  refused_at (&odd, BW_FAULTY_ODD_COLUMNS, BW_AT_BAND_COLUMNS);
}

static void
rows_are_at_least_one_and_at_most_twenty_thousand (void **state)
{
  const int wrong[] = { 0, -1, 20001, G_MININT };
  BwDesign design = bench_design ();
  for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++) {
    design.band.rows = wrong[i];
    refused_at (&design, BW_FAULTY_RANGE, BW_AT_BAND_ROWS);
  }
  design.bail.style = BW_BAIL_NONE;
  design.band.rows = 1;
  sound (&design);
  design.band.rows = 20000;
  sound (&design);
}

static void
needle_and_thread_go_through_the_hole (void **state)
{
  BwDesign design = bench_design ();
  design.thread.needle_mm = 0.8;
  refused_at (&design, BW_FAULTY_HOLE_TOO_SMALL, BW_AT_THREAD_NEEDLE);
  design.thread.needle_mm = 0.79;
  sound (&design);
  design.thread.diameter_mm = 0.8;
  refused_at (&design, BW_FAULTY_HOLE_TOO_SMALL, BW_AT_THREAD_DIAMETER);
  design = bench_design ();
  design.bead.hole_mm = 1.6;
  refused_at (&design, BW_FAULTY_NO_GLASS, BW_AT_BEAD_HOLE);
}

static void
a_bed_below_nothing_is_found_through_the_design (void **state)
{
  BwDesign design = bench_design ();
  design.bed.top_extra_mm = -0.36;
  refused_at (&design, BW_FAULTY_BED_UNDER, BW_AT_BED_TOP_EXTRA);
  design = bench_design ();
  design.bed.has_girth_over = TRUE;
  design.bed.girth_over_mm = 70;
  refused_at (&design, BW_FAULTY_GIRTH_UNDER, BW_AT_BED_GIRTH_OVER);
}

static void
a_bail_that_does_not_fit_is_found_through_the_design (void **state)
{
  BwDesign design = bench_design ();
  design.bail.columns = 14;
  refused_at (&design, BW_FAULTY_BAIL_WIDE, BW_AT_BAIL_COLUMNS);
  design = bench_design ();
  design.bail.rows = 5;
  refused_at (&design, BW_FAULTY_LOOP_SHORT, BW_AT_BAIL_ROWS);
  design = bench_design ();
  design.band.rows = 4; /* two beads around, three wanted for the base */
  refused_at (&design, BW_FAULTY_BASE_LONG, BW_AT_BAIL_BASE_BEADS);
  design = bench_design ();
  design.bail.style = BW_BAIL_UPRIGHT;
  design.bail.rows = 60;
  design.bail.base_beads = 14;
  sound (&design);
  design.bail.base_beads = 14.5;
  refused_at (&design, BW_FAULTY_BASE_WIDE, BW_AT_BAIL_BASE_BEADS);
}

/* Its columns lie round the stone: wider than the band, but not more than once round. */
static void
an_upright_strip_may_be_wider_than_the_band_but_goes_round_once (void **state)
{
  BwDesign design = bench_design ();
  design.bail.style = BW_BAIL_UPRIGHT;
  design.bail.rows = 60;
  design.bail.columns = 30;
  sound (&design);
  design.band.rows = 20; /* ten beads, 16 mm round */
  design.bail.columns = 12;
  sound (&design);
  design.bail.columns = 14;
  refused_at (&design, BW_FAULTY_STRIP_WIDE, BW_AT_BAIL_COLUMNS);
}

/* Beads of a hundredth of a millimetre on a stone of half a metre would be counted for hours. */
static void
more_rows_than_are_allowed_are_refused_before_anyone_counts (void **state)
{
  BwDesign design = bench_design ();
  design.gauge.pitch_mm = 0.01;
  design.pitch = bw_gauge_pitch (&design.gauge, NULL, 0);
  design.bail.style = BW_BAIL_NONE;
  sound (&design);
  design.gauge.pitch_mm = 0.008;
  design.pitch = bw_gauge_pitch (&design.gauge, NULL, 0);
  refused_at (&design, BW_FAULTY_ROUND_LONG, BW_AT_GAUGE_PITCH);
}

typedef struct {
  gsize offset;
  BwFaultKey key;
} Key;

#define KEY(member, at)                                                                            \
  {                                                                                                \
    G_STRUCT_OFFSET (BwDesign, member), at                                                         \
  }

static void
each_number_must_be_a_possible_one (void **state)
{
  static const Key keys[] = {
    KEY (stone.length_mm, BW_AT_STONE_LENGTH),
    KEY (bead.diameter_mm, BW_AT_BEAD_DIAMETER),
    KEY (bead.glass_g_cm3, BW_AT_BEAD_GLASS),
    KEY (gauge.column_mm, BW_AT_GAUGE_COLUMN),
    KEY (gauge.pitch_mm, BW_AT_GAUGE_PITCH),
    KEY (pitch.mm, BW_AT_PROGRESS_CHECKS),
    KEY (pitch.sd_mm, BW_AT_PROGRESS_CHECKS),
    KEY (bed.cord_width_mm, BW_AT_BED_CORD_WIDTH),
    KEY (band.bottom_mm, BW_AT_BAND_BOTTOM),
    KEY (bail.cord_mm, BW_AT_BAIL_CORD),
    KEY (thread.diameter_mm, BW_AT_THREAD_DIAMETER),
    KEY (thread.needle_mm, BW_AT_THREAD_NEEDLE),
    KEY (thread.working_mm, BW_AT_THREAD_WORKING),
    KEY (thread.tail_mm, BW_AT_THREAD_TAIL),
    KEY (thread.stretch, BW_AT_THREAD_STRETCH),
    KEY (limits.slack_mm, BW_AT_FIT_SLACK),
    KEY (limits.friction, BW_AT_FIT_FRICTION),
    KEY (supply.spare, BW_AT_MATERIALS_SPARE),
    KEY (supply.pack_g, BW_AT_MATERIALS_PACK_G),
    KEY (supply.neck_mm, BW_AT_MATERIALS_NECK),
    KEY (supply.closing_mm, BW_AT_MATERIALS_CLOSING),
    KEY (supply.pack, BW_AT_PRICES_PACK),
    KEY (supply.thread_per_m, BW_AT_PRICES_THREAD),
    KEY (supply.bed_cord_per_m, BW_AT_PRICES_BED_CORD),
    KEY (supply.stone, BW_AT_PRICES_STONE),
    KEY (supply.hour, BW_AT_PRICES_HOUR),
    KEY (supply.rows_per_hour, BW_AT_PRICES_ROWS_PER_HOUR),
    KEY (supply.hanging_cord_per_m, BW_AT_PRICES_HANGING_CORD),
    KEY (supply.findings, BW_AT_PRICES_FINDINGS),
    KEY (supply.markup, BW_AT_PRICES_MARKUP),
    KEY (supply.round_to, BW_AT_PRICES_ROUND_TO),
  };
  const double wrong[] = { -1, 1e308, -1e308, (double)NAN, (double)INFINITY };
  for (gsize k = 0; k < G_N_ELEMENTS (keys); k++)
    for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++) {
      BwDesign design = bench_design ();
      design.supply.has_prices = TRUE;
      sound (&design);
      G_STRUCT_MEMBER (double, &design, keys[k].offset) = wrong[i];
      refused_at (&design, BW_FAULTY_RANGE, keys[k].key);
    }
}

static void
azimuths_turn_either_way_but_not_for_ever (void **state)
{
  BwDesign design = bench_design ();
  design.band.seam_deg = -350;
  design.bail.at_deg = 540;
  sound (&design);
  design.band.seam_deg = (double)NAN;
  refused_at (&design, BW_FAULTY_RANGE, BW_AT_BAND_SEAM);
  design.band.seam_deg = 1e308;
  refused_at (&design, BW_FAULTY_RANGE, BW_AT_BAND_SEAM);
}

static void
pieces_are_at_least_one (void **state)
{
  BwDesign design = bench_design ();
  design.supply.pieces = 0;
  refused_at (&design, BW_FAULTY_RANGE, BW_AT_MATERIALS_PIECES);
}

static void
prices_nobody_gave_are_not_looked_at (void **state)
{
  BwDesign design = bench_design ();
  design.supply.hour = -3;
  sound (&design);
}

static void
designs_are_copied_by_assignment (void **state)
{
  BwDesign design = bench_design (), copy = design;
  copy.band.columns = 12;
  sound (&copy);
  assert_int_equal (design.band.columns, 14);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_bench_design_is_sound_and_gives_its_stone),
    cmocka_unit_test (the_defaults_are_those_of_the_project_file),
    cmocka_unit_test (a_band_lies_where_it_is_put),
    cmocka_unit_test (a_centred_band_has_as_much_prism_on_either_side),
    cmocka_unit_test (a_centred_band_stays_on_the_stone),
    cmocka_unit_test (a_centred_band_is_moved_down_from_the_tip),
    cmocka_unit_test (a_band_off_the_stone_is_named),
    cmocka_unit_test (columns_are_even_and_within_two_and_two_hundred),
    cmocka_unit_test (rows_are_at_least_one_and_at_most_twenty_thousand),
    cmocka_unit_test (needle_and_thread_go_through_the_hole),
    cmocka_unit_test (a_bed_below_nothing_is_found_through_the_design),
    cmocka_unit_test (a_bail_that_does_not_fit_is_found_through_the_design),
    cmocka_unit_test (an_upright_strip_may_be_wider_than_the_band_but_goes_round_once),
    cmocka_unit_test (more_rows_than_are_allowed_are_refused_before_anyone_counts),
    cmocka_unit_test (each_number_must_be_a_possible_one),
    cmocka_unit_test (azimuths_turn_either_way_but_not_for_ever),
    cmocka_unit_test (pieces_are_at_least_one),
    cmocka_unit_test (prices_nobody_gave_are_not_looked_at),
    cmocka_unit_test (designs_are_copied_by_assignment),
  };
  return cmocka_run_group_tests_name ("design", tests, NULL, NULL);
}
