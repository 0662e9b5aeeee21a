/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stones that cannot be: each is refused at the measurement at fault, and nothing else changes. */
#include "stones.h"

#include <string.h>

static void
refused_of (const BwStoneMeasures *measures, BwFaultKind kind, BwFaultKey key, int index)
{
  BwFault fault = NO_FAULT;
  BwStone stone, before;
  memset (&stone, 0x5a, sizeof stone);
  before = stone;
  assert_false (bw_stone_init (&stone, measures, &fault));
  assert_fault_of (&fault, kind, key, index);
  assert_memory_equal (&stone, &before, sizeof stone);
  assert_false (bw_stone_measures_validate (measures, &fault));
  assert_fault_of (&fault, kind, key, index);
}

static void
refused_at (const BwStoneMeasures *measures, BwFaultKind kind, BwFaultKey key)
{
  refused_of (measures, kind, key, BW_WHOLE);
}

static void
a_distance_that_hides_its_face_is_named (void **state)
{
  BwStoneMeasures m = bench_stone ();
  for (int i = 0; i < 3; i++) {
    m = bench_stone ();
    m.values_mm[i] = 60;
    refused_of (&m, BW_FAULTY_FACE_VANISHES, BW_AT_STONE_VALUES, i);
  }
}

/* With h = 10, 10 and d the faces are as wide as (10 + 10 − d)/sin 60°: at 20 it is gone. */
static void
a_face_vanishes_exactly_where_its_neighbours_meet (void **state)
{
  BwStoneMeasures m = bench_stone ();
  m.values_mm[0] = m.values_mm[2] = 20;
  m.values_mm[1] = 40;
  refused_of (&m, BW_FAULTY_FACE_VANISHES, BW_AT_STONE_VALUES, 1);
  m.values_mm[1] = 39.99;
  m.second_girth_mm = 100;
  assert_true (bw_stone_measures_validate (&m, NULL));
}

/* 1, 1, 1, 1 and 8 round a pentagon: the correction takes more from the small faces than they have.
 */
static void
a_face_width_that_vanishes_is_named (void **state)
{
  BwStoneMeasures m = bench_stone ();
  m.faces = 5;
  m.measured = BW_MEASURED_FACE_WIDTHS;
  const double widths[] = { 8, 1, 8, 8, 8 };
  memcpy (m.values_mm, widths, sizeof widths);
  m.has_second = FALSE;
  assert_true (bw_stone_measures_validate (&m, NULL));
  /* Misfit 29 along the second edge: its own width falls by 2/5 · 29 to 18.4, its neighbours' by
   * 2/5 · 29 cos 72° to −2.58. */
  const double wrong[] = { 1, 30, 1, 1, 1 };
  memcpy (m.values_mm, wrong, sizeof wrong);
  refused_of (&m, BW_FAULTY_FACE_VANISHES, BW_AT_STONE_VALUES, 0);
}

static void
an_odd_number_of_faces_has_no_flats_to_measure_across (void **state)
{
  BwStoneMeasures m = bench_stone ();
  m.faces = 5;
  refused_at (&m, BW_FAULTY_NO_FLATS, BW_AT_STONE_MEASURED);
}

static void
two_faces_are_too_few_and_sixty_five_too_many (void **state)
{
  const int wrong[] = { 0, -6, 2, 65, G_MAXINT, G_MININT };
  for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++) {
    BwStoneMeasures m = bench_stone ();
    m.faces = wrong[i];
    m.measured = BW_MEASURED_GIRTH;
    refused_at (&m, BW_FAULTY_RANGE, BW_AT_STONE_FACES);
  }
}

