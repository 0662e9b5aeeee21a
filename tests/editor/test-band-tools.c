/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every tool in a real window, by the pointer; and a drawing made by the keyboard alone. */
#include "../window/desk.h"
#include "bench.h"
#include "core/base/lattice.h"

#include <X11/Xlib.h>
#include <X11/extensions/XTest.h>
#include <X11/keysym.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>
#include <cmocka.h>

static int
selected (Bench *bench)
{
  const BwRegion *region = bw_session_get_selection (bench->session);
  return region ? bw_region_count (region) : 0;
}

static void
drag (Bench *bench, BwToolKind tool, int row0, int column0, int row1, int column1)
{
  double x0, y0, x1, y1;
  bw_session_set_tool (bench->session, tool);
  assert_true (bw_band_canvas_bead_point (bench->canvas, row0, column0, &x0, &y0));
  assert_true (bw_band_canvas_bead_point (bench->canvas, row1, column1, &x1, &y1));
  desk_drag (GTK_WIDGET (bench->canvas), x0, y0, x1, y1, 3, 1);
}

static void
click (Bench *bench, BwToolKind tool, int row, int column)
{
  double x, y;
  bw_session_set_tool (bench->session, tool);
  assert_true (bw_band_canvas_bead_point (bench->canvas, row, column, &x, &y));
  desk_click_at (GTK_WIDGET (bench->canvas), x, y, 1);
}

static void
hold_key (KeySym symbol, gboolean down)
{
  Display *display = XOpenDisplay (NULL);
  XTestFakeKeyEvent (display, XKeysymToKeycode (display, symbol), down, CurrentTime);
  XSync (display, False);
  XCloseDisplay (display);
  desk_settle ();
}

/* Rows 20 to 25, columns 3 to 6: two beads in each row. */
#define BLOCK 12

static void
block_frame_and_line_follow_the_pointer (void **state)
{
  Bench *bench = *state;
  drag (bench, BW_TOOL_RECTANGLE, 20, 3, 25, 6);
  assert_int_equal (bench_count (bench, 1), BLOCK);
  assert_string_equal (bw_project_undo_label (bench->project), "Fill a block");
  bw_project_undo (bench->project);
  drag (bench, BW_TOOL_FRAME, 20, 3, 31, 8);
  assert_int_equal (bench_cell (bench, 20, 3), 1);
  assert_int_equal (bench_cell (bench, 25, 6), 0);
  assert_string_equal (bw_project_undo_label (bench->project), "Draw a frame");
  bw_project_undo (bench->project);
  drag (bench, BW_TOOL_LINE, 20, 3, 25, 8);
  assert_int_equal (bench_count (bench, 1), 6);
}

static void
flood_swap_and_pick_answer_a_click (void **state)
{
  Bench *bench = *state;
  drag (bench, BW_TOOL_FRAME, 20, 3, 31, 8);
  int frame = bench_count (bench, 1);
  bw_session_set_colour (bench->session, 2);
  click (bench, BW_TOOL_FLOOD, 25, 6);
  assert_true (bench_count (bench, 2) > 0);
  assert_int_equal (bench_count (bench, 1), frame);
  click (bench, BW_TOOL_SWAP, 20, 3);
  assert_int_equal (bench_count (bench, 1), 0);
  assert_string_equal (bw_project_undo_label (bench->project), "Recolour beads");
  bw_session_set_colour (bench->session, 0);
  click (bench, BW_TOOL_PICK, 25, 6);
  assert_int_equal (bw_session_get_colour (bench->session), 2);
}

/* Presses at one bead and goes to another without letting go. */
static void
pull (Bench *bench, BwToolKind tool, int row0, int column0, int row1, int column1)
{
  double x, y;
  bw_session_set_tool (bench->session, tool);
  assert_true (bw_band_canvas_bead_point (bench->canvas, row0, column0, &x, &y));
  desk_move (GTK_WIDGET (bench->canvas), x, y);
  desk_press (1);
  assert_true (bw_band_canvas_bead_point (bench->canvas, row1, column1, &x, &y));
  desk_move (GTK_WIDGET (bench->canvas), x, y);
}

static void
expect_told (Bench *bench, const char *size)
{
  g_autofree char *told = g_strconcat (size, " — Row ", NULL);
  if (!g_str_has_prefix (bench->status, told))
    fail_msg ("“%s” does not begin with “%s”", bench->status, told);
}

