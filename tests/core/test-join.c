/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The join: which ends interlock, by how much they miss, and which drawings run on. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <string.h>
#include "core/band/join.h"
#include "core/base/lattice.h"
#include "samples.h"

static void
paint_row (BwDrawing *drawing, int row, const guint8 *cells)
{
  for (int j = 0; j < bw_drawing_columns (drawing) / 2; j++)
    bw_drawing_set (drawing, row, bw_lattice_column (row, j), cells[j]);
}

/* A drawing whose rows repeat every `every` rows, each repeat drawn at random. */
static BwDrawing *
repeating (GRand *rand, int columns, int rows, int every, int colours)
{
  BwDrawing *drawing = bw_drawing_new (columns, rows, 0);
  for (int row = 1; row <= rows; row++) {
    guint8 cells[BW_COLUMNS_MAX];
    for (int j = 0; j < columns / 2; j++)
      cells[j] = (guint8)g_rand_int_range (rand, 0, colours);
    paint_row (drawing, row, row > every ? bw_drawing_row (drawing, row - every) : cells);
  }
  return drawing;
}

/* The definition, word for word. */
static int
repeat_by_definition (const BwDrawing *drawing)
{
  int rows = bw_drawing_rows (drawing);
  gsize beads = (gsize)bw_drawing_columns (drawing) / 2;
  for (int k = 2; k <= rows / 2; k += 2) {
    int row = 1;
    while (row + k <= rows
           && memcmp (bw_drawing_row (drawing, row), bw_drawing_row (drawing, row + k), beads) == 0)
      row++;
    if (row + k > rows)
      return k;
  }
  return 0;
}

static void
the_repeat_is_the_least_even_number_of_rows (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (50);
  int found = 0, none = 0;
  for (int k = 0; k < 3000; k++) {
    int rows = g_rand_int_range (rand, 1, 60), every = g_rand_int_range (rand, 1, 40);
    g_autoptr (BwDrawing) drawing
        = repeating (rand, 2 * g_rand_int_range (rand, 1, 4), rows, every, 2);
    if (g_rand_int_range (rand, 0, 3) == 0) {
      int row = g_rand_int_range (rand, 1, rows + 1);
      bw_drawing_set (drawing, row, bw_lattice_column (row, 0), 7);
    }
    int repeat = bw_join_repeat (drawing);
    assert_int_equal (repeat, repeat_by_definition (drawing));
    found += repeat > 0;
    none += repeat == 0;
  }
  assert_true (found > 500 && none > 500);
}

static BwJoin
join_of (const BwDesign *design, const BwStone *stone, const BwDrawing *drawing, BwFit *fit)
{
  BwJoin join;
  bw_fit_init (fit, design, stone, bw_drawing_rows (drawing));
  bw_join_init (&join, fit, design, drawing);
  return join;
}

static void
an_even_number_of_rows_interlocks_and_an_odd_one_does_not (void **state)
{
  BwStone stone;
  BwFit fit;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  for (int rows = 104; rows < 124; rows++) {
    g_autoptr (BwDrawing) drawing = bw_drawing_new (14, rows, 0);
    BwJoin join = join_of (&design, &stone, drawing, &fit);
    assert_int_equal (join.rows, rows);
    assert_int_equal (join.interlocks, rows % 2 == 0);
    if (rows % 2) {
      assert_near (join.gap_mm + join.overlap_mm, 0, 0);
      assert_near (join.gap_beads + join.overlap_beads, 0, 0);
      assert_int_equal (join.broken->len, 0);
    } else {
      assert_near (join.gap_mm, MAX (fit.gap_max_mm, 0), 0);
      assert_near (join.overlap_mm, MAX (-fit.gap_min_mm, 0), 0);
      assert_near (join.gap_beads, join.gap_mm / 1.6, 1e-12);
      assert_near (join.overlap_beads, join.overlap_mm / 1.6, 1e-12);
    }
    bw_join_clear (&join);
  }
}

static void
a_repeat_that_divides_the_rows_runs_on_and_another_names_where_not (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (51);
  BwStone stone;
  BwFit fit;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  for (int rows = 80; rows < 120; rows++) {
    g_autoptr (BwDrawing) drawing = repeating (rand, 14, rows, 12, 3);
    BwJoin join = join_of (&design, &stone, drawing, &fit);
    assert_int_equal (join.repeat_rows, 12);
    assert_int_equal (join.repeat_closes, rows % 12 == 0);
    assert_int_equal (join.repeat_below, rows / 12 * 12);
    assert_int_equal (join.repeat_above, (rows + 11) / 12 * 12);
    assert_int_equal (join.broken->len > 0, rows % 2 == 0 && rows % 12 != 0);
    bw_join_clear (&join);
  }
}

static void
the_broken_beads_are_exactly_those_that_differ_across_the_join (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (52);
  BwStone stone;
  BwFit fit;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  g_autoptr (BwDrawing) drawing = repeating (rand, 14, 110, 8, 2);
  BwJoin join = join_of (&design, &stone, drawing, &fit);
  guint listed = 0;
  for (int row = 1; row <= 8; row++)
    for (int j = 0; j < 7; j++) {
      int column = bw_lattice_column (row, j), back = row - 8 + 110;
      if (bw_drawing_get (drawing, row, column) == bw_drawing_get (drawing, back, column))
        continue;
      const BwBeadAt *at = &g_array_index (join.broken, BwBeadAt, listed++);
      assert_int_equal (at->row, row);
      assert_int_equal (at->column, column);
    }
  assert_int_equal (listed, join.broken->len);
  assert_true (listed > 5);
  bw_join_clear (&join);
}

static void
a_drawing_without_a_repeat_has_none_to_close (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (53);
  BwStone stone;
  BwFit fit;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  g_autoptr (BwDrawing) drawing = repeating (rand, 14, 114, 114, 4);
  BwJoin join = join_of (&design, &stone, drawing, &fit);
  assert_int_equal (join.repeat_rows, 0);
  assert_false (join.repeat_closes);
  assert_int_equal (join.repeat_below, 0);
  assert_int_equal (join.repeat_above, 0);
  assert_non_null (join.broken);
  assert_int_equal (join.broken->len, 0);
  bw_join_clear (&join);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_repeat_is_the_least_even_number_of_rows),
    cmocka_unit_test (an_even_number_of_rows_interlocks_and_an_odd_one_does_not),
    cmocka_unit_test (a_repeat_that_divides_the_rows_runs_on_and_another_names_where_not),
    cmocka_unit_test (the_broken_beads_are_exactly_those_that_differ_across_the_join),
    cmocka_unit_test (a_drawing_without_a_repeat_has_none_to_close),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