/* Every number of a stone, where it is told, and what it may never be. */
static void
no_measurement_may_be_nothing_or_no_number (void **state)
{
  static const struct {
    gsize offset;
    BwFaultKey key;
    gboolean zero_is_fine;
    int index;
  } keys[] = {
    { G_STRUCT_OFFSET (BwStoneMeasures, values_mm[0]), BW_AT_STONE_VALUES, FALSE, 0 },
    { G_STRUCT_OFFSET (BwStoneMeasures, values_mm[2]), BW_AT_STONE_VALUES, FALSE, 2 },
    { G_STRUCT_OFFSET (BwStoneMeasures, at_mm), BW_AT_STONE_AT, TRUE, BW_WHOLE },
    { G_STRUCT_OFFSET (BwStoneMeasures, second_girth_mm), BW_AT_STONE_SECOND_GIRTH, FALSE,
      BW_WHOLE },
    { G_STRUCT_OFFSET (BwStoneMeasures, second_at_mm), BW_AT_STONE_SECOND_AT, TRUE, BW_WHOLE },
    { G_STRUCT_OFFSET (BwStoneMeasures, length_mm), BW_AT_STONE_LENGTH, FALSE, BW_WHOLE },
    { G_STRUCT_OFFSET (BwStoneMeasures, shoulder_mm), BW_AT_STONE_SHOULDER, FALSE, BW_WHOLE },
    { G_STRUCT_OFFSET (BwStoneMeasures, base_shoulder_mm), BW_AT_STONE_BASE_SHOULDER, FALSE,
      BW_WHOLE },
    { G_STRUCT_OFFSET (BwStoneMeasures, girth_sd_mm), BW_AT_STONE_GIRTH_SD, TRUE, BW_WHOLE },
    { G_STRUCT_OFFSET (BwStoneMeasures, density_g_cm3), BW_AT_STONE_DENSITY, FALSE, BW_WHOLE },
  };
  const double wrong[] = { -1, -1e-300, 1e308, -1e308, (double)NAN, (double)INFINITY, 0, 1e-300 };
  for (gsize k = 0; k < G_N_ELEMENTS (keys); k++)
    for (gsize i = 0; i < G_N_ELEMENTS (wrong) - (keys[k].zero_is_fine ? 2 : 0); i++) {
      BwStoneMeasures m = bench_stone ();
      m.base = BW_BASE_POINT;
      m.has_base_shoulder = TRUE;
      m.base_shoulder_mm = 6;
      assert_true (bw_stone_measures_validate (&m, NULL));
      G_STRUCT_MEMBER (double, &m, keys[k].offset) = wrong[i];
      refused_of (&m, BW_FAULTY_RANGE, keys[k].key, keys[k].index);
    }
}

static void
a_tip_cannot_lie_at_infinity (void **state)
{
  const double wrong[] = { 1e308, -1e308, (double)NAN, (double)INFINITY };
  for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++) {
    BwStoneMeasures m = bench_stone ();
    m.apex_offset_mm[1] = wrong[i];
    refused_of (&m, BW_FAULTY_RANGE, BW_AT_STONE_APEX_OFFSET, 1);
    m = bench_stone ();
    m.base = BW_BASE_POINT;
    m.base_apex_offset_mm[0] = wrong[i];
    refused_of (&m, BW_FAULTY_RANGE, BW_AT_STONE_BASE_APEX_OFFSET, 0);
  }
}

static void
a_natural_angle_is_more_than_none_and_less_than_a_right_one (void **state)
{
  const double wrong[] = { 0, -38, 90, 91, 1e308, (double)NAN };
  for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++) {
    BwStoneMeasures m = bench_stone ();
    m.has_natural_angle = TRUE;
    m.natural_angle_deg = wrong[i];
    refused_at (&m, BW_FAULTY_RANGE, BW_AT_STONE_NATURAL_ANGLE);
  }
}

static void
a_point_longer_than_the_stone_is_named (void **state)
{
  BwStoneMeasures m = bench_stone ();
  m.has_shoulder = m.has_second = FALSE;
  m.has_natural_angle = TRUE;
  m.natural_angle_deg = 5; /* 12.3/tan 5° = 140 mm on a stone of 58 */
  refused_at (&m, BW_FAULTY_POINT_TOO_LONG, BW_AT_STONE_NATURAL_ANGLE);
}

static void
where_the_point_begins_must_be_told (void **state)
{
  BwStoneMeasures m = bench_stone ();
  m.has_shoulder = FALSE;
  refused_at (&m, BW_FAULTY_NO_SHOULDER, BW_AT_STONE_SHOULDER);
}

static void
a_shoulder_at_or_above_the_tip_is_named (void **state)
{
  BwStoneMeasures m = bench_stone ();
  m.shoulder_mm = m.length_mm;
  refused_at (&m, BW_FAULTY_SHOULDER_HIGH, BW_AT_STONE_SHOULDER);
  m.shoulder_mm = 70;
  refused_at (&m, BW_FAULTY_SHOULDER_HIGH, BW_AT_STONE_SHOULDER);
}

