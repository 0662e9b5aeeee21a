/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The canvas in a real window, driven as a maker drives it: mouse, wheel and keyboard. */
#include "../window/desk.h"
#include "bench.h"
#include "core/base/lattice.h"

#include <X11/Xlib.h>
#include <X11/extensions/XTest.h>
#include <X11/keysym.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>
#include <cmocka.h>

#include "near.h"

static GtkWidget *
widget (Bench *bench)
{
  return GTK_WIDGET (bench->canvas);
}

static void
point_of (Bench *bench, int row, int column, double *x, double *y)
{
  assert_true (bw_band_canvas_bead_point (bench->canvas, row, column, x, y));
}

static void
move_to (Bench *bench, int row, int column)
{
  double x, y;
  point_of (bench, row, column, &x, &y);
  desk_move (widget (bench), x, y);
}

static void
every_bead_answers_at_its_point (void **state)
{
  Bench *bench = *state;
  const BwDesign *design = bw_project_get_design (bench->project);
  for (int row = 1; row <= design->band.rows; row++)
    for (int column = 1; column <= design->band.columns; column++) {
      double x, y;
      int found_row = 0, found_column = 0;
      if (!bw_lattice_has (row, column)) {
        assert_false (bw_band_canvas_bead_point (bench->canvas, row, column, &x, &y));
        continue;
      }
      point_of (bench, row, column, &x, &y);
      assert_true (bw_band_canvas_bead_at (bench->canvas, x, y, &found_row, &found_column));
      assert_int_equal (found_row, row);
      assert_int_equal (found_column, column);
    }
}

static void
a_click_sets_the_bead_under_it (void **state)
{
  Bench *bench = *state;
  double x, y;
  point_of (bench, 12, 5, &x, &y);
  desk_click_at (widget (bench), x, y, 1);
  assert_int_equal (bench_count (bench, 1), 1);
  assert_int_equal (bench_cell (bench, 12, 5), 1);
  assert_string_equal (bw_project_undo_label (bench->project), "Draw beads");
}

static void
a_hasty_drag_leaves_no_gap (void **state)
{
  Bench *bench = *state;
  double x0, y0, x1, y1;
  point_of (bench, 21, 2, &x0, &y0);
  point_of (bench, 61, 2, &x1, &y1);
  desk_drag (widget (bench), x0, y0, x1, y1, 1, 1);
  for (int row = 21; row <= 61; row += 2)
    assert_int_equal (bench_cell (bench, row, 2), 1);
  assert_int_equal (bench_count (bench, 1), 21);
  bw_project_undo (bench->project);
  assert_int_equal (bench_count (bench, 1), 0);
}

static void
escape_takes_the_stroke_back (void **state)
{
  Bench *bench = *state;
  double x, y;
  point_of (bench, 21, 2, &x, &y);
  desk_move (widget (bench), x, y);
  desk_press (1);
  move_to (bench, 41, 2);
  assert_int_equal (bench_count (bench, 1), 11);
  desk_key ("Escape", 0);
  assert_int_equal (bench_count (bench, 1), 0);
  move_to (bench, 51, 2);
  desk_release (1);
  assert_int_equal (bench_count (bench, 1), 0);
  assert_string_not_equal (bw_project_undo_label (bench->project), "Draw beads");

  a_click_sets_the_bead_under_it (state);
}

/* In view of the whole band, ghosts stand left of row 1. */
static gboolean
many_beads (gpointer data)
{
  return bench_count (data, 1) >= 30;
}

static void
a_stroke_held_beyond_the_view_rolls_the_band_on (void **state)
{
  Bench *bench = *state;
  double x, y;
  bw_band_canvas_set_zoom (bench->canvas, 4);
  bw_band_canvas_roll_to (bench->canvas, 5);
  desk_rest ();
  point_of (bench, 11, 6, &x, &y);
  desk_move (widget (bench), x, y);
  desk_press (1);
  /* Left of the view are the column numbers. */
  desk_move (widget (bench), 4, y);
  desk_until (many_beads, bench);
  desk_release (1);
  for (int row = 11; row > 0; row -= 2)
    assert_int_equal (bench_cell (bench, row, 6), 1);
  assert_string_equal (bw_project_undo_label (bench->project), "Draw beads");
  bw_project_undo (bench->project);
  assert_int_equal (bench_count (bench, 1), 0);
}

