/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A drawing brought to another number of rows in the middle of the work. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "core/band/join.h"
#include "core/base/lattice.h"
#include "core/band/refit.h"

#include <string.h>

#define SEED 20260611

static BwDrawing *
random_drawing (GRand *rand, int columns, int rows, int repeat)
{
  BwDrawing *drawing = bw_drawing_new (columns, rows, 0);
  for (int row = 1; row <= rows; row++)
    for (int j = 0; j < columns / 2; j++) {
      int column = bw_lattice_column (row, j);
      guint8 colour = (guint8)g_rand_int_range (rand, 0, 5);
      if (repeat > 0 && row > repeat)
        colour = bw_drawing_get (drawing, row - repeat, column);
      bw_drawing_set (drawing, row, column, colour);
    }
  return drawing;
}

static gboolean
rows_equal (const BwDrawing *a, int row_a, const BwDrawing *b, int row_b)
{
  return row_a % 2 == row_b % 2
         && memcmp (bw_drawing_row (a, row_a), bw_drawing_row (b, row_b),
                    (gsize)bw_drawing_columns (a) / 2)
                == 0;
}

static void
what_is_woven_stays_whatever_is_chosen (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  for (int k = 0; k < 300; k++) {
    int own = g_rand_int_range (rand, 1, 60), rows = g_rand_int_range (rand, 1, 90);
    int woven = g_rand_int_range (rand, 0, own + 1);
    g_autoptr (BwDrawing) drawing = random_drawing (rand, 8, own, 0);
    for (BwRefit how = 0; how < BW_N_REFITS; how++) {
      g_autoptr (BwDrawing) fitted = bw_refit (drawing, rows, woven, how);
      assert_int_equal (bw_drawing_rows (fitted), rows);
      for (int row = 1; row <= MIN (rows, woven); row++)
        assert_true (rows_equal (drawing, row, fitted, row));
    }
  }
}

static void
the_same_number_of_rows_changes_nothing (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  for (int k = 0; k < 100; k++) {
    int own = g_rand_int_range (rand, 1, 60);
    g_autoptr (BwDrawing) drawing = random_drawing (rand, 6, own, 0);
    for (BwRefit how = 0; how < BW_N_REFITS; how++) {
      g_autoptr (BwDrawing) fitted = bw_refit (drawing, own, own / 3, how);
      assert_true (bw_drawing_equal (drawing, fitted));
    }
  }
}

static void
a_repeat_runs_on (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  g_autoptr (BwDrawing) drawing = random_drawing (rand, 8, 40, 10);
  assert_int_equal (bw_join_repeat (drawing), 10);
  g_autoptr (BwDrawing) fitted = bw_refit (drawing, 57, 7, BW_REFIT_REPEAT);
  for (int row = 11; row <= 57; row++)
    assert_true (rows_equal (fitted, row, fitted, row - 10));
}

static void
without_a_repeat_the_drawing_begins_anew (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  g_autoptr (BwDrawing) drawing = random_drawing (rand, 8, 30, 0);
  g_autoptr (BwDrawing) fitted = bw_refit (drawing, 66, 0, BW_REFIT_REPEAT);
  for (int row = 31; row <= 60; row++)
    assert_true (rows_equal (fitted, row, drawing, row - 30));
  assert_true (rows_equal (fitted, 66, drawing, 6));
}

static void
rows_gained_are_plain_when_ground_is_chosen (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  g_autoptr (BwDrawing) drawing = random_drawing (rand, 8, 20, 0);
  guint8 ground = bw_drawing_ground (drawing);
  g_autoptr (BwDrawing) fitted = bw_refit (drawing, 26, 4, BW_REFIT_GROUND);
  for (int row = 1; row <= 20; row++)
    assert_true (rows_equal (fitted, row, drawing, row));
  for (int row = 21; row <= 26; row++)
    for (int j = 0; j < 4; j++)
      assert_int_equal (bw_drawing_get (fitted, row, bw_lattice_column (row, j)), ground);
}

/* Rows of each parity keep their order; the first to come stays the first, the last the last. */
static void
a_stretched_drawing_keeps_its_order (void **state)
{
  g_autoptr (BwDrawing) drawing = bw_drawing_new (2, 40, 0);
  for (int row = 1; row <= 40; row++)
    bw_drawing_set (drawing, row, row % 2 ? 2 : 1, (guint8)row);
  static const int sizes[] = { 24, 36, 44, 60, 200 };
  for (gsize i = 0; i < G_N_ELEMENTS (sizes); i++) {
    int last[2] = { 0, 0 };
    g_autoptr (BwDrawing) fitted = bw_refit (drawing, sizes[i], 10, BW_REFIT_STRETCH);
    for (int row = 11; row <= sizes[i]; row++) {
      int from = bw_drawing_get (fitted, row, row % 2 ? 2 : 1);
      assert_int_equal (from % 2, row % 2);
      assert_true (from > 10 && from >= last[row % 2]);
      last[row % 2] = from;
    }
    if (sizes[i] >= 40)
      assert_true (last[0] == 40 && last[1] == 39);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (what_is_woven_stays_whatever_is_chosen),
    cmocka_unit_test (the_same_number_of_rows_changes_nothing),
    cmocka_unit_test (a_repeat_runs_on),
    cmocka_unit_test (without_a_repeat_the_drawing_begins_anew),
    cmocka_unit_test (rows_gained_are_plain_when_ground_is_chosen),
    cmocka_unit_test (a_stretched_drawing_keeps_its_order),
  };
  return cmocka_run_group_tests_name ("refit", tests, NULL, NULL);
}
