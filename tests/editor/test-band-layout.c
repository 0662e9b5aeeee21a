/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every bead in view is found again by its pixel, at any zoom and roll. */
#include "editor/cloth/band-layout.h"

#include "core/base/lattice.h"
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>

#include "near.h"

#define TRIALS 60

static BwBandLayout
random_layout (GRand *rand)
{
  BwBandLayout layout = {
    .columns = 2 * g_rand_int_range (rand, 1, 31),
    .rows = g_rand_int_range (rand, 1, 240),
    .pitch_mm = g_rand_double_range (rand, 1, 3.2),
    .column_mm = g_rand_double_range (rand, 0.8, 2.6),
    .x = g_rand_double_range (rand, 0, 60),
    .y = g_rand_double_range (rand, 0, 20),
    .width = g_rand_double_range (rand, 100, 1900),
    .height = g_rand_double_range (rand, 80, 1100),
    .roll = g_rand_double_range (rand, -500, 500),
  };
  layout.rise = g_rand_double_range (rand, 0, layout.columns);
  layout.zoom = exp (g_rand_double_range (rand, log (BW_ZOOM_MIN), log (BW_ZOOM_MAX)));
  layout.zoom = MIN (layout.zoom, bw_band_layout_zoom_max (&layout));
  return layout;
}

static void
assert_found (const BwBandLayout *layout, int long_row, int column)
{
  BwBandPoint middle = bw_band_middle (long_row, column);
  double x = bw_band_layout_x (layout, middle.u), y = bw_band_layout_y (layout, middle.v);
  /* The middle and four places well inside the brick. */
  static const double offset[5][2]
      = { { 0, 0 }, { -0.45, -0.45 }, { 0.45, -0.45 }, { -0.45, 0.45 }, { 0.45, 0.45 } };

  for (int i = 0; i < 5; i++) {
    double px = x + offset[i][0] * bw_band_layout_pitch_px (layout);
    double py = y + offset[i][1] * bw_band_layout_column_px (layout);
    BwBandPoint point = bw_band_layout_point (layout, px, py);
    BwBeadAt brick = bw_band_brick (point), bead = { -1, -1 };
    int row = bw_band_layout_row (layout, long_row);

    assert_int_equal (brick.row, long_row);
    assert_int_equal (brick.column, column);
    assert_int_equal (bw_band_layout_bead (layout, point, &bead), row != 0);
    if (row != 0) {
      assert_int_equal (bead.row, row);
      assert_int_equal (bead.column, column);
    }
  }
}

static void
every_visible_bead_is_found_at_its_pixel (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (7);
  int beads = 0;
  for (int trial = 0; trial < TRIALS; trial++) {
    BwBandLayout layout = random_layout (rand);
    BwBandRange range = bw_band_layout_range (&layout);
    for (int row = range.first_row; row <= range.last_row; row++)
      for (int column = range.first_column; column <= range.last_column; column++)
        if (bw_lattice_has (row, column)) {
          assert_found (&layout, row, column);
          beads++;
        }
  }
  assert_true (beads > 10000);
}

static void
the_range_holds_every_bead_that_a_pixel_hits (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (8);
  for (int trial = 0; trial < TRIALS * 100; trial++) {
    BwBandLayout layout = random_layout (rand);
    BwBandRange range = bw_band_layout_range (&layout);
    double x = layout.x + g_rand_double (rand) * layout.width;
    double y = layout.y + g_rand_double (rand) * layout.height;
    BwBandPoint point = bw_band_layout_point (&layout, x, y);
    BwBeadAt bead, brick = bw_band_brick (point);

    if (!bw_band_layout_bead (&layout, point, &bead))
      continue;
    int image = (brick.row - bead.row) / (2 * bw_band_layout_around (&layout));
    assert_in_range (brick.row - range.first_row, 0, range.last_row - range.first_row);
    assert_in_range (brick.column, range.first_column, range.last_column);
    assert_in_range (image - range.first_image, 0, range.last_image - range.first_image);
  }
}

static void
a_ghost_stands_for_the_real_bead (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (9);
  for (int trial = 0; trial < TRIALS * 20; trial++) {
    BwBandLayout layout = random_layout (rand);
    int period = 2 * bw_band_layout_around (&layout);
    int row = g_rand_int_range (rand, 1, layout.rows + 1);
    int column = 2 * g_rand_int_range (rand, 0, layout.columns / 2) + (row % 2 ? 2 : 1);
    int turns = g_rand_int_range (rand, -9, 10);
    BwBeadAt bead;

    assert_int_equal (bw_band_layout_row (&layout, row + turns * period), row);
    assert_true (
        bw_band_layout_bead (&layout, bw_band_middle (row + turns * period, column), &bead));
    assert_int_equal (bead.row, row);
    assert_int_equal (bead.column, column);
  }
}