static void
a_measuring_height_off_the_prism_is_named (void **state)
{
  BwStoneMeasures m = bench_stone ();
  m.at_mm = 41.001;
  refused_at (&m, BW_FAULTY_OFF_PRISM, BW_AT_STONE_AT);
  m = bench_stone ();
  m.second_at_mm = 41.001;
  refused_at (&m, BW_FAULTY_OFF_PRISM, BW_AT_STONE_SECOND_AT);
  m.second_at_mm = 41;
  assert_true (bw_stone_measures_validate (&m, NULL));
  m.base = BW_BASE_POINT; /* the prism now begins at 17 */
  refused_at (&m, BW_FAULTY_OFF_PRISM, BW_AT_STONE_AT);
}

static void
a_second_girth_at_the_same_height_tells_no_taper (void **state)
{
  BwStoneMeasures m = bench_stone ();
  m.second_at_mm = m.at_mm;
  refused_at (&m, BW_FAULTY_SAME_HEIGHT, BW_AT_STONE_SECOND_AT);
}

static void
a_prism_that_comes_to_nothing_is_the_second_girths_fault (void **state)
{
  BwStoneMeasures m = bench_stone ();
  m.second_girth_mm = 5; /* nothing left some 1.4 mm above 34 */
  refused_at (&m, BW_FAULTY_TAPERS_AWAY, BW_AT_STONE_SECOND_GIRTH);
  /* Thick enough at the shoulder, yet gone before the tip: no point could lean in more. */
  m.second_girth_mm = 40;
  refused_at (&m, BW_FAULTY_TAPERS_AWAY, BW_AT_STONE_SECOND_GIRTH);
  m.has_shoulder = FALSE;
  m.has_natural_angle = TRUE;
  m.natural_angle_deg = 10;
  refused_at (&m, BW_FAULTY_TAPERS_AWAY, BW_AT_STONE_SECOND_GIRTH);
}

static void
a_tip_out_over_a_face_is_named (void **state)
{
  BwStoneMeasures m = bench_stone ();
  m.has_second = FALSE;
  m.apex_offset_mm[0] = 12.29; /* face 0 stands 12.3 from the axis */
  m.apex_offset_mm[1] = 0;
  assert_true (bw_stone_measures_validate (&m, NULL));
  m.apex_offset_mm[0] = 12.3;
  refused_at (&m, BW_FAULTY_TIP_OUT, BW_AT_STONE_APEX_OFFSET);
  m = bench_stone ();
  m.base = BW_BASE_POINT;
  m.at_mm = 20;
  m.base_apex_offset_mm[1] = -30;
  refused_at (&m, BW_FAULTY_TIP_OUT, BW_AT_STONE_BASE_APEX_OFFSET);
}

static void
a_stone_that_widens_may_carry_its_tip_further_out (void **state)
{
  BwStoneMeasures m = bench_stone ();
  m.measured = BW_MEASURED_GIRTH;
  m.values_mm[0] = 80;
  m.second_girth_mm = 90; /* h = 11.547 (1 + 0.125/22 (z − 12)): 14.564 at the tip's height */
  m.apex_offset_mm[1] = 0;
  m.apex_offset_mm[0] = 14.56;
  assert_true (bw_stone_measures_validate (&m, NULL));
  m.apex_offset_mm[0] = 14.57;
  refused_at (&m, BW_FAULTY_TIP_OUT, BW_AT_STONE_APEX_OFFSET);
}

static void
two_points_must_leave_some_prism_between_them (void **state)
{
  BwStoneMeasures m = bench_stone ();
  m.base = BW_BASE_POINT;
  m.has_second = FALSE;
  m.shoulder_mm = 29; /* half of 58: the lower point would end there as well */
  refused_at (&m, BW_FAULTY_POINTS_MEET, BW_AT_STONE_SHOULDER);
  m.has_base_shoulder = TRUE;
  m.base_shoulder_mm = 30;
  refused_at (&m, BW_FAULTY_POINTS_MEET, BW_AT_STONE_BASE_SHOULDER);
  m.base_shoulder_mm = 10;
  assert_true (bw_stone_measures_validate (&m, NULL));
  m.has_shoulder = m.has_base_shoulder = FALSE;
  m.has_natural_angle = TRUE;
  m.natural_angle_deg = 20; /* points of 33.8 mm */
  refused_at (&m, BW_FAULTY_POINTS_MEET, BW_AT_STONE_NATURAL_ANGLE);
}

