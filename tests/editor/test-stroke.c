/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A stroke leaves no gaps, and does not care into how many events the display cut it. */
#include "editor/tool/stroke.h"

#include "core/base/lattice.h"
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>
#include <cmocka.h>

#define COLUMNS 14

static void
collect (int long_row, int column, gpointer data)
{
  BwBeadAt bead = { long_row, column };
  g_array_append_val ((GArray *)data, bead);
}

static GArray *
crossed (BwBandPoint from, BwBandPoint to)
{
  GArray *beads = g_array_new (FALSE, FALSE, sizeof (BwBeadAt));
  bw_stroke_visit (from, to, COLUMNS, collect, beads);
  return beads;
}

static BwBeadAt
bead_of (const GArray *beads, guint i)
{
  return g_array_index (beads, BwBeadAt, i);
}

/* Two bricks share an edge: the same column, one pitch apart, or the next column, half a pitch. */
static gboolean
are_neighbours (BwBeadAt a, BwBeadAt b)
{
  int up = abs (a.column - b.column), along = abs (a.row - b.row);
  return (up == 0 && along == 2) || (up == 1 && along == 1);
}

static void
assert_chain (const GArray *beads)
{
  for (guint i = 0; i < beads->len; i++)
    assert_true (bw_lattice_has (bead_of (beads, i).row, bead_of (beads, i).column));
  for (guint i = 1; i < beads->len; i++)
    assert_true (are_neighbours (bead_of (beads, i - 1), bead_of (beads, i)));
}

static BwBeadAt
random_bead (GRand *rand)
{
  int row = g_rand_int_range (rand, -80, 80);
  int column = g_rand_int_range (rand, 1, COLUMNS + 1);
  return (BwBeadAt){ row + !bw_lattice_has (row, column), column };
}

static BwBandPoint
random_point (GRand *rand)
{
  return (BwBandPoint){ g_rand_double_range (rand, -40, 40),
                        g_rand_double_range (rand, 0, COLUMNS) };
}

static void
a_stroke_from_any_bead_to_any_bead_is_a_chain (void **state)
{
  BwBeadAt from = { 1, 2 };
  for (int variant = 0; variant < 2; variant++, from = (BwBeadAt){ 6, 9 })
    for (int row = -40; row <= 40; row++)
      for (int column = 1; column <= COLUMNS; column++) {
        if (!bw_lattice_has (row, column))
          continue;
        g_autoptr (GArray) beads
            = crossed (bw_band_middle (from.row, from.column), bw_band_middle (row, column));
        BwBeadAt first = bead_of (beads, 0), last = bead_of (beads, beads->len - 1);
        assert_chain (beads);
        assert_int_equal (first.row, from.row);
        assert_int_equal (first.column, from.column);
        assert_int_equal (last.row, row);
        assert_int_equal (last.column, column);
      }
}

static void
a_stroke_between_any_points_is_a_chain (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (21);
  for (int trial = 0; trial < 20000; trial++) {
    g_autoptr (GArray) beads = crossed (random_point (rand), random_point (rand));
    assert_true (beads->len > 0);
    assert_chain (beads);
  }
}

/* The set of beads of a stroke as a sorted array without doubles. */
static int
compare_beads (gconstpointer a, gconstpointer b)
{
  const BwBeadAt *p = a, *q = b;
  return p->row != q->row ? p->row - q->row : p->column - q->column;
}

static void
make_set (GArray *beads)
{
  g_array_sort (beads, compare_beads);
  for (guint i = beads->len; i-- > 1;)
    if (compare_beads (&g_array_index (beads, BwBeadAt, i), &g_array_index (beads, BwBeadAt, i - 1))
        == 0)
      g_array_remove_index (beads, i);
}

static void
assert_same_set (GArray *a, GArray *b)
{
  make_set (a);
  make_set (b);
  assert_int_equal (a->len, b->len);
  assert_memory_equal (a->data, b->data, a->len * sizeof (BwBeadAt));
}

/* The same way in as many events as one likes, cut anywhere. */
static GArray *
crossed_in_pieces (GRand *rand, BwBandPoint from, BwBandPoint to, int pieces)
{
  GArray *beads = g_array_new (FALSE, FALSE, sizeof (BwBeadAt));
  BwBandPoint last = from;
  double done = 0;
  for (int i = 1; i <= pieces; i++) {
    done = i == pieces ? 1 : done + (1 - done) * g_rand_double (rand) * 2 / (pieces - i + 2);
    BwBandPoint next = i == pieces ? to
                                   : (BwBandPoint){ from.u + done * (to.u - from.u),
                                                    from.v + done * (to.v - from.v) };
    bw_stroke_visit (last, next, COLUMNS, collect, beads);
    last = next;
  }
  return beads;
}

static void
a_stroke_is_the_same_however_it_is_cut (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (22);
  for (int trial = 0; trial < 20000; trial++) {
    BwBandPoint from = random_point (rand), to = random_point (rand);
    g_autoptr (GArray) whole = crossed (from, to);
    g_autoptr (GArray) pieces = crossed_in_pieces (rand, from, to, g_rand_int_range (rand, 1, 30));
    assert_same_set (whole, pieces);
  }
}

