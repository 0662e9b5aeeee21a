/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bed: its thickness from layers or from a girth over it, and its cord. */
#include "stones.h"

#include "core/design/bed-layers.h"
#include "core/stone/section.h"

static const BwBandSpan span = { .bottom_mm = 14.2, .width_mm = 18.2 };

static BwBed
plain (void)
{
  return (BwBed){
    .cord_thickness_mm = 0.35, .cord_width_mm = 1, .layers = 2, .squeeze = 0.15, .overhang_mm = 1
  };
}

static BwStone
bench (void)
{
  BwStoneMeasures m = bench_stone ();
  return solved (&m);
}

static double
girth_at (const BwStone *stone, double z)
{
  BwSection section;
  bw_section_init (&section, stone, z);
  return section.girth_mm;
}

static BwBedding
laid (const BwBed *bed, const BwStone *stone)
{
  BwBedding bedding = { 0 };
  BwFault fault = NO_FAULT;
  if (!bw_bedding_init (&bedding, bed, stone, span, &fault))
    fail_msg ("a possible bed was refused: fault %d at key %d", fault.kind, fault.key);
  return bedding;
}

static void
layers_of_cord_are_as_thick_as_they_are_many (void **state)
{
  BwStone stone = bench ();
  BwBed bed = plain ();
  BwBedding bedding = laid (&bed, &stone);
  for (double z = 14.2; z < 32.5; z += 1)
    assert_near (bw_bedding_thickness (&bedding, z), 0.7, 1e-15);
  bed.layers = 0;
  bedding = laid (&bed, &stone);
  assert_near (bw_bedding_thickness (&bedding, 20), 0, 0);
}

static void
a_grade_lies_between_the_bands_edges (void **state)
{
  BwStone stone = bench ();
  BwBed bed = plain ();
  bed.top_extra_mm = 0.4;
  BwBedding bedding = laid (&bed, &stone);
  assert_near (bw_bedding_thickness (&bedding, 14.2), 0.7, 1e-14);
  assert_near (bw_bedding_thickness (&bedding, 14.2 + 9.1), 0.9, 1e-14);
  assert_near (bw_bedding_thickness (&bedding, 14.2 + 18.2), 1.1, 1e-14);
}

static void
the_closed_band_squeezes_it (void **state)
{
  BwStone stone = bench ();
  BwBed bed = plain ();
  BwBedding bedding = laid (&bed, &stone);
  assert_near (bw_bedding_squeezed (&bedding, 20), 0.7 * 0.85, 1e-15);
  bed.squeeze = 0;
  bedding = laid (&bed, &stone);
  assert_near (bw_bedding_squeezed (&bedding, 20), 0.7, 1e-15);
}

/* Steiner's formula for parallel bodies: L(K_r) = L + 2πr for every convex K (P. M. Gruber, Convex
 * and Discrete Geometry, Springer 2007, §6). The regular hexagon of inradius 5 at r = 1: 40.924201.
 */
static void
a_girth_over_the_bed_tells_its_thickness_by_steiner (void **state)
{
  BwStoneMeasures m = bench_stone ();
  m.values_mm[0] = m.values_mm[1] = m.values_mm[2] = 10;
  m.has_second = FALSE;
  BwStone stone = solved (&m);
  BwBed bed = plain ();
  bed.has_girth_over = TRUE;
  bed.girth_over_mm = 40.924201;
  BwBedding bedding = laid (&bed, &stone);
  assert_near (bw_bedding_thickness (&bedding, 20), 1, 1e-7);
}

static void
a_girth_over_the_bed_wins_over_the_layers_and_holds_in_the_middle (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (41);
  for (int k = 0; k < 300; k++) {
    DrawnStone drawn;
    draw_stone (&drawn, rand);
    BwStone stone = solved (&drawn.measures);
    double width = g_rand_double_range (rand, 2, stone.length_mm / 2);
    BwBandSpan place = { g_rand_double_range (rand, 0, stone.length_mm - width), width };
    double t = g_rand_double_range (rand, 0.5, 3), z = bw_band_span_mid (place);
    BwBed bed = plain ();
    bed.layers = 7;
    bed.top_extra_mm = g_rand_double_range (rand, -0.9, 0.9);
    bed.has_girth_over = TRUE;
    bed.girth_over_mm = girth_at (&stone, z) + 2 * G_PI * t;
    if (bed.girth_over_mm > BW_GIRTH_OVER_TIMES * girth_at (&stone, z))
      continue; /* thicker than the stone is there */
    BwBedding bedding;
    assert_true (bw_bedding_init (&bedding, &bed, &stone, place, NULL));
    assert_near (bw_bedding_thickness (&bedding, z), t, 1e-12);
    assert_near (bw_bedding_thickness (&bedding, place.bottom_mm + width)
                     - bw_bedding_thickness (&bedding, place.bottom_mm),
                 bed.top_extra_mm, 1e-12);
  }
}