static void
what_is_pulled_tells_its_size_until_it_is_let_go (void **state)
{
  static const struct {
    BwToolKind tool;
    int row, column;
    const char *size;
  } pulls[] = {
    { BW_TOOL_LINE, 25, 8, "6 beads" },
    { BW_TOOL_LINE, 20, 3, "1 bead" },
    { BW_TOOL_RECTANGLE, 25, 6, "6 rows × 4 columns, 12 beads" },
    { BW_TOOL_FRAME, 31, 8, "12 rows × 6 columns, 20 beads" },
    { BW_TOOL_SELECT, 25, 6, "6 rows × 4 columns, 12 beads" },
  };
  Bench *bench = *state;
  for (gsize i = 0; i < G_N_ELEMENTS (pulls); i++) {
    pull (bench, pulls[i].tool, 20, 3, pulls[i].row, pulls[i].column);
    expect_told (bench, pulls[i].size);
    desk_release (1);
    assert_true (g_str_has_prefix (bench->status, "Row "));
  }
  pull (bench, BW_TOOL_SELECT, 22, 5, 27, 6);
  expect_told (bench, "Rows +5, columns +1");
  desk_key ("Escape", 0);
  assert_true (g_str_has_prefix (bench->status, "Row "));
  desk_release (1);
}

static void
what_the_keys_pull_tells_its_size (void **state)
{
  Bench *bench = *state;
  bw_session_set_tool (bench->session, BW_TOOL_LINE);
  desk_key ("Home", 0);
  desk_key ("space", 0);
  for (int i = 0; i < 4; i++)
    desk_key ("Right", 0);
  expect_told (bench, "5 beads");
  desk_key ("Return", 0);
  assert_true (g_str_has_prefix (bench->status, "Row 9, "));
  desk_key ("Right", GDK_SHIFT_MASK);
  expect_told (bench, "3 rows × 1 column, 2 beads");
  desk_key ("Escape", 0);
  assert_true (g_str_has_prefix (bench->status, "Row 11, "));
}

static void
rubbing_out_follows_the_pointer (void **state)
{
  Bench *bench = *state;
  drag (bench, BW_TOOL_RECTANGLE, 20, 3, 25, 6);
  drag (bench, BW_TOOL_ERASE, 18, 3, 28, 3);
  assert_int_equal (bench_count (bench, 1), BLOCK - 3);
}

static void
a_selection_is_dragged_and_copied_with_control (void **state)
{
  Bench *bench = *state;
  drag (bench, BW_TOOL_RECTANGLE, 20, 3, 25, 6);
  drag (bench, BW_TOOL_SELECT, 20, 3, 25, 6);
  assert_int_equal (selected (bench), BLOCK);
  drag (bench, BW_TOOL_SELECT, 22, 5, 43, 6);
  assert_int_equal (bench_count (bench, 1), BLOCK);
  assert_int_equal (bench_cell (bench, 22, 5), 0);
  assert_int_equal (bench_cell (bench, 43, 6), 1);
  assert_string_equal (bw_project_undo_label (bench->project), "Move beads");
  hold_key (XK_Control_L, TRUE);
  drag (bench, BW_TOOL_SELECT, 43, 6, 63, 6);
  hold_key (XK_Control_L, FALSE);
  assert_int_equal (bench_count (bench, 1), 2 * BLOCK);
}

static void
a_colour_is_selected_with_a_click_and_let_go_with_escape (void **state)
{
  Bench *bench = *state;
  drag (bench, BW_TOOL_RECTANGLE, 20, 3, 25, 6);
  click (bench, BW_TOOL_SELECT_COLOUR, 22, 5);
  assert_int_equal (selected (bench), BLOCK);
  desk_key ("Escape", 0);
  assert_int_equal (selected (bench), 0);
}

static gboolean
has_piece (gpointer data)
{
  return bw_band_canvas_has_piece (((Bench *)data)->canvas);
}