static void
a_ghost_takes_the_paint_of_its_bead (void **state)
{
  Bench *bench = *state;
  int rows = bw_project_get_design (bench->project)->band.rows, row, column;
  double x, y, x3, y3;
  point_of (bench, 1, 4, &x, &y);
  point_of (bench, 3, 4, &x3, &y3);
  double ghost_x = x - (x3 - x);
  assert_true (bw_band_canvas_bead_at (bench->canvas, ghost_x, y, &row, &column));
  assert_int_equal (row, rows - 1);
  desk_click_at (widget (bench), ghost_x, y, 1);
  assert_int_equal (bench_cell (bench, rows - 1, 4), 1);
  assert_int_equal (bench_count (bench, 1), 1);
}

static void
the_middle_button_picks_up_a_colour (void **state)
{
  Bench *bench = *state;
  double x, y;
  bw_project_set_bead (bench->project, "One bead", FALSE, 12, 5, 2);
  point_of (bench, 12, 5, &x, &y);
  desk_click_at (widget (bench), x, y, 2);
  assert_int_equal (bw_session_get_colour (bench->session), 2);
  assert_int_equal (bench_count (bench, 2), 1);
}

static void
the_bead_pointed_at_is_told_to_all (void **state)
{
  Bench *bench = *state;
  gboolean in_bail;
  int row, column;
  bw_project_set_bead (bench->project, "One bead", FALSE, 12, 5, 2);
  move_to (bench, 12, 5);
  bw_session_get_hover (bench->session, &in_bail, &row, &column);
  assert_int_equal (row, 12);
  assert_int_equal (column, 5);
  assert_false (in_bail);
  assert_true (g_str_has_prefix (bench->status, "Row 12, column 5, "));
  assert_true (g_str_has_suffix (bench->status, ", Buoy"));

  desk_move (widget (bench), 500, 2);
  bw_session_get_hover (bench->session, &in_bail, &row, &column);
  assert_int_equal (row, 0);
  assert_string_equal (bench->status, "");
}

static void
what_another_view_points_at_is_told_here (void **state)
{
  Bench *bench = *state;
  bw_session_set_hover (bench->session, FALSE, 7, 2);
  assert_true (g_str_has_prefix (bench->status, "Row 7, column 2, "));
  bw_session_set_hover (bench->session, TRUE, 7, 2);
  assert_string_equal (bench->status, "");
}

static void
the_keyboard_draws_alone (void **state)
{
  Bench *bench = *state;
  desk_key ("Home", 0);
  assert_true (g_str_has_prefix (bench->status, "Row 1, column 2, "));
  desk_key ("Right", 0);
  desk_key ("Right", 0);
  desk_key ("Up", 0);
  assert_true (g_str_has_prefix (bench->status, "Row 6, column 3, "));
  desk_key ("space", 0);
  assert_int_equal (bench_cell (bench, 6, 3), 1);
  desk_key ("z", 0);
  assert_int_equal (bw_session_get_colour (bench->session), 2);
  desk_key ("Down", 0);
  desk_key ("space", 0);
  assert_int_equal (bench_cell (bench, 5, 2), 2);
  desk_key ("Up", 0);
  desk_key ("p", 0);
  assert_int_equal (bw_session_get_colour (bench->session), 1);
  desk_key ("Left", 0);
  desk_key ("Left", 0);
  desk_key ("Left", 0);
  assert_true (g_str_has_prefix (bench->status, "Row "));
  assert_int_equal (bench_count (bench, 1), 1);
}

static void
the_keyboard_pulls_a_line_between_two_spaces (void **state)
{
  Bench *bench = *state;
  int rows = bw_project_get_design (bench->project)->band.rows;
  bw_session_set_tool (bench->session, BW_TOOL_LINE);
  desk_key ("Home", 0);
  desk_key ("space", 0);
  for (int i = 0; i < 4; i++)
    desk_key ("Left", 0);
  assert_int_equal (bench_count (bench, 1), 5);
  desk_key ("space", 0);
  desk_key ("Left", 0);
  assert_int_equal (bench_count (bench, 1), 5);
  assert_int_equal (bench_cell (bench, rows - 7, 2), 1);
  assert_string_equal (bw_project_undo_label (bench->project), "Draw a line");

  desk_key ("space", 0);
  desk_key ("Up", 0);
  desk_key ("Escape", 0);
  assert_int_equal (bench_count (bench, 1), 5);
  bw_project_undo (bench->project);
  assert_int_equal (bench_count (bench, 1), 0);
}

