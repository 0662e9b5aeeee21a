/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Changing how a stone is measured must not change the stone. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "app/form/measures.h"
#include "core/stone/section.h"
#include "project/project.h"

#include <math.h>

/* Values are rounded to a hundredth, so that stones agree to about that. */
#define ROUNDED 0.02

static BwStoneMeasures
some_stone (GRand *rand)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwStoneMeasures m = bw_project_get_design (project)->stone;
  for (int i = 0; i < 3; i++)
    m.values_mm[i] = g_rand_double_range (rand, 20, 23);
  m.shoulder_mm = g_rand_double_range (rand, 30, 40);
  return m;
}

static BwStone
solve (const BwStoneMeasures *measures)
{
  BwStone stone;
  BwFault fault;
  if (!bw_stone_init (&stone, measures, &fault))
    fail_msg ("no stone: fault %d at key %d", fault.kind, fault.key);
  return stone;
}

static void
each_face_tells_the_same_stone_as_across_the_flats (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (74);
  for (int i = 0; i < 200; i++) {
    BwStoneMeasures m = some_stone (rand);
    BwStone before = solve (&m);
    assert_true (bw_measures_set_way (&m, BW_MEASURED_FACE_WIDTHS));
    BwStone widths = solve (&m);
    for (int f = 0; f < 6; f++)
      assert_true (fabs (widths.h_mm[f] - before.h_mm[f]) < ROUNDED);
    assert_true (bw_measures_set_way (&m, BW_MEASURED_ACROSS_FLATS));
    BwStone back = solve (&m);
    assert_true (fabs (back.volume_mm3 / before.volume_mm3 - 1) < 0.005);
  }
}

static void
a_girth_keeps_the_girth (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (75);
  for (int i = 0; i < 50; i++) {
    BwStoneMeasures m = some_stone (rand);
    double before = solve (&m).girth_mm;
    assert_true (bw_measures_set_way (&m, BW_MEASURED_GIRTH));
    assert_true (fabs (solve (&m).girth_mm - before) < ROUNDED);
  }
}

static void
an_odd_stone_cannot_be_measured_across (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (76);
  BwStoneMeasures m = some_stone (rand);
  double girth = solve (&m).girth_mm;
  bw_measures_set_faces (&m, 5);
  assert_int_equal (m.measured, BW_MEASURED_FACE_WIDTHS);
  assert_true (fabs (solve (&m).girth_mm - girth) < 5 * ROUNDED);
  BwStoneMeasures before = m;
  assert_false (bw_measures_set_way (&m, BW_MEASURED_ACROSS_FLATS));
  assert_memory_equal (&m, &before, sizeof m);
}

static void
another_number_of_faces_keeps_the_girth (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (77);
  for (int faces = 3; faces <= 64; faces++) {
    BwStoneMeasures m = some_stone (rand);
    double girth = solve (&m).girth_mm;
    bw_measures_set_faces (&m, faces);
    assert_true (fabs (solve (&m).girth_mm - girth) < faces * ROUNDED);
  }
}

static void
shoulder_and_angle_tell_the_same_point (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (78);
  for (int i = 0; i < 50; i++) {
    BwStoneMeasures m = some_stone (rand);
    double shoulder = solve (&m).shoulder_mm;
    bw_measures_set_point (&m, TRUE);
    assert_true (m.has_natural_angle && !m.has_shoulder);
    assert_true (fabs (solve (&m).shoulder_mm - shoulder) < ROUNDED);
    bw_measures_set_point (&m, FALSE);
    assert_true (fabs (solve (&m).shoulder_mm - shoulder) < ROUNDED);
  }
}

static void
a_second_girth_starts_without_a_taper (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (79);
  BwStoneMeasures m = some_stone (rand);
  double volume = solve (&m).volume_mm3;
  bw_measures_set_taper (&m, TRUE);
  assert_true (m.has_second);
  assert_true (fabs (solve (&m).volume_mm3 / volume - 1) < 0.005);
  bw_measures_set_taper (&m, FALSE);
  assert_false (m.has_second);
}

static void
a_lower_point_can_be_at_once (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (80);
  for (int i = 0; i < 50; i++) {
    BwStoneMeasures m = some_stone (rand);
    bw_measures_set_base (&m, BW_BASE_POINT);
    assert_int_equal (m.base, BW_BASE_POINT);
    assert_true (solve (&m).base_shoulder_mm > 0);
  }
}

static void
measures_that_make_no_stone_are_left_alone (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (81);
  BwStoneMeasures m = some_stone (rand);
  m.length_mm = -1;
  BwStoneMeasures before = m;
  assert_false (bw_measures_set_way (&m, BW_MEASURED_GIRTH));
  bw_measures_set_point (&m, TRUE);
  assert_memory_equal (&m, &before, sizeof m);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (each_face_tells_the_same_stone_as_across_the_flats),
    cmocka_unit_test (a_girth_keeps_the_girth),
    cmocka_unit_test (an_odd_stone_cannot_be_measured_across),
    cmocka_unit_test (another_number_of_faces_keeps_the_girth),
    cmocka_unit_test (shoulder_and_angle_tell_the_same_point),
    cmocka_unit_test (a_second_girth_starts_without_a_taper),
    cmocka_unit_test (a_lower_point_can_be_at_once),
    cmocka_unit_test (measures_that_make_no_stone_are_left_alone),
  };
  return cmocka_run_group_tests_name ("measures", tests, NULL, NULL);
}
