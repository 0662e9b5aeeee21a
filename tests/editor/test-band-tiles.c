/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tiles are painted once, dropped where a bead changed and nowhere else, and show the right
 * colours. */
#include "core/base/lattice.h"
#include "editor/cloth/band-tiles.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>

#define COLUMNS 20
#define ROWS 120

static const BwBeadSize size = { 12.3, 9.7, 1, 1, FALSE };

static BwTray
tray_of (guint32 first)
{
  BwTray tray = { .n_colours = 2 };
  tray.colour[0] = (BwColour){ 'a', "Night water", first, BW_FINISH_MATTE };
  tray.colour[1] = (BwColour){ 'b', "Buoy", 0xff2020, BW_FINISH_MATTE };
  return tray;
}

/* Paints all there is; returns how many tiles had to be painted for it. */
static int
paint_all (BwBandTiles *tiles)
{
  guint64 before = bw_band_tiles_painted (tiles);
  int width, height;
  bw_band_tiles_extent (tiles, &width, &height);
  for (int i = 0; i <= (width - 1) / BW_TILE_PX; i++)
    for (int j = 0; j <= (height - 1) / BW_TILE_PX; j++)
      assert_non_null (bw_band_tiles_get (tiles, i, j));
  return (int)(bw_band_tiles_painted (tiles) - before);
}

static guint32
pixel (BwBandTiles *tiles, double x, double y)
{
  static guint32 pixels[BW_TILE_PX * BW_TILE_PX];
  int px = (int)floor (x), py = (int)floor (y);
  GdkTexture *tile = bw_band_tiles_get (tiles, px / BW_TILE_PX, py / BW_TILE_PX);
  gdk_texture_download (tile, (guchar *)pixels, 4 * BW_TILE_PX);
  return pixels[py % BW_TILE_PX * BW_TILE_PX + px % BW_TILE_PX];
}

static gboolean
looks_red (BwBandTiles *tiles, int row, int column)
{
  double x = (bw_lattice_pitches (row) + 0.5) * size.pitch_px;
  double y = (COLUMNS - column + 0.5) * size.column_px;
  guint32 colour = pixel (tiles, x, y);
  return (colour >> 16 & 0xff) > 2 * (colour & 0xff);
}

static void
every_bead_shows_its_own_colour (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (41);
  g_autoptr (BwDrawing) drawing = bw_drawing_new (COLUMNS, ROWS, 0);
  g_autoptr (BwBandTiles) tiles = bw_band_tiles_new ();
  BwTray tray = tray_of (0x2020ff);
  for (int row = 1; row <= ROWS; row++)
    for (int j = 0; j < COLUMNS / 2; j++)
      bw_drawing_set (drawing, row, bw_lattice_column (row, j),
                      (guint8)g_rand_int_range (rand, 0, 2));
  bw_band_tiles_set (tiles, drawing, &tray, &size, NULL);
  for (int row = 1; row <= ROWS; row++)
    for (int j = 0; j < COLUMNS / 2; j++) {
      int column = bw_lattice_column (row, j);
      assert_int_equal (looks_red (tiles, row, column), bw_drawing_get (drawing, row, column));
    }
}

static void
a_changed_bead_repaints_only_the_tiles_it_touches (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (42);
  g_autoptr (BwDrawing) drawing = bw_drawing_new (COLUMNS, ROWS, 0);
  g_autoptr (BwBandTiles) tiles = bw_band_tiles_new ();
  BwTray tray = tray_of (0x2020ff);

  bw_band_tiles_set (tiles, drawing, &tray, &size, NULL);
  assert_true (paint_all (tiles) >= 3);
  for (int trial = 0; trial < 300; trial++) {
    int row = g_rand_int_range (rand, 1, ROWS + 1);
    int column = bw_lattice_column (row, g_rand_int_range (rand, 0, COLUMNS / 2));
    guint8 colour = !bw_drawing_get (drawing, row, column);
    bw_drawing_set (drawing, row, column, colour);
    bw_band_tiles_set (tiles, drawing, &tray, &size, NULL);
    assert_in_range (paint_all (tiles), 1, 4);
    assert_int_equal (looks_red (tiles, row, column), colour);
  }
}

static BwProject *
band_of_two_colours (void)
{
  BwProject *project = bw_project_new ();
  BwDesign design = *bw_project_get_design (project);
  BwTray tray = tray_of (0x2020ff);
  design.band.columns = COLUMNS;
  design.band.rows = ROWS;
  design.band.bottom_mm = 2;
  assert_true (bw_project_set_design (project, "Size", &design, NULL));
  assert_true (bw_project_set_tray (project, "Tray", &tray, NULL));
  return project;
}

/* Two far beads, one by one and as one step. */
static void
painted_beads_of_the_band_are_the_only_ones_looked_at (void **state)
{
  g_autoptr (BwProject) project = band_of_two_colours ();
  g_autoptr (BwBandTiles) tiles = bw_band_tiles_new ();
  const BwBeadColour far[] = { { 1, 2, 1 }, { ROWS, 1, 1 } };
  bw_band_tiles_set_band (tiles, project, &size, NULL);
  paint_all (tiles);
  guint64 looked = bw_band_tiles_looked (tiles);
  bw_band_tiles_set_band (tiles, project, &size, NULL);
  assert_int_equal (bw_band_tiles_looked (tiles), looked);
  bw_project_set_beads (project, "Far", FALSE, far, 2);
  bw_band_tiles_set_band (tiles, project, &size, NULL);
  assert_int_equal (bw_band_tiles_looked (tiles), looked + 2);
  assert_in_range (paint_all (tiles), 1, 8);
  assert_true (looks_red (tiles, 1, 2) && looks_red (tiles, ROWS, 1));
  bw_project_undo (project);
  bw_band_tiles_set_band (tiles, project, &size, NULL);
  assert_int_equal (bw_band_tiles_looked (tiles), looked + 4);
  assert_false (looks_red (tiles, 1, 2) || looks_red (tiles, ROWS, 1));
}