static void
an_odd_row_count_leaves_the_last_slot_empty (void **state)
{
  BwBandLayout layout = { .columns = 4, .rows = 7, .pitch_mm = 1, .column_mm = 1, .zoom = 1 };
  BwBeadAt bead;
  assert_int_equal (bw_band_layout_row (&layout, 8), 0);
  assert_int_equal (bw_band_layout_row (&layout, 0), 0);
  assert_int_equal (bw_band_layout_row (&layout, 9), 1);
  assert_false (bw_band_layout_bead (&layout, bw_band_middle (8, 1), &bead));
  assert_true (bw_band_layout_bead (&layout, bw_band_middle (7, 2), &bead));
}

static void
outside_the_columns_there_is_no_bead (void **state)
{
  BwBandLayout layout = { .columns = 4, .rows = 8, .pitch_mm = 1, .column_mm = 1, .zoom = 1 };
  BwBeadAt bead;
  assert_false (bw_band_layout_bead (&layout, (BwBandPoint){ 1, -0.01 }, &bead));
  assert_false (bw_band_layout_bead (&layout, (BwBandPoint){ 1, 4.01 }, &bead));
  assert_true (bw_band_layout_bead (&layout, (BwBandPoint){ 1, 3.99 }, &bead));
}

static void
zooming_about_a_point_keeps_that_point (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (10);
  int kept = 0;
  for (int trial = 0; trial < TRIALS * 20; trial++) {
    BwBandLayout layout = random_layout (rand);
    double x = layout.x + g_rand_double (rand) * layout.width;
    double y = layout.y + g_rand_double (rand) * layout.height;
    double zoom = exp (g_rand_double_range (rand, log (0.1), log (40)));
    BwBandPoint before = bw_band_layout_point (&layout, x, y);
    BwBandPoint asked = before;

    bw_band_layout_zoom_about (&layout, zoom, x, y);
    BwBandPoint after = bw_band_layout_point (&layout, x, y);
    assert_true (layout.zoom >= BW_ZOOM_MIN && layout.zoom <= bw_band_layout_zoom_max (&layout));
    assert_near (after.u, asked.u, 1e-9);
    /* Up and down the view may have had to stay on the band. */
    if (layout.rise > 0 && layout.rise < layout.columns) {
      assert_near (after.v, asked.v, 1e-9);
      kept++;
    }
  }
  assert_true (kept > TRIALS);
}

static void
zooming_nearer_about_a_bead_always_keeps_it (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (11);
  for (int trial = 0; trial < TRIALS * 20; trial++) {
    BwBandLayout layout = random_layout (rand);
    double u = layout.roll + g_rand_double_range (rand, -3, 3);
    double v = g_rand_double (rand) * layout.columns;
    double x = bw_band_layout_x (&layout, u), y = bw_band_layout_y (&layout, v);

    bw_band_layout_zoom_about (&layout, layout.zoom * g_rand_double_range (rand, 1, 3), x, y);
    assert_near (bw_band_layout_x (&layout, u), x, 1e-6);
    assert_near (bw_band_layout_y (&layout, v), y, 1e-6);
  }
}

static void
rolling_whole_turns_changes_nothing_to_see (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (12);
  for (int trial = 0; trial < TRIALS * 20; trial++) {
    BwBandLayout layout = random_layout (rand), rolled = layout;
    double x = layout.x + g_rand_double (rand) * layout.width;
    double y = layout.y + g_rand_double (rand) * layout.height;
    BwBeadAt a = { 0, 0 }, b = { 0, 0 };

    bw_band_layout_normalise (&rolled);
    assert_true (rolled.roll >= -0.5 - 1e-9
                 && rolled.roll <= bw_band_layout_around (&layout) - 0.5 + 1e-9);
    assert_int_equal (bw_band_layout_bead (&layout, bw_band_layout_point (&layout, x, y), &a),
                      bw_band_layout_bead (&rolled, bw_band_layout_point (&rolled, x, y), &b));
    assert_int_equal (a.row, b.row);
    assert_int_equal (a.column, b.column);
  }
}

static void
panning_moves_what_shows_by_those_pixels (void **state)
{
  BwBandLayout layout = { .columns = 20,
                          .rows = 100,
                          .pitch_mm = 1.6,
                          .column_mm = 1.3,
                          .width = 600,
                          .height = 300,
                          .zoom = 2,
                          .rise = 10 };
  double x = bw_band_layout_x (&layout, 3), y = bw_band_layout_y (&layout, 4);
  bw_band_layout_pan (&layout, 37, -21);
  assert_near (bw_band_layout_x (&layout, 3), x + 37, 1e-9);
  assert_near (bw_band_layout_y (&layout, 4), y - 21, 1e-9);
}