/* From middle to middle a line runs through corners of bricks all the time: the hardest case. */
static void
a_stroke_between_beads_is_the_same_however_it_is_cut (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (23);
  for (int trial = 0; trial < 20000; trial++) {
    BwBeadAt a = random_bead (rand), b = random_bead (rand);
    BwBandPoint from = bw_band_middle (a.row, a.column), to = bw_band_middle (b.row, b.column);
    if (a.row == b.row && a.column == b.column)
      continue;
    g_autoptr (GArray) whole = crossed (from, to);
    g_autoptr (GArray) halves
        = crossed (from, (BwBandPoint){ (from.u + to.u) / 2, (from.v + to.v) / 2 });
    g_autoptr (GArray) rest
        = crossed ((BwBandPoint){ (from.u + to.u) / 2, (from.v + to.v) / 2 }, to);
    g_autoptr (GArray) pieces = crossed_in_pieces (rand, from, to, g_rand_int_range (rand, 1, 30));
    g_array_append_vals (halves, rest->data, rest->len);
    assert_same_set (whole, pieces);
    /* The half-way point may itself stand on an edge: nothing may be missing then. */
    make_set (halves);
    assert_true (halves->len >= whole->len && halves->len <= whole->len + 1);
  }
}

static void
a_stroke_back_crosses_the_same_beads (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (24);
  for (int trial = 0; trial < 5000; trial++) {
    BwBandPoint from = random_point (rand), to = random_point (rand);
    g_autoptr (GArray) there = crossed (from, to), back = crossed (to, from);
    assert_same_set (there, back);
  }
}

/* Every bead that a finely sampled walk stands on must have been crossed. */
static void
a_stroke_misses_no_bead_the_pointer_stood_on (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (25);
  for (int trial = 0; trial < 300; trial++) {
    BwBandPoint from = random_point (rand), to = random_point (rand);
    g_autoptr (GArray) beads = crossed (from, to);
    make_set (beads);
    for (int i = 0; i <= 2000; i++) {
      double t = i / 2000.0;
      BwBeadAt bead = bw_band_brick (
          (BwBandPoint){ from.u + t * (to.u - from.u), from.v + t * (to.v - from.v) });
      assert_non_null (bsearch (&bead, beads->data, beads->len, sizeof (BwBeadAt), compare_beads));
    }
  }
}

static void
a_press_without_a_move_touches_one_bead (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (26);
  for (int trial = 0; trial < 1000; trial++) {
    BwBandPoint at = random_point (rand);
    g_autoptr (GArray) beads = crossed (at, at);
    BwBeadAt brick = bw_band_brick (at), only = bead_of (beads, 0);
    assert_int_equal (beads->len, 1);
    assert_int_equal (only.row, brick.row);
    assert_int_equal (only.column, brick.column);
  }
}

static void
outside_the_band_a_stroke_touches_nothing (void **state)
{
  g_autoptr (GArray) above
      = crossed ((BwBandPoint){ 0, COLUMNS + 3 }, (BwBandPoint){ 9, COLUMNS + 1.5 });
  g_autoptr (GArray) below = crossed ((BwBandPoint){ 0, -0.5 }, (BwBandPoint){ 9, -0.5 });
  g_autoptr (GArray) through = crossed ((BwBandPoint){ 3, -1e9 }, (BwBandPoint){ 3, 1e9 });
  assert_int_equal (above->len, 0);
  assert_int_equal (below->len, 0);
  assert_int_equal (through->len, COLUMNS);
}

static int
distance (BwBeadAt a, BwBeadAt b)
{
  int up = abs (a.column - b.column), along = abs (a.row - b.row);
  return along <= up ? up : up + (along - up) / 2;
}

static void
a_ruled_line_is_the_shortest_chain (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (27);
  for (int trial = 0; trial < 20000; trial++) {
    BwBeadAt from = random_bead (rand), to = random_bead (rand);
    g_autoptr (GArray) beads = g_array_new (FALSE, FALSE, sizeof (BwBeadAt));
    bw_stroke_line (from, to, collect, beads);
    assert_chain (beads);
    assert_int_equal (beads->len, distance (from, to) + 1);
    assert_int_equal (compare_beads (&from, &g_array_index (beads, BwBeadAt, 0)), 0);
    assert_int_equal (compare_beads (&to, &g_array_index (beads, BwBeadAt, beads->len - 1)), 0);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_stroke_from_any_bead_to_any_bead_is_a_chain),
    cmocka_unit_test (a_stroke_between_any_points_is_a_chain),
    cmocka_unit_test (a_stroke_is_the_same_however_it_is_cut),
    cmocka_unit_test (a_stroke_between_beads_is_the_same_however_it_is_cut),
    cmocka_unit_test (a_stroke_back_crosses_the_same_beads),
    cmocka_unit_test (a_stroke_misses_no_bead_the_pointer_stood_on),
    cmocka_unit_test (a_press_without_a_move_touches_one_bead),
    cmocka_unit_test (outside_the_band_a_stroke_touches_nothing),
    cmocka_unit_test (a_ruled_line_is_the_shortest_chain),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