static void
the_keyboard_picks_up_with_the_tool_in_hand (void **state)
{
  Bench *bench = *state;
  bw_project_set_bead (bench->project, "One bead", FALSE, 1, 2, 2);
  bw_session_set_tool (bench->session, BW_TOOL_PICK);
  desk_key ("Home", 0);
  desk_key ("space", 0);
  assert_int_equal (bw_session_get_colour (bench->session), 2);
  assert_int_equal (bw_session_get_tool (bench->session), BW_TOOL_BEAD);
}

static void
walking_left_of_the_first_row_comes_to_the_last (void **state)
{
  Bench *bench = *state;
  int rows = bw_project_get_design (bench->project)->band.rows;
  g_autofree char *last = g_strdup_printf ("Row %d, column 2, ", rows - 1);
  desk_key ("Home", 0);
  desk_key ("Left", 0);
  assert_true (g_str_has_prefix (bench->status, last));
  desk_key ("Right", 0);
  assert_true (g_str_has_prefix (bench->status, "Row 1, column 2, "));
}

/* An accelerator needs its modifier held while the wheel turns. */
static void
hold_key (KeySym symbol, gboolean down)
{
  Display *display = XOpenDisplay (NULL);
  XTestFakeKeyEvent (display, XKeysymToKeycode (display, symbol), down, CurrentTime);
  XSync (display, False);
  XCloseDisplay (display);
  desk_settle ();
}

static void
ctrl_and_the_wheel_come_nearer_about_the_pointer (void **state)
{
  Bench *bench = *state;
  double x, y, after_x, after_y, zoom = bw_band_canvas_get_zoom (bench->canvas);
  point_of (bench, 40, 7, &x, &y);
  desk_move (widget (bench), x, y);
  hold_key (XK_Control_L, TRUE);
  desk_scroll (widget (bench), x, y, 3);
  hold_key (XK_Control_L, FALSE);
  assert_near (bw_band_canvas_get_zoom (bench->canvas), zoom * 1.728, 1e-9);
  point_of (bench, 40, 7, &after_x, &after_y);
  /* The pointer stands on whole pixels, so that much the bead's middle may move away from it. */
  assert_near (after_x, x, 1);
  assert_near (after_y, y, 1);
}