static void
panning_up_and_down_stays_on_the_band (void **state)
{
  BwBandLayout layout = { .columns = 20,
                          .rows = 100,
                          .pitch_mm = 1.6,
                          .column_mm = 1.3,
                          .width = 600,
                          .height = 300,
                          .zoom = 2,
                          .rise = 10 };
  bw_band_layout_pan (&layout, 0, 1e5);
  assert_near (layout.rise, 20, 1e-12);
  bw_band_layout_pan (&layout, 0, -1e6);
  assert_near (layout.rise, 0, 1e-12);
}

static void
fitting_shows_the_whole_band_where_the_zoom_allows (void **state)
{
  BwBandLayout layout = { .columns = 14,
                          .rows = 114,
                          .pitch_mm = 1.6,
                          .column_mm = 1.3,
                          .x = 40,
                          .width = 900,
                          .height = 500 };
  bw_band_layout_fit (&layout, 2, 40);
  assert_true (bw_band_layout_x (&layout, -2.5) >= 40 - 1e-6);
  assert_true (bw_band_layout_x (&layout, 59) <= 940 + 1e-6);
  assert_true (bw_band_layout_y (&layout, 14) >= 40 - 1e-6);
  assert_true (bw_band_layout_y (&layout, 0) <= 460 + 1e-6);
}

static void
fitting_a_very_long_band_shows_its_beginning (void **state)
{
  BwBandLayout layout = {
    .columns = 60, .rows = 2000, .pitch_mm = 1.6, .column_mm = 1.3, .width = 900, .height = 500
  };
  bw_band_layout_fit (&layout, 2, 40);
  assert_near (layout.zoom, BW_ZOOM_MIN, 1e-12);
  assert_true (bw_band_layout_x (&layout, 0) >= 0 && bw_band_layout_x (&layout, 0) < 40);
}

/* At its share of the view's height, nearer only for beads that are too small to be drawn on, and
 * then no nearer than the view has room. */
static void
a_band_opens_at_its_share_of_the_height_with_beads_that_can_be_drawn_on (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (21);
  int shares = 0, nearer = 0;
  for (int trial = 0; trial < 400; trial++) {
    BwBandLayout layout = random_layout (rand);
    bw_band_layout_fit_to_draw (&layout, 20);
    double bead = MIN (bw_band_layout_pitch_px (&layout), bw_band_layout_column_px (&layout));
    double up = layout.columns * bw_band_layout_column_px (&layout);

    assert_near (layout.rise, layout.columns / 2.0, 1e-12);
    assert_near (layout.roll, (bw_band_layout_around (&layout) - 0.5) / 2, 1e-12);
    if (layout.zoom == BW_ZOOM_MIN || layout.zoom == bw_band_layout_zoom_max (&layout))
      continue;
    assert_true (up >= BW_OPEN_SHARE * layout.height - 1e-9);
    if (up <= BW_OPEN_SHARE * layout.height + 1e-9) {
      shares++;
      assert_true (bead >= BW_ZOOM_DRAW_PX - 1e-9
                   || BW_OPEN_SHARE * layout.height >= layout.height - 40);
      continue;
    }
    nearer++;
    assert_true (bead <= BW_ZOOM_DRAW_PX + 1e-9);
    assert_true (up <= layout.height - 40 + 1e-9);
  }
  assert_true (shares > 50);
  assert_true (nearer > 20);
}

static void
the_view_s_own_image_is_no_ghost_and_distant_ones_are (void **state)
{
  BwBandLayout layout = { .columns = 4, .rows = 40, .pitch_mm = 1, .column_mm = 1, .zoom = 1 };
  for (layout.roll = -30; layout.roll < 30; layout.roll += 0.17) {
    int home = (int)floor ((layout.roll + 0.5) / 20);
    assert_near (bw_band_layout_ghost (&layout, home), 0, 1e-12);
    assert_near (bw_band_layout_ghost (&layout, home + 2), 1, 1e-12);
    assert_near (bw_band_layout_ghost (&layout, home - 2), 1, 1e-12);
    assert_true (bw_band_layout_ghost (&layout, home + 1) > 0);
  }
}

