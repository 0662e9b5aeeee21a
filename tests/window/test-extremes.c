/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The smallest band that makes sense and the largest that is taken: opened, drawn in, its stone
 * turned, undone and saved by the pointer, with the right answer each time. */
#include "maker.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

typedef struct {
  double girth_mm;
  BwBand band;
} Extreme;

/* Eight rows of four are four beads round; two thousand of sixty are a thousand. */
static const Extreme small = { 9, { 4, 8, 12, 180 } };
static const Extreme large = { 1590, { 60, 2000, 20, 180 } };

static char *
save_extreme (const Extreme *extreme)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (GError) error = NULL;
  BwDesign design = *bw_project_get_design (project);
  design.stone.measured = BW_MEASURED_GIRTH;
  design.stone.values_mm[0] = extreme->girth_mm;
  design.stone.has_second = FALSE;
  design.stone.length_mm = 200;
  design.stone.shoulder_mm = 150;
  design.stone.at_mm = 50;
  design.band = extreme->band;
  design.bail.style = BW_BAIL_NONE;
  if (!bw_project_set_design (project, "An extreme", &design, &error))
    fail_msg ("%s", error->message);
  return maker_save (project, "extreme.bandwright");
}

/* --- What the maker does -----------------------------------------------------------------------
 */

/* Nearer, until a bead is wide enough to be hit. */
static void
come_nearer (Maker *maker)
{
  BwBandCanvas *canvas = BW_BAND_CANVAS (maker_find (maker, BW_TYPE_BAND_CANVAS));
  for (int i = 0; bw_band_layout_pitch_px (bw_band_canvas_get_layout (canvas)) < 12 && i < 60; i++)
    desk_key ("plus", GDK_CONTROL_MASK);
  assert_true (bw_band_layout_pitch_px (bw_band_canvas_get_layout (canvas)) >= 12);
}

/* A bead in the middle of what is seen. */
static void
bead_in_view (Maker *maker, int *row, int *column)
{
  BwBandCanvas *canvas = BW_BAND_CANVAS (maker_find (maker, BW_TYPE_BAND_CANVAS));
  const BwBandLayout *layout = bw_band_canvas_get_layout (canvas);
  assert_true (bw_band_canvas_bead_at (canvas, layout->x + layout->width / 2,
                                       layout->y + layout->height / 2, row, column));
}

/* Two beads of the same column, side by side. Gives the row of the first. */
static int
draw_two_beads (Maker *maker, int *column)
{
  int row;
  maker_take_colour (maker, 1);
  come_nearer (maker);
  bead_in_view (maker, &row, column);
  row = MIN (row, maker_design (maker)->band.rows - 2);
  maker_drag_beads (maker, row, *column, row + 2, *column);
  assert_int_equal (maker_bead (maker, row, *column), 1);
  assert_int_equal (maker_bead (maker, row + 2, *column), 1);
  assert_int_equal (maker_count (maker, 1), 2);
  return row;
}

static void
turn_the_stone (Maker *maker)
{
  GtkWidget *view = maker_find (maker, BW_TYPE_STONE_VIEW);
  double middle = gtk_widget_get_height (view) / 2.0, width = gtk_widget_get_width (view);
  BwCamera before = bw_session_get_camera (maker_session (maker));
  desk_drag (view, width * 0.6, middle, width * 0.4, middle, 3, 1);
  BwCamera after = bw_session_get_camera (maker_session (maker));
  assert_true (fabs (after.turn_deg - before.turn_deg) > 5);
  assert_true (fabs (after.tip_deg - before.tip_deg) < 1e-9);
}

static gboolean
is_saved (gpointer maker)
{
  return !bw_project_get_modified (maker_project (maker));
}

static void
expect_file_with_two_beads (const char *path, const Extreme *extreme, int row, int column)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GError) error = NULL;
  g_autoptr (BwProject) project = bw_project_load (file, &error);
  if (!project)
    fail_msg ("%s", error->message);
  const BwDrawing *drawing = bw_project_get_drawing (project);
  guint64 counts[256] = { 0 };
  bw_drawing_count (drawing, counts);
  assert_int_equal (bw_drawing_rows (drawing), extreme->band.rows);
  assert_int_equal (bw_drawing_columns (drawing), extreme->band.columns);
  assert_int_equal (counts[1], 2);
  assert_int_equal (bw_drawing_get (drawing, row, column), 1);
  assert_int_equal (bw_drawing_get (drawing, row + 2, column), 1);
}

static void
work_on (const Extreme *extreme, const char *picture)
{
  Maker maker = { 0 };
  int column = 0;
  g_autofree char *path = save_extreme (extreme);
  maker_start (&maker, path);
  maker_stage (&maker, "draw");
  int row = draw_two_beads (&maker, &column);
  turn_the_stone (&maker);
  desk_keep (picture);
  desk_key ("z", GDK_CONTROL_MASK);
  assert_int_equal (maker_count (&maker, 1), 0);
  desk_key ("z", GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  assert_int_equal (maker_count (&maker, 1), 2);
  desk_key ("s", GDK_CONTROL_MASK);
  desk_until (is_saved, &maker);
  expect_file_with_two_beads (path, extreme, row, column);
  static const char *const stages[] = { "measure", "hang", "make" };
  for (gsize i = 0; i < G_N_ELEMENTS (stages); i++)
    maker_stage (&maker, stages[i]);
  maker_stop (&maker);
}

static void
four_columns_of_eight_rows_are_worked_on (void **state)
{
  work_on (&small, "extreme-small");
}

static void
sixty_columns_of_two_thousand_rows_are_worked_on (void **state)
{
  work_on (&large, "extreme-large");
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (four_columns_of_eight_rows_are_worked_on),
    cmocka_unit_test (sixty_columns_of_two_thousand_rows_are_worked_on),
  };
  return maker_run (tests);
}
