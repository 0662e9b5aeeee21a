/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines, rectangles and floods of the half-drop lattice by what they must be. */
#include "editor/tool/flood.h"
#include "editor/tool/shape.h"

#include "core/base/lattice.h"
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>
#include <cmocka.h>

#define COLUMNS 12
#define ROWS 60

static void
add (int long_row, int column, gpointer data)
{
  assert_true (bw_lattice_has (long_row, column));
  bw_region_add (data, long_row, column);
}

static BwBeadAt
random_bead (GRand *dice)
{
  int row = g_rand_int_range (dice, 1, ROWS + 1);
  return (BwBeadAt){ row, bw_lattice_column (row, g_rand_int_range (dice, 0, COLUMNS / 2)) };
}

/* The beads that hang together with one, by joining neighbours until nothing changes. */
static int
root_of (int *parent, int i)
{
  while (parent[i] != i)
    i = parent[i] = parent[parent[i]];
  return i;
}

static int
index_of (int row, int column)
{
  return (row - 1) * COLUMNS + column - 1;
}

static void
unite_all (const BwDrawing *drawing, int rows, int *parent)
{
  static const int steps[3][2] = { { 2, 0 }, { 1, 1 }, { 1, -1 } };
  int ring = rows + rows % 2;
  for (int row = 1; row <= rows; row++)
    for (int column = 1; column <= COLUMNS; column++)
      for (int i = 0; i < 3 && bw_lattice_has (row, column); i++) {
        int to = (row + steps[i][0] - 1) % ring + 1, up = column + steps[i][1];
        if (to <= rows && up >= 1 && up <= COLUMNS
            && bw_drawing_get (drawing, to, up) == bw_drawing_get (drawing, row, column))
          parent[root_of (parent, index_of (to, up))] = root_of (parent, index_of (row, column));
      }
}

static void
a_flood_is_a_component_of_union_and_find (void **state)
{
  g_autoptr (GRand) dice = g_rand_new_with_seed (61);
  for (int trial = 0; trial < 200; trial++) {
    int rows = ROWS - trial % 2, parent[ROWS * COLUMNS], colours = 2 + trial % 3;
    g_autoptr (BwDrawing) drawing = bw_drawing_new (COLUMNS, rows, 0);
    for (int row = 1; row <= rows; row++)
      for (int j = 0; j < COLUMNS / 2; j++)
        bw_drawing_set (drawing, row, bw_lattice_column (row, j),
                        (guint8)g_rand_int_range (dice, 0, colours));
    for (int i = 0; i < ROWS * COLUMNS; i++)
      parent[i] = i;
    unite_all (drawing, rows, parent);
    BwBeadAt seed = random_bead (dice);
    if (seed.row > rows)
      continue;
    g_autoptr (BwRegion) region = bw_flood (drawing, seed.row, seed.column);
    int root = root_of (parent, index_of (seed.row, seed.column));
    for (int row = 1; row <= rows; row++)
      for (int column = 1; column <= COLUMNS; column++)
        if (bw_lattice_has (row, column))
          assert_int_equal (bw_region_has (region, row, column),
                            root_of (parent, index_of (row, column)) == root);
  }
}

/* Beads of a region that touch a bead of it, counted once each way. */
static int
neighbours_in (const BwRegion *region, int row, int column)
{
  return bw_region_has (region, row + 2, column) + bw_region_has (region, row - 2, column)
         + bw_region_has (region, row + 1, column + 1) + bw_region_has (region, row + 1, column - 1)
         + bw_region_has (region, row - 1, column + 1)
         + bw_region_has (region, row - 1, column - 1);
}

static void
a_block_has_every_bead_between_its_rows_and_columns (void **state)
{
  g_autoptr (GRand) dice = g_rand_new_with_seed (62);
  for (int trial = 0; trial < 500; trial++) {
    BwShapeBox box = bw_shape_box (random_bead (dice), random_bead (dice), ROWS / 2);
    g_autoptr (BwRegion) filled = bw_region_new (COLUMNS, ROWS), wanted = bw_region_copy (filled);
    bw_shape_fill (box, add, filled);
    bw_region_add_box (wanted, box.first_row, box.last_row, box.first_column, box.last_column);
    assert_true (bw_region_equal (filled, wanted));
    assert_true (box.first_column == box.last_column || box.last_row > box.first_row);
  }
}

static void
a_frame_is_the_closed_rim_of_its_block (void **state)
{
  g_autoptr (GRand) dice = g_rand_new_with_seed (63);
  for (int trial = 0; trial < 500; trial++) {
    BwShapeBox box = bw_shape_box (random_bead (dice), random_bead (dice), ROWS / 2);
    g_autoptr (BwRegion) filled = bw_region_new (COLUMNS, ROWS), frame = bw_region_copy (filled);
    bw_shape_fill (box, add, filled);
    bw_shape_frame (box, add, frame);
    gboolean wide = box.last_row - box.first_row >= 4 && box.last_row - box.first_row < ROWS - 4
                    && box.last_column - box.first_column >= 2;
    for (int row = 1; row <= ROWS; row++)
      for (int column = 1; column <= COLUMNS; column++) {
        gboolean in = bw_region_has (filled, row, column), rim = bw_region_has (frame, row, column);
        assert_true (in || !rim);
        /* Whatever has all six neighbours in the block is inside, not rim; and the rim closes. */
        if (wide && in)
          assert_int_equal (rim, neighbours_in (filled, row, column) < 6);
        if (wide && rim)
          assert_true (neighbours_in (frame, row, column) >= 2);
      }
  }
}

static void
straight_lines_keep_to_the_lattice (void **state)
{
  g_autoptr (GRand) dice = g_rand_new_with_seed (64);
  for (int trial = 0; trial < 2000; trial++) {
    BwBeadAt from = random_bead (dice), to = random_bead (dice);
    BwBeadAt end = bw_shape_straighten (from, to, 1.6, 1.3);
    int along = abs (end.row - from.row), up = abs (end.column - from.column);
    assert_true (bw_lattice_has (end.row, end.column));
    assert_true (up == 0 || along == up || along <= 1);
    /* Straightening what is straight changes nothing. */
    BwBeadAt again = bw_shape_straighten (from, end, 1.6, 1.3);
    assert_int_equal (again.row, end.row);
    assert_int_equal (again.column, end.column);
  }
}

static void
squares_are_as_square_as_beads_allow (void **state)
{
  g_autoptr (GRand) dice = g_rand_new_with_seed (65);
  for (int trial = 0; trial < 2000; trial++) {
    BwBeadAt from = random_bead (dice), to = random_bead (dice);
    BwBeadAt end = bw_shape_square (from, to, 1.6, 1.3);
    double wide = (abs (end.row - from.row) + 2) * 0.8,
           tall = (abs (end.column - from.column) + 1) * 1.3;
    assert_true (bw_lattice_has (end.row, end.column));
    assert_true (abs (end.column - from.column) <= abs (to.column - from.column));
    assert_true (wide - tall < 2.5 && tall - wide < 2.5);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_flood_is_a_component_of_union_and_find),
    cmocka_unit_test (a_block_has_every_bead_between_its_rows_and_columns),
    cmocka_unit_test (a_frame_is_the_closed_rim_of_its_block),
    cmocka_unit_test (straight_lines_keep_to_the_lattice),
    cmocka_unit_test (squares_are_as_square_as_beads_allow),
  };
  return cmocka_run_group_tests_name ("shape", tests, NULL, NULL);
}
