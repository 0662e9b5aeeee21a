/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The strip beneath the canvas, in a real window: what it shows and where it leads. */
#include "../window/desk.h"
#include "core/base/lattice.h"
#include "editor/band/band-overview.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>

#include "near.h"

typedef struct {
  BwProject *project;
  BwSession *session;
  GtkWidget *window;
  BwBandCanvas *canvas;
  BwBandOverview *overview;
  int around;
} Bench;

static int
set_up (void **state)
{
  Bench *bench = g_new0 (Bench, 1);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  bench->project = bw_project_new ();
  bench->session = bw_session_new (bench->project);
  bench->canvas = BW_BAND_CANVAS (bw_band_canvas_new (bench->session));
  bench->overview = BW_BAND_OVERVIEW (bw_band_overview_new (bench->canvas, bench->session));
  bench->around = bw_band_layout_around (bw_band_canvas_get_layout (bench->canvas));
  bench->window = gtk_window_new ();
  g_object_set (gtk_widget_get_settings (bench->window), "gtk-enable-animations", FALSE, NULL);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (bench->canvas));
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (bench->overview));
  gtk_window_set_default_size (GTK_WINDOW (bench->window), 460, 600);
  gtk_window_set_decorated (GTK_WINDOW (bench->window), FALSE);
  gtk_window_set_child (GTK_WINDOW (bench->window), box);
  gtk_window_present (GTK_WINDOW (bench->window));
  desk_settle ();
  *state = bench;
  return 0;
}

static int
tear_down (void **state)
{
  Bench *bench = *state;
  gtk_window_destroy (GTK_WINDOW (bench->window));
  desk_settle ();
  g_object_unref (bench->session);
  g_assert_finalize_object (bench->project);
  g_free (bench);
  return 0;
}

static GtkWidget *
strip (Bench *bench)
{
  return GTK_WIDGET (bench->overview);
}

static double
middle (Bench *bench)
{
  return gtk_widget_get_height (strip (bench)) / 2.0;
}

/* How far the canvas's middle is from a place, round the stone. */
static double
off (Bench *bench, double place)
{
  double roll = bw_band_canvas_get_layout (bench->canvas)->roll;
  return fabs (remainder (roll - place, bench->around));
}

static void
a_place_and_its_x_are_inverse (void **state)
{
  Bench *bench = *state;
  for (double place = -0.5; place < bench->around - 0.5; place += 0.25)
    assert_near (
        bw_band_overview_place (bench->overview, bw_band_overview_x (bench->overview, place)),
        place, 1e-9);
}

static void
a_press_brings_that_place_to_the_middle (void **state)
{
  Bench *bench = *state;
  double pixel
      = bw_band_overview_place (bench->overview, 1) - bw_band_overview_place (bench->overview, 0);
  bw_band_canvas_set_zoom (bench->canvas, 4 * bw_band_canvas_get_zoom (bench->canvas));
  double places[] = { 3, bench->around - 4, bench->around / 2.0 };
  for (gsize i = 0; i < G_N_ELEMENTS (places); i++) {
    desk_click_at (strip (bench), bw_band_overview_x (bench->overview, places[i]), middle (bench),
                   1);
    desk_settle ();
    assert_true (off (bench, places[i]) <= pixel);
  }
}

static void
the_frame_is_dragged_and_keeps_its_hold (void **state)
{
  Bench *bench = *state;
  double from = bw_band_canvas_get_layout (bench->canvas)->roll;
  double x = bw_band_overview_x (bench->overview, from) + 5;
  double pixel
      = bw_band_overview_place (bench->overview, 1) - bw_band_overview_place (bench->overview, 0);
  desk_drag (strip (bench), x, middle (bench), x + 100, middle (bench), 10, 1);
  desk_settle ();
  assert_true (off (bench, from + 100 * pixel) <= 2 * pixel);
}

static void
arrows_and_the_wheel_roll_the_band_and_home_goes_to_row_1 (void **state)
{
  Bench *bench = *state;
  double from = bw_band_canvas_get_layout (bench->canvas)->roll;
  gtk_widget_grab_focus (strip (bench));
  desk_key ("Right", 0);
  desk_key ("Right", 0);
  desk_key ("Left", 0);
  assert_true (off (bench, from + 0.05 * bench->around) < 1e-6);
  desk_scroll (strip (bench), 100, middle (bench), 1);
  assert_true (off (bench, from) < 1e-6);
  desk_key ("Home", 0);
  desk_settle ();
  assert_true (off (bench, 0) < 1e-6);
}