static void
refused_at (const BwBed *bed, BwFaultKind kind, BwFaultKey key)
{
  BwStone stone = bench ();
  BwBedding bedding = { 1, 2, 3, 4 }, before = bedding;
  BwFault fault = NO_FAULT;
  assert_false (bw_bedding_init (&bedding, bed, &stone, span, &fault));
  assert_fault (&fault, kind, key);
  assert_memory_equal (&bedding, &before, sizeof bedding);
}

static void
a_girth_over_the_bed_below_the_stones_own_is_named (void **state)
{
  BwStone stone = bench ();
  BwBed bed = plain ();
  bed.has_girth_over = TRUE;
  bed.girth_over_mm = girth_at (&stone, bw_band_span_mid (span)) - 0.01;
  refused_at (&bed, BW_FAULTY_GIRTH_UNDER, BW_AT_BED_GIRTH_OVER);
  bed.girth_over_mm += 0.01;
  laid (&bed, &stone);
}

static void
a_grade_that_takes_more_than_lies_there_is_named (void **state)
{
  BwStone stone = bench ();
  BwBed bed = plain ();
  bed.top_extra_mm = -0.71;
  refused_at (&bed, BW_FAULTY_BED_UNDER, BW_AT_BED_TOP_EXTRA);
  bed.top_extra_mm = -0.7;
  laid (&bed, &stone);
  /* Measured over the middle, half the grade is taken from one edge whichever way it runs. */
  bed.has_girth_over = TRUE;
  bed.girth_over_mm = girth_at (&stone, bw_band_span_mid (span)) + 2 * G_PI * 0.3;
  for (int sign = -1; sign <= 1; sign += 2) {
    bed.top_extra_mm = sign * 0.61;
    refused_at (&bed, BW_FAULTY_BED_UNDER, BW_AT_BED_TOP_EXTRA);
    bed.top_extra_mm = sign * 0.59;
    laid (&bed, &stone);
  }
}

static void
the_bed_is_narrower_than_the_band_but_never_less_than_nothing (void **state)
{
  BwBed bed = plain ();
  assert_near (bw_bed_width_mm (&bed, span), 16.2, 1e-15);
  bed.overhang_mm = 50;
  assert_near (bw_bed_width_mm (&bed, span), 0, 0);
}

/* A slip of the point: 880 for 88. */
static void
a_bed_thicker_than_its_stone_is_a_slip_and_named (void **state)
{
  BwStone stone = bench ();
  BwBed bed = plain ();
  bed.has_girth_over = TRUE;
  bed.girth_over_mm = 2 * girth_at (&stone, bw_band_span_mid (span)) + 0.001;
  refused_at (&bed, BW_FAULTY_GIRTH_FAR, BW_AT_BED_GIRTH_OVER);
  bed.girth_over_mm -= 0.002;
  laid (&bed, &stone);
}

/* By hand: a bed 16.2 mm wide of cord 1 mm wide takes 16.2 turns a layer; the first layer lies a
 * sixth of a millimetre and a little out, the second half a cord more. */
static void
cord_is_wound_layer_by_layer (void **state)
{
  BwStone stone = bench ();
  BwBed bed = plain ();
  double girth = girth_at (&stone, 14.2 + 9.1);
  double first = 16.2 * (girth + 2 * G_PI * 0.175), second = 16.2 * (girth + 2 * G_PI * 0.525);
  assert_near (bw_bed_wound_mm (&bed, &stone, span), first + second, 1e-10);
  assert_near (bw_bed_cord_mm (&bed, &stone, span), first + second + 200, 1e-10);
  assert_near (bw_bed_mass_g (&bed, &stone, span), (first + second) * 0.35 * 1.2e-3, 1e-13);
}

/* A grade adds at the top what it takes away in the middle when it runs the other way; a measured
 * girth tells the same bed, whatever layers are said. */