static void
what_is_copied_is_pasted_walked_about_and_laid_down (void **state)
{
  Bench *bench = *state;
  g_autoptr (BwDrawing) plain = bw_drawing_copy (bw_project_get_drawing (bench->project));
  drag (bench, BW_TOOL_RECTANGLE, 20, 3, 25, 6);
  g_autoptr (BwDrawing) before = bw_drawing_copy (bw_project_get_drawing (bench->project));
  drag (bench, BW_TOOL_SELECT, 20, 3, 25, 6);
  desk_key ("c", GDK_CONTROL_MASK);
  assert_string_equal (bench->status, "12 beads copied.");
  desk_key ("x", GDK_CONTROL_MASK);
  assert_true (bw_drawing_equal (plain, bw_project_get_drawing (bench->project)));
  bw_project_undo (bench->project);
  desk_key ("Home", 0);
  desk_key ("v", GDK_CONTROL_MASK);
  desk_until (has_piece, bench);
  assert_int_equal (bench_count (bench, 1), 2 * BLOCK);
  desk_key ("Right", 0);
  desk_key ("Up", 0);
  assert_int_equal (bench_count (bench, 1), 2 * BLOCK);
  desk_key ("Return", 0);
  assert_false (has_piece (bench));
  assert_string_equal (bw_project_undo_label (bench->project), "Paste");
  bw_project_undo (bench->project);
  assert_true (bw_drawing_equal (before, bw_project_get_drawing (bench->project)));
}

/* A box that begins on a gap cannot begin on the cursor's bead. */
static void
a_paste_that_would_break_the_half_drop_lands_beside_and_says_so (void **state)
{
  Bench *bench = *state;
  desk_key ("Home", 0);
  bw_band_canvas_paste_text (bench->canvas, "beads-of-a-band 1 rows 2 columns 2 gap-first\ny\ny\n");
  assert_true (has_piece (bench));
  assert_string_equal (bench->status, "Moved by one row, so that the beads interlock.");
  assert_int_equal (bench_count (bench, 1), 2);
  desk_key ("Escape", 0);
  assert_int_equal (bench_count (bench, 1), 0);
  assert_false (bw_project_in_step (bench->project));
}

static void
a_paste_from_another_program_is_refused_with_a_sentence (void **state)
{
  Bench *bench = *state;
  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (bench->canvas)), "Dear customer");
  desk_key ("v", GDK_CONTROL_MASK);
  desk_settle ();
  assert_false (has_piece (bench));
  assert_string_equal (bench->status,
                       "There are no beads to paste: what was copied is something else.");
}

static void
flips_and_turns_done_twice_are_nothing (void **state)
{
  static const char *const keys[] = { "r", "u", "t" };
  Bench *bench = *state;
  drag (bench, BW_TOOL_LINE, 21, 2, 26, 7);
  drag (bench, BW_TOOL_SELECT, 21, 2, 26, 7);
  g_autoptr (BwDrawing) before = bw_drawing_copy (bw_project_get_drawing (bench->project));
  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++) {
    desk_key ("Return", 0);
    assert_true (has_piece (bench));
    desk_key (keys[i], GDK_CONTROL_MASK);
    gboolean same = bw_drawing_equal (before, bw_project_get_drawing (bench->project));
    assert_int_equal (same, i == 2);
    desk_key (keys[i], GDK_CONTROL_MASK);
    assert_true (bw_drawing_equal (before, bw_project_get_drawing (bench->project)));
    desk_key ("Return", 0);
    assert_false (has_piece (bench));
  }
}

static void
a_piece_in_the_air_is_dragged_and_laid_down_by_a_click_beside (void **state)
{
  Bench *bench = *state;
  drag (bench, BW_TOOL_RECTANGLE, 20, 3, 25, 6);
  drag (bench, BW_TOOL_SELECT, 20, 3, 25, 6);
  desk_key ("Return", 0);
  assert_true (has_piece (bench));
  drag (bench, BW_TOOL_SELECT, 22, 5, 42, 5);
  assert_true (has_piece (bench));
  assert_int_equal (bench_cell (bench, 42, 5), 1);
  click (bench, BW_TOOL_SELECT, 70, 3);
  assert_false (has_piece (bench));
  assert_int_equal (bench_count (bench, 1), BLOCK);
}

static void
whoever_settles_the_session_lays_the_piece_down (void **state)
{
  Bench *bench = *state;
  bw_band_canvas_paste_text (bench->canvas,
                             "beads-of-a-band 1 rows 2 columns 2 bead-first\ny\ny\n");
  assert_true (bw_project_in_step (bench->project));
  bw_session_settle (bench->session);
  assert_false (bw_project_in_step (bench->project));
  bw_project_undo (bench->project);
  assert_int_equal (bench_count (bench, 1), 0);
}

