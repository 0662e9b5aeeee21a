/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A set of beads against a plain list of them, and the box it keeps on the ring. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#include "core/base/lattice.h"
#include "core/pattern/region.h"

static void
what_is_added_is_there_until_it_is_removed (void **state)
{
  g_autoptr (GRand) dice = g_rand_new_with_seed (51);
  gboolean in[41][13] = { { FALSE } };
  g_autoptr (BwRegion) region = bw_region_new (12, 40);
  for (int i = 0; i < 3000; i++) {
    int row = g_rand_int_range (dice, 1, 41), column = g_rand_int_range (dice, 1, 13);
    gboolean add = g_rand_boolean (dice);
    (add ? bw_region_add : bw_region_remove) (region, row, column);
    in[row][column] = add && bw_lattice_has (row, column);
  }
  int count = 0;
  for (int row = 1; row <= 40; row++)
    for (int column = 1; column <= 12; column++) {
      assert_int_equal (bw_region_has (region, row, column), in[row][column]);
      count += in[row][column];
    }
  assert_int_equal (bw_region_count (region), count);
}

static void
rows_count_on_round_the_ring (void **state)
{
  g_autoptr (BwRegion) region = bw_region_new (6, 20);
  bw_region_add (region, 23, 2);
  bw_region_add (region, -1, 4);
  bw_region_add (region, -20, 1);
  assert_true (bw_region_has (region, 3, 2));
  assert_true (bw_region_has (region, 19, 4));
  assert_true (bw_region_has (region, 20, 1));
  assert_true (bw_region_has (region, 0, 1));
  assert_int_equal (bw_region_count (region), 3);
}

static void
an_odd_ring_has_a_slot_without_beads (void **state)
{
  g_autoptr (BwRegion) region = bw_region_new (6, 19);
  bw_region_add (region, 20, 1);
  assert_int_equal (bw_region_count (region), 0);
  bw_region_add (region, 21, 2);
  assert_true (bw_region_has (region, 1, 2));
}

/* Every box that fits on the ring comes back as its own bounds. */
static void
the_bounds_of_a_box_are_the_box (void **state)
{
  for (int first = 1; first <= 20; first++)
    for (int height = 2; height <= 17; height++) {
      g_autoptr (BwRegion) region = bw_region_new (8, 20);
      int first_row, last_row, first_column, last_column;
      bw_region_add_box (region, first, first + height - 1, 3, 6);
      assert_true (bw_region_bounds (region, &first_row, &last_row, &first_column, &last_column));
      assert_int_equal (first_row, first);
      assert_int_equal (last_row, first + height - 1);
      assert_int_equal (first_column, 3);
      assert_int_equal (last_column, 6);
    }
}

static void
a_region_of_a_colour_holds_all_its_beads (void **state)
{
  g_autoptr (GRand) dice = g_rand_new_with_seed (52);
  g_autoptr (BwDrawing) drawing = bw_drawing_new (10, 30, 0);
  g_autoptr (BwRegion) all = bw_region_new (10, 30);
  for (int i = 0; i < 80; i++) {
    int row = g_rand_int_range (dice, 1, 31);
    bw_drawing_set (drawing, row, bw_lattice_column (row, g_rand_int_range (dice, 0, 5)),
                    (guint8)g_rand_int_range (dice, 0, 3));
  }
  guint64 counts[256] = { 0 };
  bw_drawing_count (drawing, counts);
  for (guint8 colour = 0; colour < 3; colour++) {
    g_autoptr (BwRegion) region = bw_region_new (10, 30);
    bw_region_add_colour (region, drawing, colour);
    assert_int_equal (bw_region_count (region), counts[colour]);
    bw_region_join (all, region);
  }
  assert_int_equal (bw_region_count (all), 150);
}

static void
an_empty_region_has_no_bounds (void **state)
{
  g_autoptr (BwRegion) region = bw_region_new (4, 8);
  int a, b, c, d;
  assert_false (bw_region_bounds (region, &a, &b, &c, &d));
  bw_region_add (region, 3, 2);
  g_autoptr (BwRegion) copy = bw_region_copy (region);
  assert_true (bw_region_equal (region, copy));
  bw_region_remove (region, 3, 2);
  assert_false (bw_region_equal (region, copy));
  assert_false (bw_region_bounds (region, &a, &b, &c, &d));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (what_is_added_is_there_until_it_is_removed),
    cmocka_unit_test (rows_count_on_round_the_ring),
    cmocka_unit_test (an_odd_ring_has_a_slot_without_beads),
    cmocka_unit_test (the_bounds_of_a_box_are_the_box),
    cmocka_unit_test (a_region_of_a_colour_holds_all_its_beads),
    cmocka_unit_test (an_empty_region_has_no_bounds),
  };
  return cmocka_run_group_tests_name ("region", tests, NULL, NULL);
}