static void
the_zoom_keeps_its_bounds_and_fit_returns (void **state)
{
  Bench *bench = *state;
  desk_key ("0", GDK_CONTROL_MASK);
  double fitted = bw_band_canvas_get_zoom (bench->canvas);
  for (int i = 0; i < 40; i++)
    desk_key ("plus", GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  assert_near (bw_band_canvas_get_zoom (bench->canvas), 16, 1e-9);
  for (int i = 0; i < 40; i++)
    desk_key ("minus", GDK_CONTROL_MASK);
  assert_near (bw_band_canvas_get_zoom (bench->canvas), 0.25, 1e-9);
  desk_key ("0", GDK_CONTROL_MASK);
  assert_near (bw_band_canvas_get_zoom (bench->canvas), fitted, 1e-9);
}

static void
the_wheel_rolls_the_band_for_ever (void **state)
{
  Bench *bench = *state;
  int row = 0, column = 0;
  bw_band_canvas_set_zoom (bench->canvas, 1);
  for (int turn = 0; turn < 12; turn++) {
    desk_scroll (widget (bench), 500, 250, -40);
    assert_true (bw_band_canvas_bead_at (bench->canvas, 500, 275, &row, &column));
    assert_in_range (row, 1, bw_project_get_design (bench->project)->band.rows);
  }
}

static void
a_drag_with_the_middle_button_moves_the_band (void **state)
{
  Bench *bench = *state;
  double x0, y0, x1, y1;
  bw_band_canvas_set_zoom (bench->canvas, 2);
  bw_band_canvas_roll_to (bench->canvas, 20);
  desk_rest ();
  point_of (bench, 41, 6, &x0, &y0);
  desk_drag (widget (bench), 500, 250, 380, 270, 4, 2);
  point_of (bench, 41, 6, &x1, &y1);
  assert_near (x1 - x0, -120, 0.01);
  assert_near (y1 - y0, 20, 0.01);
  assert_int_equal (bench_count (bench, 1), 0);
}

static void
page_down_brings_the_next_face_to_the_middle (void **state)
{
  Bench *bench = *state;
  const BwStone *stone = bw_project_stone (bench->project);
  int row = 0, column = 0, face = -1, visited = 0;
  bw_band_canvas_set_zoom (bench->canvas, 1);
  for (int i = 0; i < stone->faces; i++) {
    desk_key ("Next", 0);
    desk_rest ();
    double x, y;
    point_of (bench, 1, 2, &x, &y);
    assert_true (bw_band_canvas_bead_at (bench->canvas, 516, y, &row, &column));
    BwPlace place = bw_places_get (bw_project_places (bench->project), row, column);
    assert_int_not_equal (place.face, face);
    assert_true (fabs (place.along_mm) < 1.7);
    face = place.face;
    visited |= 1 << face;
  }
  assert_int_equal (visited, (1 << stone->faces) - 1);
}

static void
beads_show_in_their_colour (void **state)
{
  Bench *bench = *state;
  double x, y;
  bw_band_canvas_set_zoom (bench->canvas, 2);
  bw_band_canvas_roll_to (bench->canvas, 10);
  bw_project_set_bead (bench->project, "One bead", FALSE, 21, 6, 2);
  desk_rest ();
  point_of (bench, 21, 6, &x, &y);
  guint32 red = desk_pixel (widget (bench), x + 8, y);
  assert_true ((red >> 16 & 0xff) > 2 * (red >> 8 & 0xff));
  bw_project_undo (bench->project);
  desk_rest ();
  guint32 plain = desk_pixel (widget (bench), x + 8, y);
  assert_false ((plain >> 16 & 0xff) > 2 * (plain >> 8 & 0xff));
}

static void
letters_show_on_the_beads (void **state)
{
  Bench *bench = *state;
  double x, y;
  int changed = 0;
  bw_band_canvas_set_zoom (bench->canvas, 4);
  bw_band_canvas_roll_to (bench->canvas, 10);
  desk_move (widget (bench), 500, 2);
  desk_rest ();
  point_of (bench, 21, 6, &x, &y);
  guint32 before[21];
  for (int i = 0; i < 21; i++)
    before[i] = desk_pixel (widget (bench), x - 10 + i, y);
  bw_band_canvas_set_letters (bench->canvas, TRUE);
  desk_rest ();
  for (int i = 0; i < 21; i++) {
    int was = before[i] >> 8 & 0xff, is = desk_pixel (widget (bench), x - 10 + i, y) >> 8 & 0xff;
    changed += abs (was - is) > 60;
  }
  assert_in_range (changed, 3, 18);
}

static void
a_screen_reader_hears_the_cursor_s_bead (void **state)
{
  Bench *bench = *state;
  GtkAccessible *accessible = GTK_ACCESSIBLE (bench->canvas);
  desk_key ("Home", 0);
  assert_true (gtk_test_accessible_has_property (accessible, GTK_ACCESSIBLE_PROPERTY_LABEL));
  g_autofree char *wrong = gtk_test_accessible_check_property (
      accessible, GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, bench->status);
  assert_null (wrong);
}

/* A key as the canvas hears it, also where no window could send it one. */
static void
tell_key (GtkWidget *canvas, guint key)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (canvas);
  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++) {
    g_autoptr (GObject) controller = g_list_model_get_item (controllers, i);
    gboolean taken = FALSE;
    if (GTK_IS_EVENT_CONTROLLER_KEY (controller))
      g_signal_emit_by_name (controller, "key-pressed", key, 0, 0, &taken);
  }
}

/* Whatever is half done when it goes: nothing of it stays, and nobody hears of it who is gone. */
static void
a_canvas_that_goes_takes_back_what_is_half_done (void **state)
{
  Bench *bench = *state;
  bw_session_set_tool (bench->session, BW_TOOL_LINE);
  for (int i = 0; i < 2; i++) {
    GtkWidget *canvas = g_object_ref_sink (bw_band_canvas_new (bench->session));
    if (i == 0) {
      tell_key (canvas, GDK_KEY_space);
      tell_key (canvas, GDK_KEY_Right);
    } else {
      bw_band_canvas_paste_text (BW_BAND_CANVAS (canvas),
                                 "beads-of-a-band 1 rows 1 columns 1 bead-first\ny\n");
    }
    assert_true (bw_project_in_step (bench->project));
    assert_true (bench_count (bench, 1) > 0);
    g_assert_finalize_object (canvas);
    assert_false (bw_project_in_step (bench->project));
    assert_int_equal (bench_count (bench, 1), 0);
  }
}