static void
the_nearest_image_is_within_half_a_turn (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (13);
  for (int trial = 0; trial < TRIALS * 20; trial++) {
    BwBandLayout layout = random_layout (rand);
    int row = g_rand_int_range (rand, 1, layout.rows + 1);
    int nearest = bw_band_layout_nearest (&layout, row);
    assert_int_equal (bw_band_layout_row (&layout, nearest), row);
    assert_true (fabs (bw_lattice_pitches (nearest) - layout.roll)
                 <= bw_band_layout_around (&layout) / 2.0 + 1e-9);
  }
}

static gboolean
is_bead (const BwBandLayout *layout, BwBeadAt bead)
{
  return bead.row >= 1 && bead.row <= layout->rows && bead.column >= 1
         && bead.column <= layout->columns && bw_lattice_has (bead.row, bead.column);
}

static void
the_arrow_keys_walk_from_bead_to_bead (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (14);
  for (int trial = 0; trial < TRIALS; trial++) {
    BwBandLayout layout = random_layout (rand);
    BwBeadAt at = { 1, 2 };
    for (int step = 0; step < 300; step++) {
      int way = g_rand_int_range (rand, 0, 4);
      at = bw_band_layout_walk (&layout, at,
                                way == 0   ? 1
                                : way == 1 ? -1
                                           : 0,
                                way == 2   ? 1
                                : way == 3 ? -1
                                           : 0);
      assert_true (is_bead (&layout, at));
    }
  }
}

static void
walking_along_a_column_comes_back_after_one_turn (void **state)
{
  for (int rows = 1; rows <= 13; rows++) {
    BwBandLayout layout = { .columns = 6, .rows = rows, .pitch_mm = 1, .column_mm = 1, .zoom = 1 };
    BwBeadAt at = { 1, 2 };
    for (int i = 0; i < bw_band_layout_around (&layout); i++) {
      at = bw_band_layout_walk (&layout, at, 1, 0);
      assert_int_equal (at.column, 2);
    }
    assert_int_equal (at.row, 1);
  }
}

/* Past the place where an odd strip lacks a bead the walk goes on the way it came. */
static void
walking_steps_over_the_bead_an_odd_strip_lacks (void **state)
{
  for (int rows = 5; rows <= 13; rows += 2) {
    BwBandLayout layout = { .columns = 6, .rows = rows, .pitch_mm = 1, .column_mm = 1, .zoom = 1 };
    BwBeadAt on = bw_band_layout_walk (&layout, (BwBeadAt){ rows - 1, 1 }, 1, 0);
    BwBeadAt back = bw_band_layout_walk (&layout, (BwBeadAt){ 2, 1 }, -1, 0);
    assert_int_equal (on.row, 2);
    assert_int_equal (back.row, rows - 1);
  }
}

static void
walking_up_stays_over_one_place (void **state)
{
  BwBandLayout layout = { .columns = 6, .rows = 12, .pitch_mm = 1, .column_mm = 1, .zoom = 1 };
  BwBeadAt at = { 6, 1 };
  for (int column = 2; column <= 6; column++) {
    at = bw_band_layout_walk (&layout, at, 0, 1);
    assert_int_equal (at.column, column);
    assert_in_range (at.row, 5, 6);
  }
  at = bw_band_layout_walk (&layout, at, 0, 1);
  assert_int_equal (at.column, 6);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (every_visible_bead_is_found_at_its_pixel),
    cmocka_unit_test (the_range_holds_every_bead_that_a_pixel_hits),
    cmocka_unit_test (a_ghost_stands_for_the_real_bead),
    cmocka_unit_test (an_odd_row_count_leaves_the_last_slot_empty),
    cmocka_unit_test (outside_the_columns_there_is_no_bead),
    cmocka_unit_test (zooming_about_a_point_keeps_that_point),
    cmocka_unit_test (zooming_nearer_about_a_bead_always_keeps_it),
    cmocka_unit_test (rolling_whole_turns_changes_nothing_to_see),
    cmocka_unit_test (panning_moves_what_shows_by_those_pixels),
    cmocka_unit_test (panning_up_and_down_stays_on_the_band),
    cmocka_unit_test (fitting_shows_the_whole_band_where_the_zoom_allows),
    cmocka_unit_test (fitting_a_very_long_band_shows_its_beginning),
    cmocka_unit_test (a_band_opens_at_its_share_of_the_height_with_beads_that_can_be_drawn_on),
    cmocka_unit_test (the_view_s_own_image_is_no_ghost_and_distant_ones_are),
    cmocka_unit_test (the_nearest_image_is_within_half_a_turn),
    cmocka_unit_test (the_arrow_keys_walk_from_bead_to_bead),
    cmocka_unit_test (walking_along_a_column_comes_back_after_one_turn),
    cmocka_unit_test (walking_steps_over_the_bead_an_odd_strip_lacks),
    cmocka_unit_test (walking_up_stays_over_one_place),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