/* No pointer at all: a mirrored line, a block selected and copied, a rubbing out, and a colour by
 * its letter. */
static void
the_keyboard_alone_draws_mirrors_and_copies (void **state)
{
  Bench *bench = *state;
  int rows = bw_project_get_design (bench->project)->band.rows;
  bw_session_set_symmetry (bench->session, (BwLiveSymmetry){ { BW_FRIEZE_P1M1, 0, 20 }, FALSE });
  desk_key ("2", 0);
  assert_int_equal (bw_session_get_tool (bench->session), BW_TOOL_LINE);
  desk_key ("z", 0);
  desk_key ("Home", 0);
  desk_key ("space", 0);
  for (int i = 0; i < 3; i++)
    desk_key ("Right", 0);
  desk_key ("Return", 0);
  for (int row = 1; row <= 7; row += 2) {
    assert_int_equal (bench_cell (bench, row, 2), 2);
    assert_int_equal (bench_cell (bench, (40 - (row - 1)) % rows + 1, 2), 2);
  }
  assert_int_equal (bench_count (bench, 2), 8);
  bw_session_set_symmetry (bench->session, (BwLiveSymmetry){ .each_face = FALSE });
  desk_key ("Home", 0);
  for (int i = 0; i < 3; i++)
    desk_key ("Right", GDK_SHIFT_MASK);
  assert_int_equal (selected (bench), 4);
  desk_key ("c", GDK_CONTROL_MASK);
  for (int i = 0; i < 6; i++)
    desk_key ("Right", 0);
  desk_key ("v", GDK_CONTROL_MASK);
  desk_until (has_piece, bench);
  desk_key ("Return", 0);
  assert_int_equal (bench_count (bench, 2), 12);
  desk_key ("Delete", 0);
  assert_int_equal (bench_count (bench, 2), 8);
  desk_key ("Escape", 0);
  desk_key ("Home", 0);
  desk_key ("Delete", 0);
  assert_int_equal (bench_count (bench, 2), 7);
}

/* Dashes cross the beads where the axis runs. */
static void
the_axis_of_a_mirror_shows_on_the_canvas (void **state)
{
  Bench *bench = *state;
  double x, y;
  desk_move (GTK_WIDGET (bench->canvas), 500, 590);
  assert_true (bw_band_canvas_bead_point (bench->canvas, 21, 2, &x, &y));
  guint32 plain[40], marked = 0;
  for (int i = 0; i < 40; i++)
    plain[i] = desk_pixel (GTK_WIDGET (bench->canvas), x, y - 20 + i);
  bw_session_set_symmetry (bench->session, (BwLiveSymmetry){ { BW_FRIEZE_P1M1, 0, 20 }, FALSE });
  desk_rest ();
  for (int i = 0; i < 40; i++)
    marked += desk_pixel (GTK_WIDGET (bench->canvas), x, y - 20 + i) != plain[i];
  assert_true (marked >= 10);
}

/* What the project holds after a deed on a block that is selected. Owned. */
static char *
done_with (Bench *bench, BwBandDeed deed, gboolean tried)
{
  const BwDrawing *now = bw_project_get_drawing (bench->project);
  int columns = bw_drawing_columns (now), rows = bw_drawing_rows (now);
  g_autoptr (BwDrawing) other = bw_drawing_new (columns, rows, 2);
  BwRegion *region = bw_region_new (columns, rows);
  bw_region_add_box (region, 20, 27, 3, 8);
  bw_session_take_selection (bench->session, region);
  if (tried)
    assert_true (bw_project_try (bench->project, "Try", NULL, other, NULL));
  bw_band_canvas_do (bench->canvas, deed);
  desk_settle ();
  bw_session_settle (bench->session);
  char *data = bw_project_to_data (bench->project, NULL);
  bw_project_drop_trial (bench->project);
  bw_project_go_to (bench->project, 2); /* the tray and the stroke */
  return data;
}

static void
no_deed_begins_on_a_trial (void **state)
{
  Bench *bench = *state;
  drag (bench, BW_TOOL_LINE, 20, 3, 25, 8);
  assert_int_equal (bw_project_count_steps (bench->project), 2);
  for (BwBandDeed deed = BW_BAND_COPY; deed <= BW_BAND_TURN; deed++) {
    g_autofree char *plain = done_with (bench, deed, FALSE);
    g_autofree char *tried = done_with (bench, deed, TRUE);
    assert_string_equal (plain, tried);
  }
}

