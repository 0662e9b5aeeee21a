/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The drawing: every bead where it was put, through every change of size. */
#include "stones.h"

#include "core/pattern/drawing.h"
#include "core/base/lattice.h"
#include <string.h>

static guint8
colour_of (int row, int column)
{
  return (guint8)((row * 31 + column * 7) % 200);
}

static void
paint (BwDrawing *drawing)
{
  for (int row = 1; row <= bw_drawing_rows (drawing); row++)
    for (int column = 1; column <= bw_drawing_columns (drawing); column++)
      if (bw_lattice_has (row, column))
        bw_drawing_set (drawing, row, column, colour_of (row, column));
}

static void
a_new_drawing_is_all_ground (void **state)
{
  g_autoptr (BwDrawing) drawing = bw_drawing_new (6, 5, 3);
  assert_int_equal (bw_drawing_columns (drawing), 6);
  assert_int_equal (bw_drawing_rows (drawing), 5);
  guint64 counts[256] = { 0 };
  bw_drawing_count (drawing, counts);
  assert_int_equal (counts[3], 15);
}

static void
each_bead_keeps_its_own_colour (void **state)
{
  g_autoptr (BwDrawing) drawing = bw_drawing_new (10, 9, 0);
  paint (drawing);
  for (int row = 1; row <= 9; row++)
    for (int column = 1; column <= 10; column++)
      if (bw_lattice_has (row, column))
        assert_int_equal (bw_drawing_get (drawing, row, column), colour_of (row, column));
}

static void
a_row_reads_from_the_lowest_column_upward (void **state)
{
  g_autoptr (BwDrawing) drawing = bw_drawing_new (8, 4, 0);
  paint (drawing);
  for (int row = 1; row <= 4; row++) {
    const guint8 *cells = bw_drawing_row (drawing, row);
    for (int j = 0; j < 4; j++)
      assert_int_equal (cells[j], colour_of (row, bw_lattice_column (row, j)));
  }
}

static void
what_no_longer_fits_comes_back (void **state)
{
  g_autoptr (BwDrawing) drawing = bw_drawing_new (10, 20, 0);
  paint (drawing);
  g_autoptr (BwDrawing) before = bw_drawing_copy (drawing);
  bw_drawing_resize (drawing, 4, 6, 9);
  assert_int_equal (bw_drawing_rows (drawing), 6);
  assert_false (bw_drawing_equal (drawing, before));
  bw_drawing_resize (drawing, 10, 20, 9);
  assert_true (bw_drawing_equal (drawing, before));
}

static void
what_grows_grows_at_the_top_and_at_the_end (void **state)
{
  g_autoptr (BwDrawing) drawing = bw_drawing_new (4, 4, 0);
  paint (drawing);
  bw_drawing_resize (drawing, 8, 7, 250);
  for (int row = 1; row <= 7; row++)
    for (int column = 1; column <= 8; column++)
      if (bw_lattice_has (row, column))
        assert_int_equal (bw_drawing_get (drawing, row, column),
                          row <= 4 && column <= 4 ? colour_of (row, column) : 250);
}

/* Tall and narrow, then short and wide: the corner of tall and wide has been kept but never shown,
 * and is ground of the moment it first appears. */
static void
a_bead_first_shown_is_the_ground_of_that_moment (void **state)
{
  g_autoptr (BwDrawing) drawing = bw_drawing_new (4, 20, 1);
  bw_drawing_resize (drawing, 12, 6, 2);
  bw_drawing_resize (drawing, 12, 20, 3);
  assert_int_equal (bw_drawing_get (drawing, 20, 1), 1);
  assert_int_equal (bw_drawing_get (drawing, 5, 12), 2);
  assert_int_equal (bw_drawing_get (drawing, 19, 12), 3);
}

static void
sizes_change_at_random_and_nothing_is_lost (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (61);
  g_autoptr (BwDrawing) drawing = bw_drawing_new (20, 40, 0);
  paint (drawing);
  for (int k = 0; k < 500; k++) {
    bw_drawing_resize (drawing, 2 * g_rand_int_range (rand, 1, 30), g_rand_int_range (rand, 1, 80),
                       (guint8)g_rand_int_range (rand, 200, 255));
    int rows = MIN (40, bw_drawing_rows (drawing));
    int columns = MIN (20, bw_drawing_columns (drawing));
    for (int row = 1; row <= rows; row++)
      for (int column = 1; column <= columns; column++)
        if (bw_lattice_has (row, column))
          assert_int_equal (bw_drawing_get (drawing, row, column), colour_of (row, column));
  }
}

static void
equal_means_what_is_shown (void **state)
{
  g_autoptr (BwDrawing) a = bw_drawing_new (6, 6, 0);
  g_autoptr (BwDrawing) b = bw_drawing_new (10, 9, 0);
  assert_false (bw_drawing_equal (a, b));
  bw_drawing_set (b, 9, 10, 5);
  bw_drawing_resize (b, 6, 6, 0);
  assert_true (bw_drawing_equal (a, b));
  bw_drawing_set (a, 6, 5, 7);
  assert_false (bw_drawing_equal (a, b));
}

static void
a_copy_goes_its_own_way_and_keeps_what_is_hidden (void **state)
{
  g_autoptr (BwDrawing) drawing = bw_drawing_new (10, 20, 0);
  paint (drawing);
  g_autoptr (BwDrawing) whole = bw_drawing_copy (drawing);
  bw_drawing_resize (drawing, 2, 2, 0);
  g_autoptr (BwDrawing) copy = bw_drawing_copy (drawing);
  bw_drawing_set (drawing, 1, 2, 199);
  assert_false (bw_drawing_equal (drawing, copy));
  bw_drawing_resize (copy, 10, 20, 0);
  assert_true (bw_drawing_equal (copy, whole));
}

static void
counting_adds_to_what_is_there_and_takes_the_shown_alone (void **state)
{
  g_autoptr (BwDrawing) drawing = bw_drawing_new (10, 20, 4);
  guint64 counts[256] = { [4] = 1000 };
  bw_drawing_resize (drawing, 6, 10, 4);
  bw_drawing_set (drawing, 1, 2, 7);
  bw_drawing_count (drawing, counts);
  assert_int_equal (counts[4], 1029);
  assert_int_equal (counts[7], 1);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_new_drawing_is_all_ground),
    cmocka_unit_test (each_bead_keeps_its_own_colour),
    cmocka_unit_test (a_row_reads_from_the_lowest_column_upward),
    cmocka_unit_test (what_no_longer_fits_comes_back),
    cmocka_unit_test (what_grows_grows_at_the_top_and_at_the_end),
    cmocka_unit_test (a_bead_first_shown_is_the_ground_of_that_moment),
    cmocka_unit_test (sizes_change_at_random_and_nothing_is_lost),
    cmocka_unit_test (equal_means_what_is_shown),
    cmocka_unit_test (a_copy_goes_its_own_way_and_keeps_what_is_hidden),
    cmocka_unit_test (counting_adds_to_what_is_there_and_takes_the_shown_alone),
  };
  return cmocka_run_group_tests_name ("drawing", tests, NULL, NULL);
}