static void
another_project_takes_the_canvas_over (void **state)
{
  Bench *bench = *state;
  BwProject *other = bw_project_new ();
  BwDesign design = *bw_project_get_design (other);
  design.band.rows = 40;
  assert_true (bw_project_set_design (other, "Rows", &design, NULL));
  move_to (bench, 12, 5);
  desk_press (1);
  bw_session_set_project (bench->session, other);
  desk_release (1);
  assert_int_equal (bench_count (bench, 1), 0);
  double x, y;
  assert_false (bw_band_canvas_bead_point (bench->canvas, 41, 2, &x, &y));
  assert_true (bw_band_canvas_bead_point (bench->canvas, 39, 2, &x, &y));
  bw_session_set_project (bench->session, bench->project);
  g_object_unref (other);
}

static void
a_stone_measured_anew_keeps_the_canvas_in_step (void **state)
{
  Bench *bench = *state;
  BwDesign design = *bw_project_get_design (bench->project);
  double x, y;
  desk_key ("End", 0);
  for (int rows = design.band.rows; rows > 3; rows = rows * 2 / 3) {
    design.band.rows = rows;
    assert_true (bw_project_set_design (bench->project, "Rows", &design, NULL));
    desk_settle ();
    assert_true (bw_band_canvas_bead_point (bench->canvas, rows, rows % 2 ? 2 : 1, &x, &y));
    assert_false (bw_band_canvas_bead_point (bench->canvas, rows + 1, rows % 2 ? 1 : 2, &x, &y));
    desk_key ("space", 0);
  }
}

/* The keys go on where there are beads. */
static void
a_cursor_whose_bead_is_gone_stands_at_the_beginning (void **state)
{
  Bench *bench = *state;
  BwDesign design = *bw_project_get_design (bench->project);
  desk_key ("Home", 0);
  desk_key ("Left", 0);
  design.band.rows -= 10;
  assert_true (bw_project_set_design (bench->project, "Rows", &design, NULL));
  desk_settle ();
  desk_key ("space", 0);
  assert_int_equal (bench_cell (bench, 1, 2), 1);
  assert_int_equal (bench_count (bench, 1), 1);
  assert_true (g_str_has_prefix (bench->status, "Row 1, column 2, "));
}

static BwDesign
random_design (GRand *rand, const BwDesign *from)
{
  BwDesign design = *from;
  double size = exp (g_rand_double_range (rand, log (0.4), log (12)));
  double girth = g_rand_double_range (rand, 20, 300);
  design.stone.faces = g_rand_int_range (rand, 3, 65);
  design.stone.measured = BW_MEASURED_GIRTH;
  design.stone.values_mm[0] = girth;
  design.stone.has_second = g_rand_boolean (rand);
  design.stone.second_girth_mm = girth * g_rand_double_range (rand, 0.9, 1.1);
  design.stone.at_mm = 5;
  design.stone.second_at_mm = 20;
  design.stone.length_mm = 400;
  design.stone.has_shoulder = TRUE;
  design.stone.shoulder_mm = 380;
  design.bead = (BwBead){ "", size, size * g_rand_double_range (rand, 0.5, 1.5), size / 2, 2.5 };
  design.gauge = (BwGauge){ .column_mm = design.bead.length_mm, .pitch_mm = size };
  design.band.columns = 2 * g_rand_int_range (rand, 1, 40);
  design.band.rows = g_rand_int_range (rand, 1, 400);
  design.band.bottom_mm = 1;
  design.bail.style = (BwBailStyle)g_rand_int_range (rand, BW_BAIL_NONE, BW_BAIL_OVER + 1);
  design.bail.columns = 2;
  design.bail.at_deg = g_rand_double_range (rand, 0, 360);
  return design;
}