static void
cord_goes_by_the_volume_of_the_bed (void **state)
{
  BwStone stone = bench ();
  double girth = girth_at (&stone, 14.2 + 9.1);
  for (int sign = -1; sign <= 1; sign++) {
    BwBed bed = plain ();
    bed.top_extra_mm = sign * 0.35;
    double thick = 0.7 + bed.top_extra_mm / 2;
    double wound = 16.2 * (girth * thick + G_PI * thick * thick) / 0.35;
    assert_near (bw_bed_wound_mm (&bed, &stone, span), wound, 1e-10);
    assert_near (bw_bed_mass_g (&bed, &stone, span), wound * 0.35 * 1.2e-3, 1e-13);
    bed.has_girth_over = TRUE;
    bed.girth_over_mm = girth + 2 * G_PI * thick;
    for (bed.layers = 0; bed.layers < 4; bed.layers++)
      assert_near (bw_bed_cord_mm (&bed, &stone, span), wound + 200, 1e-9);
    bed.girth_over_mm = girth;
    bed.top_extra_mm = 0;
    assert_near (bw_bed_cord_mm (&bed, &stone, span), 0, 0);
  }
}

/* Common practice, no source: a twelve-column 11/0 band on a medium stone takes 1.2 to 1.5 m of
 * flat waxed cord. Medium is taken as 25 mm across the flats, one layer. */
static void
a_medium_stone_takes_as_much_cord_as_the_trade_says (void **state)
{
  BwStoneMeasures m = bench_stone ();
  m.values_mm[0] = m.values_mm[1] = m.values_mm[2] = 25;
  m.has_second = FALSE;
  BwStone stone = solved (&m);
  BwBed bed = plain ();
  bed.layers = 1;
  BwBandSpan twelve = { 10, 12 * 1.3 };
  double cord = bw_bed_cord_mm (&bed, &stone, twelve);
  assert_true (cord > 1200 && cord < 1500);
}

static void
nothing_wound_wants_no_cord (void **state)
{
  BwStone stone = bench ();
  BwBed bed = plain ();
  bed.layers = 0;
  assert_near (bw_bed_cord_mm (&bed, &stone, span), 0, 0);
  assert_near (bw_bed_mass_g (&bed, &stone, span), 0, 0);
  bed.top_extra_mm = 0.2;
  assert_true (bw_bed_cord_mm (&bed, &stone, span) > 200);
}

static void
each_number_must_be_a_possible_one (void **state)
{
  static const struct {
    gsize offset;
    BwFaultKey key;
  } keys[] = {
    { G_STRUCT_OFFSET (BwBed, cord_thickness_mm), BW_AT_BED_CORD_THICKNESS },
    { G_STRUCT_OFFSET (BwBed, cord_width_mm), BW_AT_BED_CORD_WIDTH },
    { G_STRUCT_OFFSET (BwBed, squeeze), BW_AT_BED_SQUEEZE },
    { G_STRUCT_OFFSET (BwBed, overhang_mm), BW_AT_BED_OVERHANG },
    { G_STRUCT_OFFSET (BwBed, girth_over_mm), BW_AT_BED_GIRTH_OVER },
    { G_STRUCT_OFFSET (BwBed, top_extra_mm), BW_AT_BED_TOP_EXTRA },
  };
  const double wrong[] = { 1e308, (double)NAN, -(double)INFINITY, -1 };
  for (gsize k = 0; k < G_N_ELEMENTS (keys); k++)
    /* A grade may run downwards: the last one is no fault of range there. */
    for (gsize i = 0; i < G_N_ELEMENTS (wrong) - (k == 5); i++) {
      BwBed bed = plain ();
      BwFault fault = NO_FAULT;
      bed.has_girth_over = TRUE;
      bed.girth_over_mm = 90;
      assert_true (bw_bed_validate (&bed, NULL));
      G_STRUCT_MEMBER (double, &bed, keys[k].offset) = wrong[i];
      assert_false (bw_bed_validate (&bed, &fault));
      assert_fault (&fault, BW_FAULTY_RANGE, keys[k].key);
      refused_at (&bed, BW_FAULTY_RANGE, keys[k].key);
    }
  BwBed bed = plain ();
  bed.layers = -1;
  refused_at (&bed, BW_FAULTY_RANGE, BW_AT_BED_LAYERS);
  bed = plain ();
  bed.squeeze = 0.95;
  refused_at (&bed, BW_FAULTY_RANGE, BW_AT_BED_SQUEEZE);
  bed = plain ();
  bed.cord_thickness_mm = 0;
  refused_at (&bed, BW_FAULTY_RANGE, BW_AT_BED_CORD_THICKNESS);
}

/* --- In whole turns ----------------------------------------------------------------------------
 */

static int
layers_at (const BwBedLayer *layers, int n, double z)
{
  int found = 0;
  for (int i = 0; i < n; i++)
    found += z >= layers[i].low_mm && z <= layers[i].high_mm;
  return found;
}