/* Ten pixels far from the frame, where the veil lies alike on all. */
static guint32
colour_at (Bench *bench, double place)
{
  return desk_pixel (strip (bench), bw_band_overview_x (bench->overview, place), middle (bench));
}

static void
a_painted_row_shows_where_it_lies (void **state)
{
  Bench *bench = *state;
  int columns = bw_project_get_design (bench->project)->band.columns;
  guint32 plain = colour_at (bench, 5), elsewhere = colour_at (bench, bench->around - 6);
  BwTray tray = *bw_project_get_tray (bench->project);
  tray.n_colours = 2;
  tray.colour[1] = tray.colour[0];
  tray.colour[1].id = tray.colour[0].id + 1;
  tray.colour[1].srgb = 0xff2000;
  assert_true (bw_project_set_tray (bench->project, "Tray", &tray, NULL));
  for (int row = 9; row <= 13; row++)
    for (int column = 1; column <= columns; column++)
      if (bw_lattice_has (row, column))
        assert_true (bw_project_set_bead (bench->project, "Rows", FALSE, row, column, 1));
  desk_settle ();
  assert_int_not_equal (colour_at (bench, 5), plain);
  assert_int_equal (colour_at (bench, bench->around - 6), elsewhere);
}

/* The strip as it is mixed bead by bead is the strip as it is mixed anew. */
static void
a_painted_bead_mixes_its_own_pixels (void **state)
{
  Bench *bench = *state;
  int rows = bw_project_get_design (bench->project)->band.rows;
  const int row[] = { 1, 2, rows / 2, rows - 1, rows };
  guint64 all = bw_band_overview_mixed (bench->overview);
  gtk_widget_set_has_tooltip (strip (bench), FALSE); /* it would lie in the picture */
  BwTray tray = *bw_project_get_tray (bench->project);
  assert_true (all > 1000);
  for (gsize i = 0; i < G_N_ELEMENTS (row); i++) {
    guint64 before = bw_band_overview_mixed (bench->overview);
    assert_true (bw_project_set_bead (bench->project, "Bead", FALSE, row[i], 1 + row[i] % 2, 3));
    desk_settle ();
    assert_in_range (bw_band_overview_mixed (bench->overview) - before, 1, all / 20);
  }
  cairo_surface_t *kept = desk_picture ();
  g_strlcpy (tray.colour[0].name, "Another", sizeof tray.colour[0].name);
  assert_true (bw_project_set_tray (bench->project, "Name", &tray, NULL));
  desk_settle ();
  cairo_surface_t *anew = desk_picture ();
  assert_memory_equal (cairo_image_surface_get_data (kept), cairo_image_surface_get_data (anew),
                       (gsize)cairo_image_surface_get_stride (kept)
                           * (gsize)cairo_image_surface_get_height (kept));
  cairo_surface_destroy (kept);
  cairo_surface_destroy (anew);
}

static void
a_price_mixes_nothing (void **state)
{
  Bench *bench = *state;
  guint64 before = bw_band_overview_mixed (bench->overview);
  BwDesign design = *bw_project_get_design (bench->project);
  design.supply.hour += 1;
  assert_true (bw_project_set_design (bench->project, "Hour", &design, NULL));
  desk_settle ();
  assert_int_equal (bw_band_overview_mixed (bench->overview), before);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown (a_place_and_its_x_are_inverse, set_up, tear_down),
    cmocka_unit_test_setup_teardown (a_press_brings_that_place_to_the_middle, set_up, tear_down),
    cmocka_unit_test_setup_teardown (the_frame_is_dragged_and_keeps_its_hold, set_up, tear_down),
    cmocka_unit_test_setup_teardown (arrows_and_the_wheel_roll_the_band_and_home_goes_to_row_1,
                                     set_up, tear_down),
    cmocka_unit_test_setup_teardown (a_painted_row_shows_where_it_lies, set_up, tear_down),
    cmocka_unit_test_setup_teardown (a_painted_bead_mixes_its_own_pixels, set_up, tear_down),
    cmocka_unit_test_setup_teardown (a_price_mixes_nothing, set_up, tear_down),
  };
  g_setenv ("GTK_A11Y", "none", TRUE);
  /* The picture is the same without OpenGL, and a driver's leaks are none of ours. */
  g_setenv ("GSK_RENDERER", "cairo", FALSE);
  g_setenv ("GDK_DEBUG", "gl-disable", FALSE);
  g_setenv ("GDK_DISABLE", "gl", FALSE); /* as newer toolkits have it */
  desk_open ();
  int failed = cmocka_run_group_tests (tests, NULL, NULL);
  desk_close ();
  return desk_end (failed);
}