/* Above the band, where the view shows the stone. */
static void
press_beside (Bench *bench, BwToolKind tool, int button)
{
  double x, y;
  bw_session_set_tool (bench->session, tool);
  assert_true (bw_band_canvas_bead_point (bench->canvas, 21, 12, &x, &y));
  desk_click_at (GTK_WIDGET (bench->canvas), x, y - 40, button);
}

static void
a_press_that_can_do_nothing_says_why (void **state)
{
  Bench *bench = *state;
  press_beside (bench, BW_TOOL_FLOOD, 1);
  assert_string_equal (bench->status, "There is no bead here: press on the band.");
  press_beside (bench, BW_TOOL_PICK, 1);
  assert_string_equal (bench->status, "There is no bead here: press on the band.");
  press_beside (bench, BW_TOOL_BEAD, 1);
  assert_string_not_equal (bench->status, "There is no bead here: press on the band.");
  const BwDrawing *now = bw_project_get_drawing (bench->project);
  g_autoptr (BwDrawing) other = bw_drawing_new (bw_drawing_columns (now), bw_drawing_rows (now), 2);
  assert_true (bw_project_try (bench->project, "Try", NULL, other, NULL));
  press_beside (bench, BW_TOOL_BEAD, 1);
  assert_string_equal (bench->status, "There is no bead here; what is tried stays as it is.");
  assert_true (bw_project_has_trial (bench->project));
}

/* A colour that a picture would bring, and a deed in the middle of a stroke. */
static void
what_cannot_be_now_says_why (void **state)
{
  Bench *bench = *state;
  const BwDrawing *now = bw_project_get_drawing (bench->project);
  g_autoptr (BwDrawing) other = bw_drawing_new (bw_drawing_columns (now), bw_drawing_rows (now), 3);
  BwTray tray = *bw_project_get_tray (bench->project);
  tray.colour[3] = (BwColour){ 'q', "Own", 0x123456, BW_FINISH_MATTE };
  tray.n_colours = 4;
  assert_true (bw_project_try (bench->project, "Try", &tray, other, NULL));
  click (bench, BW_TOOL_PICK, 21, 6);
  assert_string_equal (bench->status, "This colour is only tried: lay it first.");
  assert_int_equal (bw_session_get_colour (bench->session), 1);
  pull (bench, BW_TOOL_LINE, 20, 3, 25, 8);
  bw_band_canvas_do (bench->canvas, BW_BAND_COPY);
  assert_string_equal (bench->status, "Let go of the mouse first.");
  desk_release (1);
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, bench_set_up, bench_tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (block_frame_and_line_follow_the_pointer),
    IN_WINDOW (flood_swap_and_pick_answer_a_click),
    IN_WINDOW (what_is_pulled_tells_its_size_until_it_is_let_go),
    IN_WINDOW (what_the_keys_pull_tells_its_size),
    IN_WINDOW (rubbing_out_follows_the_pointer),
    IN_WINDOW (a_selection_is_dragged_and_copied_with_control),
    IN_WINDOW (a_colour_is_selected_with_a_click_and_let_go_with_escape),
    IN_WINDOW (what_is_copied_is_pasted_walked_about_and_laid_down),
    IN_WINDOW (a_paste_that_would_break_the_half_drop_lands_beside_and_says_so),
    IN_WINDOW (a_paste_from_another_program_is_refused_with_a_sentence),
    IN_WINDOW (flips_and_turns_done_twice_are_nothing),
    IN_WINDOW (a_piece_in_the_air_is_dragged_and_laid_down_by_a_click_beside),
    IN_WINDOW (whoever_settles_the_session_lays_the_piece_down),
    IN_WINDOW (the_keyboard_alone_draws_mirrors_and_copies),
    IN_WINDOW (no_deed_begins_on_a_trial),
    IN_WINDOW (a_press_that_can_do_nothing_says_why),
    IN_WINDOW (what_cannot_be_now_says_why),
    IN_WINDOW (the_axis_of_a_mirror_shows_on_the_canvas),
  };
  g_setenv ("GTK_A11Y", "none", TRUE);
  g_setenv ("GSK_RENDERER", "cairo", FALSE);
  desk_open ();
  int failed = cmocka_run_group_tests (tests, NULL, NULL);
  desk_close ();
  return desk_end (failed);
}