static void
an_even_bed_is_wound_from_edge_to_edge (void **state)
{
  BwStone stone = bench ();
  BwBed bed = plain ();
  BwBedLayer layers[BW_BED_LAYERS_LISTED];
  assert_int_equal (bw_bed_layers (&bed, &stone, span, layers), 2);
  for (int i = 0; i < 2; i++) {
    assert_near (layers[i].low_mm, 15.2, 1e-9);
    assert_near (layers[i].high_mm, 31.4, 1e-9);
    assert_int_equal (layers[i].turns, 16);
  }
}

/* Two layers and 0.35 mm more at the top: the third lies where the bed should be thicker than two
 * and a half, which is on the upper half. */
static void
a_graded_bed_says_where_its_further_layer_lies (void **state)
{
  BwStone stone = bench ();
  BwBed bed = plain ();
  BwBedLayer layers[BW_BED_LAYERS_LISTED];
  bed.top_extra_mm = 0.35;
  assert_int_equal (bw_bed_layers (&bed, &stone, span, layers), 3);
  assert_near (layers[2].low_mm, 14.2 + 18.2 / 2, 1e-9);
  assert_near (layers[2].high_mm, 31.4, 1e-9);
  assert_int_equal (layers[2].turns, 8);
  bed.top_extra_mm = -0.35;
  assert_int_equal (bw_bed_layers (&bed, &stone, span, layers), 2);
  assert_near (layers[1].low_mm, 15.2, 1e-9);
  assert_near (layers[1].high_mm, 14.2 + 18.2 / 2, 1e-9);
}

static void
what_is_wound_is_within_half_a_cord_of_what_was_reckoned (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (71);
  BwStone stone = bench ();
  int graded = 0;
  for (int i = 0; i < 400; i++) {
    BwBed bed = plain ();
    BwBedLayer layers[BW_BED_LAYERS_LISTED];
    BwBedding bedding;
    bed.cord_thickness_mm = g_rand_double_range (rand, 0.2, 0.6);
    bed.layers = g_rand_int_range (rand, 0, 4);
    bed.top_extra_mm = g_rand_double_range (rand, -1.2, 1.2);
    if (!bw_bedding_init (&bedding, &bed, &stone, span, NULL))
      continue;
    graded++;
    int n = bw_bed_layers (&bed, &stone, span, layers);
    for (double z = 15.2; z <= 31.4; z += 0.1) {
      double thick = bw_bedding_thickness (&bedding, z);
      double wound = layers_at (layers, n, z) * bed.cord_thickness_mm;
      /* At the edges of the bed half a turn may be missing: there is no narrower one. */
      gboolean edge = z < 15.2 + bed.cord_width_mm / 2 || z > 31.4 - bed.cord_width_mm / 2;
      assert_true (edge || fabs (wound - thick) <= bed.cord_thickness_mm / 2 + 1e-9);
    }
  }
  assert_true (graded > 150);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (layers_of_cord_are_as_thick_as_they_are_many),
    cmocka_unit_test (a_grade_lies_between_the_bands_edges),
    cmocka_unit_test (the_closed_band_squeezes_it),
    cmocka_unit_test (a_girth_over_the_bed_tells_its_thickness_by_steiner),
    cmocka_unit_test (a_girth_over_the_bed_wins_over_the_layers_and_holds_in_the_middle),
    cmocka_unit_test (a_girth_over_the_bed_below_the_stones_own_is_named),
    cmocka_unit_test (a_grade_that_takes_more_than_lies_there_is_named),
    cmocka_unit_test (the_bed_is_narrower_than_the_band_but_never_less_than_nothing),
    cmocka_unit_test (a_bed_thicker_than_its_stone_is_a_slip_and_named),
    cmocka_unit_test (cord_is_wound_layer_by_layer),
    cmocka_unit_test (cord_goes_by_the_volume_of_the_bed),
    cmocka_unit_test (a_medium_stone_takes_as_much_cord_as_the_trade_says),
    cmocka_unit_test (nothing_wound_wants_no_cord),
    cmocka_unit_test (an_even_bed_is_wound_from_edge_to_edge),
    cmocka_unit_test (a_graded_bed_says_where_its_further_layer_lies),
    cmocka_unit_test (what_is_wound_is_within_half_a_cord_of_what_was_reckoned),
    cmocka_unit_test (each_number_must_be_a_possible_one),
  };
  return cmocka_run_group_tests_name ("bed", tests, NULL, NULL);
}