/* Numbers drawn with no sense at all: whatever happens, a refusal names a key under /stone, and
 * what is accepted is a body with a volume. */
static double
senseless (GRand *rand)
{
  static const double odd[] = { 0, -1, 1e-310, 1e308, (double)NAN, (double)INFINITY, 1e-3, 1e3, 3 };
  return g_rand_int_range (rand, 0, 6) == 0 ? odd[g_rand_int_range (rand, 0, G_N_ELEMENTS (odd))]
                                            : g_rand_double_range (rand, 0, 60);
}

static void
nonsense_is_refused_and_never_half_believed (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (23);
  int accepted = 0;
  for (int k = 0; k < 20000; k++) {
    BwStoneMeasures m = { .faces = g_rand_int_range (rand, 1, 10),
                          .measured = g_rand_int_range (rand, 0, 3),
                          .has_second = g_rand_boolean (rand),
                          .has_shoulder = g_rand_boolean (rand),
                          .has_natural_angle = g_rand_boolean (rand),
                          .base = g_rand_int_range (rand, 0, 2),
                          .has_base_shoulder = g_rand_boolean (rand) };
    double *numbers[]
        = { &m.at_mm,        &m.second_girth_mm,   &m.second_at_mm,     &m.length_mm,
            &m.shoulder_mm,  &m.natural_angle_deg, &m.base_shoulder_mm, &m.girth_sd_mm,
            &m.density_g_cm3 };
    for (gsize i = 0; i < G_N_ELEMENTS (numbers); i++)
      *numbers[i] = senseless (rand);
    for (int i = 0; i < 10; i++)
      m.values_mm[i] = 20 + senseless (rand) / 10;
    BwFault fault = NO_FAULT;
    BwStone stone;
    if (bw_stone_init (&stone, &m, &fault)) {
      accepted++;
      assert_true (isfinite (stone.volume_mm3) && stone.volume_mm3 > 0);
      assert_true (stone.centroid.z > 0 && stone.centroid.z < stone.length_mm);
      continue;
    }
    assert_in_range (fault.key, BW_AT_STONE_FACES, BW_AT_STONE_DENSITY);
  }
  /* Both kinds were drawn, so neither half of the check was idle. */
  assert_in_range (accepted, 100, 19900);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_distance_that_hides_its_face_is_named),
    cmocka_unit_test (a_face_vanishes_exactly_where_its_neighbours_meet),
    cmocka_unit_test (a_face_width_that_vanishes_is_named),
    cmocka_unit_test (an_odd_number_of_faces_has_no_flats_to_measure_across),
    cmocka_unit_test (two_faces_are_too_few_and_sixty_five_too_many),
    cmocka_unit_test (no_measurement_may_be_nothing_or_no_number),
    cmocka_unit_test (a_tip_cannot_lie_at_infinity),
    cmocka_unit_test (a_natural_angle_is_more_than_none_and_less_than_a_right_one),
    cmocka_unit_test (a_point_longer_than_the_stone_is_named),
    cmocka_unit_test (where_the_point_begins_must_be_told),
    cmocka_unit_test (a_shoulder_at_or_above_the_tip_is_named),
    cmocka_unit_test (a_measuring_height_off_the_prism_is_named),
    cmocka_unit_test (a_second_girth_at_the_same_height_tells_no_taper),
    cmocka_unit_test (a_prism_that_comes_to_nothing_is_the_second_girths_fault),
    cmocka_unit_test (a_tip_out_over_a_face_is_named),
    cmocka_unit_test (a_stone_that_widens_may_carry_its_tip_further_out),
    cmocka_unit_test (two_points_must_leave_some_prism_between_them),
    cmocka_unit_test (nonsense_is_refused_and_never_half_believed),
  };
  return cmocka_run_group_tests_name ("stone-faults", tests, NULL, NULL);
}