static void
build_snapshot (Bench *bench)
{
  g_autoptr (GtkSnapshot) snapshot = gtk_snapshot_new ();
  GTK_WIDGET_GET_CLASS (bench->canvas)->snapshot (widget (bench), snapshot);
  g_autoptr (GskRenderNode) node = gtk_snapshot_to_node (snapshot);
  assert_non_null (node);
}

/* The canvas draws, and finds its beads again, whatever the stone, the bead and the view. */
static void
any_sound_design_is_drawn_at_any_zoom (void **state)
{
  Bench *bench = *state;
  g_autoptr (GRand) rand = g_rand_new_with_seed (71);
  int drawn = 0;
  for (int trial = 0; trial < 150; trial++) {
    BwDesign design = random_design (rand, bw_project_get_design (bench->project));
    if (!bw_project_set_design (bench->project, "Any", &design, NULL))
      continue;
    drawn++;
    build_snapshot (bench);
    bw_band_canvas_set_letters (bench->canvas, g_rand_boolean (rand));
    bw_band_canvas_set_zoom (bench->canvas, exp (g_rand_double_range (rand, -1.4, 2.8)));
    bw_band_canvas_roll_to (bench->canvas, g_rand_double_range (rand, -900, 900));
    build_snapshot (bench);
    double x, y;
    int row = g_rand_int_range (rand, 1, design.band.rows + 1), found_row, found_column;
    int column = row % 2 ? 2 : 1;
    point_of (bench, row, column, &x, &y);
    if (bw_band_canvas_bead_at (bench->canvas, x, y, &found_row, &found_column)) {
      assert_int_equal (found_row, row);
      assert_int_equal (found_column, column);
    }
    if (trial % 3 == 0)
      bw_band_canvas_fit (bench->canvas);
  }
  assert_true (drawn > 50);
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, bench_set_up, bench_tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (every_bead_answers_at_its_point),
    IN_WINDOW (a_click_sets_the_bead_under_it),
    IN_WINDOW (a_hasty_drag_leaves_no_gap),
    IN_WINDOW (escape_takes_the_stroke_back),
    IN_WINDOW (a_stroke_held_beyond_the_view_rolls_the_band_on),
    IN_WINDOW (a_ghost_takes_the_paint_of_its_bead),
    IN_WINDOW (the_middle_button_picks_up_a_colour),
    IN_WINDOW (the_bead_pointed_at_is_told_to_all),
    IN_WINDOW (what_another_view_points_at_is_told_here),
    IN_WINDOW (the_keyboard_draws_alone),
    IN_WINDOW (the_keyboard_pulls_a_line_between_two_spaces),
    IN_WINDOW (the_keyboard_picks_up_with_the_tool_in_hand),
    IN_WINDOW (walking_left_of_the_first_row_comes_to_the_last),
    IN_WINDOW (ctrl_and_the_wheel_come_nearer_about_the_pointer),
    IN_WINDOW (the_zoom_keeps_its_bounds_and_fit_returns),
    IN_WINDOW (the_wheel_rolls_the_band_for_ever),
    IN_WINDOW (a_drag_with_the_middle_button_moves_the_band),
    IN_WINDOW (page_down_brings_the_next_face_to_the_middle),
    IN_WINDOW (beads_show_in_their_colour),
    IN_WINDOW (letters_show_on_the_beads),
    IN_WINDOW (a_screen_reader_hears_the_cursor_s_bead),
    IN_WINDOW (another_project_takes_the_canvas_over),
    IN_WINDOW (a_canvas_that_goes_takes_back_what_is_half_done),
    IN_WINDOW (a_stone_measured_anew_keeps_the_canvas_in_step),
    IN_WINDOW (a_cursor_whose_bead_is_gone_stands_at_the_beginning),
    IN_WINDOW (any_sound_design_is_drawn_at_any_zoom),
  };
  g_setenv ("GTK_A11Y", "test", TRUE);
  /* The picture is the same without OpenGL, and a driver's leaks are none of ours. */
  g_setenv ("GSK_RENDERER", "cairo", FALSE);
  g_setenv ("GDK_DEBUG", "gl-disable", FALSE);
  g_setenv ("GDK_DISABLE", "gl", FALSE); /* as newer toolkits have it */
  desk_open ();
  int failed = cmocka_run_group_tests (tests, NULL, NULL);
  desk_close ();
  return desk_end (failed);
}
