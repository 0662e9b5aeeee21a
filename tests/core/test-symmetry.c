/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Live symmetries as properties of their orbits on random bands. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "core/base/lattice.h"
#include "core/pattern/symmetry.h"

static const BwFrieze possible[]
    = { BW_FRIEZE_P1, BW_FRIEZE_P1M1, BW_FRIEZE_P2, BW_FRIEZE_P11G, BW_FRIEZE_P2MG };

typedef struct {
  int columns, rows;
  BwSymmetry symmetry;
} Case;

/* A band whose repeat divides it and, where the frieze wants it, holds an odd number of beads. */
static Case
random_case (GRand *dice, BwFrieze frieze)
{
  int beads = 2 * g_rand_int_range (dice, 0, 6) + 1;
  int k = 2 * beads, repeats = g_rand_int_range (dice, 1, 6);
  return (Case){ 2 * g_rand_int_range (dice, 1, 9),
                 k * repeats,
                 { frieze, k, g_rand_int_range (dice, 0, k * repeats) } };
}

static gboolean
holds_bead (const GArray *orbit, int row, int column)
{
  for (guint i = 0; i < orbit->len; i++) {
    BwBeadAt at = g_array_index (orbit, BwBeadAt, i);
    if (at.row == row && at.column == column)
      return TRUE;
  }
  return FALSE;
}

static BwBeadAt
random_bead (GRand *dice, const Case *c)
{
  int row = g_rand_int_range (dice, 1, c->rows + 1);
  return (BwBeadAt){ row, bw_lattice_column (row, g_rand_int_range (dice, 0, c->columns / 2)) };
}

static void
every_bead_of_an_orbit_has_the_same_orbit (void **state)
{
  GRand *dice = g_rand_new_with_seed (41);
  for (int i = 0; i < 1000; i++) {
    Case c = random_case (dice, possible[i % G_N_ELEMENTS (possible)]);
    BwBeadAt bead = random_bead (dice, &c);
    assert_int_equal (bw_symmetry_fit (&c.symmetry, c.rows), BW_FRIEZE_FITS);
    g_autoptr (GArray) orbit
        = bw_symmetry_orbit (&c.symmetry, c.columns, c.rows, bead.row, bead.column);
    for (guint j = 0; j < orbit->len; j++) {
      BwBeadAt at = g_array_index (orbit, BwBeadAt, j);
      assert_true (bw_lattice_has (at.row, at.column));
      assert_in_range (at.row, 1, c.rows);
      assert_in_range (at.column, 1, c.columns);
      g_autoptr (GArray) back
          = bw_symmetry_orbit (&c.symmetry, c.columns, c.rows, at.row, at.column);
      assert_int_equal (back->len, orbit->len);
      assert_true (holds_bead (back, bead.row, bead.column));
    }
  }
  g_rand_free (dice);
}

static void
an_orbit_begins_with_its_own_bead_and_names_none_twice (void **state)
{
  GRand *dice = g_rand_new_with_seed (42);
  for (int i = 0; i < 500; i++) {
    Case c = random_case (dice, possible[i % G_N_ELEMENTS (possible)]);
    BwBeadAt bead = random_bead (dice, &c);
    g_autoptr (GArray) orbit
        = bw_symmetry_orbit (&c.symmetry, c.columns, c.rows, bead.row, bead.column);
    assert_int_equal (g_array_index (orbit, BwBeadAt, 0).row, bead.row);
    assert_int_equal (g_array_index (orbit, BwBeadAt, 0).column, bead.column);
    for (guint j = 0; j < orbit->len; j++)
      for (guint k = j + 1; k < orbit->len; k++)
        assert_true (g_array_index (orbit, BwBeadAt, j).row
                         != g_array_index (orbit, BwBeadAt, k).row
                     || g_array_index (orbit, BwBeadAt, j).column
                            != g_array_index (orbit, BwBeadAt, k).column);
  }
  g_rand_free (dice);
}

static void
a_glide_taken_twice_is_one_repeat (void **state)
{
  GRand *dice = g_rand_new_with_seed (43);
  for (int i = 0; i < 300; i++) {
    Case c = random_case (dice, BW_FRIEZE_P11G);
    BwBeadAt bead = random_bead (dice, &c);
    int g = c.symmetry.repeat_rows / 2;
    g_autoptr (GArray) orbit
        = bw_symmetry_orbit (&c.symmetry, c.columns, c.rows, bead.row, bead.column);
    assert_true (holds_bead (orbit, (bead.row - 1 + g) % c.rows + 1, c.columns + 1 - bead.column));
    assert_true (holds_bead (orbit, (bead.row - 1 + 2 * g) % c.rows + 1, bead.column));
    assert_int_equal (orbit->len, 2 * c.rows / c.symmetry.repeat_rows);
  }
  g_rand_free (dice);
}