/* What was set while other work was shown, or of other work, is not taken for what is new. */
static void
another_drawing_between_leaves_nothing_stale (void **state)
{
  g_autoptr (BwProject) project = band_of_two_colours (), other = band_of_two_colours ();
  g_autoptr (BwBandTiles) tiles = bw_band_tiles_new ();
  BwTray tray = tray_of (0x2020ff);
  bw_band_tiles_set_band (tiles, project, &size, NULL);
  g_autoptr (BwDrawing) cloth = bw_drawing_copy (bw_project_get_drawing (project));
  bw_drawing_set (cloth, 3, 2, 1);
  bw_band_tiles_set (tiles, cloth, &tray, &size, NULL);
  paint_all (tiles);
  bw_band_tiles_set_band (tiles, project, &size, NULL);
  assert_false (looks_red (tiles, 3, 2));
  assert_true (bw_project_set_bead (other, "Bead", FALSE, 5, 2, 1));
  bw_band_tiles_set_band (tiles, other, &size, NULL);
  assert_true (looks_red (tiles, 5, 2));
  bw_band_tiles_set_band (tiles, project, &size, NULL);
  assert_false (looks_red (tiles, 5, 2));
}

static void
a_trial_is_shown_and_taken_back (void **state)
{
  g_autoptr (BwProject) project = band_of_two_colours ();
  g_autoptr (BwBandTiles) tiles = bw_band_tiles_new ();
  g_autoptr (BwDrawing) tried = bw_drawing_copy (bw_project_get_drawing (project));
  bw_drawing_set (tried, 3, 2, 1);
  bw_band_tiles_set_band (tiles, project, &size, NULL);
  assert_true (bw_project_try (project, "Try", NULL, tried, NULL));
  bw_band_tiles_set_band (tiles, project, &size, NULL);
  assert_true (looks_red (tiles, 3, 2));
  bw_project_drop_trial (project);
  bw_band_tiles_set_band (tiles, project, &size, NULL);
  assert_false (looks_red (tiles, 3, 2));
}

static void
an_unchanged_drawing_paints_nothing (void **state)
{
  g_autoptr (BwDrawing) drawing = bw_drawing_new (COLUMNS, ROWS, 0);
  g_autoptr (BwDrawing) same = bw_drawing_copy (drawing);
  g_autoptr (BwBandTiles) tiles = bw_band_tiles_new ();
  BwTray tray = tray_of (0x2020ff);
  bw_band_tiles_set (tiles, drawing, &tray, &size, NULL);
  paint_all (tiles);
  bw_band_tiles_set (tiles, same, &tray, &size, NULL);
  assert_int_equal (paint_all (tiles), 0);
}

static void
another_tray_size_or_shape_paints_anew (void **state)
{
  g_autoptr (BwDrawing) drawing = bw_drawing_new (COLUMNS, ROWS, 0);
  g_autoptr (BwDrawing) longer = bw_drawing_new (COLUMNS, ROWS + 2, 0);
  g_autoptr (BwBandTiles) tiles = bw_band_tiles_new ();
  BwTray tray = tray_of (0x2020ff), other = tray_of (0x20ff20);
  BwBeadSize larger = size;

  larger.pitch_px *= 1.01;
  bw_band_tiles_set (tiles, drawing, &tray, &size, NULL);
  int all = paint_all (tiles);
  bw_band_tiles_set (tiles, drawing, &other, &size, NULL);
  assert_int_equal (paint_all (tiles), all);
  bw_band_tiles_set (tiles, drawing, &other, &larger, NULL);
  assert_true (paint_all (tiles) >= all);
  bw_band_tiles_set (tiles, longer, &other, &larger, NULL);
  assert_true (paint_all (tiles) >= all);
}

static void
tiles_out_of_sight_are_let_go (void **state)
{
  g_autoptr (BwDrawing) drawing = bw_drawing_new (60, 4000, 0);
  g_autoptr (BwBandTiles) tiles = bw_band_tiles_new ();
  BwTray tray = tray_of (0x2020ff);
  bw_band_tiles_set (tiles, drawing, &tray, &size, NULL);
  int all = paint_all (tiles);
  assert_true (all > 200);
  bw_band_tiles_set (tiles, drawing, &tray, &size, NULL);
  bw_band_tiles_get (tiles, 0, 0);
  bw_band_tiles_trim (tiles);
  assert_int_equal (paint_all (tiles), all - 1);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (every_bead_shows_its_own_colour),
    cmocka_unit_test (a_changed_bead_repaints_only_the_tiles_it_touches),
    cmocka_unit_test (painted_beads_of_the_band_are_the_only_ones_looked_at),
    cmocka_unit_test (another_drawing_between_leaves_nothing_stale),
    cmocka_unit_test (a_trial_is_shown_and_taken_back),
    cmocka_unit_test (an_unchanged_drawing_paints_nothing),
    cmocka_unit_test (another_tray_size_or_shape_paints_anew),
    cmocka_unit_test (tiles_out_of_sight_are_let_go),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