static void
a_mirror_keeps_the_beads_on_its_line (void **state)
{
  BwSymmetry mirror = { BW_FRIEZE_P1M1, 0, 8 };
  g_autoptr (GArray) on = bw_symmetry_orbit (&mirror, 6, 40, 9, 2);
  g_autoptr (GArray) off = bw_symmetry_orbit (&mirror, 6, 40, 12, 3);
  assert_int_equal (on->len, 1);
  assert_int_equal (off->len, 2);
  assert_true (holds_bead (off, 6, 3));
}

static void
the_two_friezes_with_a_mirror_along_the_band_never_fit (void **state)
{
  for (int rows = 2; rows < 80; rows += 2)
    for (int k = 0; k < rows; k += 2) {
      BwSymmetry along = { BW_FRIEZE_P11M, k, 0 }, both = { BW_FRIEZE_P2MM, k, 0 };
      assert_int_equal (bw_symmetry_fit (&along, rows), BW_FRIEZE_NEVER);
      assert_int_equal (bw_symmetry_fit (&both, rows), BW_FRIEZE_NEVER);
    }
}

static void
a_glide_wants_a_repeat_of_an_odd_number_of_beads (void **state)
{
  BwSymmetry even = { BW_FRIEZE_P11G, 8, 0 }, odd = { BW_FRIEZE_P11G, 10, 0 };
  assert_int_equal (bw_symmetry_fit (&even, 40), BW_FRIEZE_ODD_REPEAT);
  assert_int_equal (bw_symmetry_fit (&odd, 40), BW_FRIEZE_FITS);
  assert_int_equal (bw_symmetry_fit (&odd, 44), BW_FRIEZE_OPEN);
}

static void
painting_whole_orbits_makes_a_drawing_that_holds_the_symmetry (void **state)
{
  GRand *dice = g_rand_new_with_seed (44);
  for (int i = 0; i < 60; i++) {
    Case c = random_case (dice, possible[i % G_N_ELEMENTS (possible)]);
    g_autoptr (BwDrawing) drawing = bw_drawing_new (c.columns, c.rows, 0);
    for (int stroke = 0; stroke < 40; stroke++) {
      BwBeadAt bead = random_bead (dice, &c);
      guint8 colour = (guint8)g_rand_int_range (dice, 0, 4);
      g_autoptr (GArray) orbit
          = bw_symmetry_orbit (&c.symmetry, c.columns, c.rows, bead.row, bead.column);
      for (guint j = 0; j < orbit->len; j++) {
        BwBeadAt at = g_array_index (orbit, BwBeadAt, j);
        bw_drawing_set (drawing, at.row, at.column, colour);
      }
    }
    assert_true (bw_symmetry_holds (&c.symmetry, drawing));
  }
  g_rand_free (dice);
}

static void
one_odd_bead_breaks_a_symmetry_that_moves_it (void **state)
{
  BwSymmetry turn = { BW_FRIEZE_P2, 10, 3 };
  g_autoptr (BwDrawing) drawing = bw_drawing_new (8, 40, 0);
  assert_true (bw_symmetry_holds (&turn, drawing));
  bw_drawing_set (drawing, 7, 4, 1);
  assert_false (bw_symmetry_holds (&turn, drawing));
}

/* A repeat that does not divide the rows runs from the first row to the last, and no stroke depends
 * on which of its beads it was drawn with. */
static void
an_open_repeat_runs_as_far_as_there_are_rows (void **state)
{
  for (int rows = 7; rows < 40; rows++)
    for (int frieze = 0; frieze < (int)G_N_ELEMENTS (possible); frieze++) {
      BwSymmetry symmetry = { possible[frieze], 10, 4 };
      for (int row = 1; row <= rows; row++) {
        int column = bw_lattice_column (row, 1);
        g_autoptr (GArray) orbit = bw_symmetry_orbit (&symmetry, 6, rows, row, column);
        for (int other = 1 + (row - 1) % 10; other <= rows; other += 10)
          assert_true (holds_bead (orbit, other, column));
        for (guint j = 0; j < orbit->len; j++) {
          BwBeadAt at = g_array_index (orbit, BwBeadAt, j);
          assert_true (bw_lattice_has (at.row, at.column));
          assert_in_range (at.row, 1, rows);
          g_autoptr (GArray) back = bw_symmetry_orbit (&symmetry, 6, rows, at.row, at.column);
          assert_int_equal (back->len, orbit->len);
        }
      }
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (every_bead_of_an_orbit_has_the_same_orbit),
    cmocka_unit_test (an_orbit_begins_with_its_own_bead_and_names_none_twice),
    cmocka_unit_test (a_glide_taken_twice_is_one_repeat),
    cmocka_unit_test (a_mirror_keeps_the_beads_on_its_line),
    cmocka_unit_test (the_two_friezes_with_a_mirror_along_the_band_never_fit),
    cmocka_unit_test (a_glide_wants_a_repeat_of_an_odd_number_of_beads),
    cmocka_unit_test (painting_whole_orbits_makes_a_drawing_that_holds_the_symmetry),
    cmocka_unit_test (an_open_repeat_runs_as_far_as_there_are_rows),
    cmocka_unit_test (one_odd_bead_breaks_a_symmetry_that_moves_it),
  };
  return cmocka_run_group_tests_name ("symmetry", tests, NULL, NULL);
}
