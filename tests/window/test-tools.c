/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every tool in the program's window: taken from the row under the band with a click, used on the
 * band with the pointer, its words read in the status line. */
#include "maker.h"

#include "app/draw/tool-strip.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

/* Rows 21 to 26, columns 4 to 7: two beads in each row. */
#define BLOCK 12

static int
set_up (void **state)
{
  Maker *maker = g_new0 (Maker, 1);
  maker_start (maker, NULL);
  maker_stage (maker, "draw");
  maker_take_colour (maker, 1);
  *state = maker;
  return 0;
}

static gboolean
is_tool (GtkWidget *widget, gconstpointer name)
{
  const char *tip = gtk_widget_get_tooltip_text (widget);
  return GTK_IS_TOGGLE_BUTTON (widget) && tip && g_str_has_prefix (tip, name)
         && tip[strlen (name)] == ':';
}

static void
take_tool (Maker *maker, const char *name)
{
  GtkWidget *button = desk_look_for (maker_find (maker, BW_TYPE_TOOL_STRIP), is_tool, name);
  if (!button)
    fail_msg ("no tool is called %s", name);
  desk_click (button);
}

static const char *
last_step (Maker *maker)
{
  return bw_project_undo_label (maker_project (maker));
}

static void
expect_status (Maker *maker, const char *beginning)
{
  if (!desk_look_for_prefix (GTK_WIDGET (maker->window), beginning))
    fail_msg ("the status line does not begin with “%s”", beginning);
}

static int
selected (Maker *maker)
{
  const BwRegion *region = bw_session_get_selection (maker_session (maker));
  return region ? bw_region_count (region) : 0;
}

static void
undo (Maker *maker)
{
  desk_key ("z", GDK_CONTROL_MASK);
  assert_int_equal (maker_count (maker, 1), 0);
}

static void
lay_block (Maker *maker)
{
  take_tool (maker, "Block");
  maker_drag_beads (maker, 21, 4, 26, 7);
  assert_int_equal (maker_count (maker, 1), BLOCK);
}

static void
line_block_and_frame_are_pulled (void **state)
{
  Maker *maker = *state;
  take_tool (maker, "Line");
  maker_drag_beads (maker, 21, 4, 26, 9);
  assert_int_equal (maker_count (maker, 1), 6);
  assert_string_equal (last_step (maker), "Draw a line");
  undo (maker);
  lay_block (maker);
  assert_string_equal (last_step (maker), "Fill a block");
  undo (maker);
  take_tool (maker, "Frame");
  maker_drag_beads (maker, 21, 4, 32, 9);
  assert_int_equal (maker_count (maker, 1), 20);
  assert_int_equal (maker_bead (maker, 27, 6), 0);
  assert_string_equal (last_step (maker), "Draw a frame");
}

static void
the_size_is_told_while_a_line_is_pulled (void **state)
{
  Maker *maker = *state;
  GtkWidget *canvas = maker_find (maker, BW_TYPE_BAND_CANVAS);
  double x, y;
  take_tool (maker, "Line");
  maker_bead_point (maker, 21, 4, &x, &y);
  desk_move (canvas, x, y);
  desk_press (1);
  maker_bead_point (maker, 26, 9, &x, &y);
  desk_move (canvas, x, y);
  expect_status (maker, "6 beads — Row 26, column 9, ");
  desk_keep ("tools-size");
  desk_release (1);
  expect_status (maker, "Row 26, column 9, ");
}

static void
flood_swap_and_pick_answer_a_click (void **state)
{
  Maker *maker = *state;
  take_tool (maker, "Frame");
  maker_drag_beads (maker, 21, 4, 32, 9);
  desk_key ("c", 0);
  take_tool (maker, "Flood");
  maker_click_bead (maker, 27, 6);
  assert_int_equal (maker_count (maker, 2), 16);
  assert_int_equal (maker_count (maker, 1), 20);
  take_tool (maker, "Recolour");
  maker_click_bead (maker, 21, 4);
  assert_int_equal (maker_count (maker, 2), 36);
  assert_string_equal (last_step (maker), "Recolour beads");
  take_tool (maker, "Pick");
  maker_click_bead (maker, 41, 4);
  assert_int_equal (bw_session_get_colour (maker_session (maker)), 0);
  assert_int_equal (bw_session_get_tool (maker_session (maker)), BW_TOOL_BEAD);
}

static void
beads_are_laid_and_rubbed_out (void **state)
{
  Maker *maker = *state;
  take_tool (maker, "Bead");
  maker_drag_beads (maker, 21, 4, 31, 4);
  assert_int_equal (maker_count (maker, 1), 6);
  take_tool (maker, "Rub out");
  maker_drag_beads (maker, 23, 4, 27, 4);
  assert_int_equal (maker_count (maker, 1), 3);
  assert_string_equal (last_step (maker), "Rub out");
}

static void
a_block_is_selected_and_dragged_elsewhere (void **state)
{
  Maker *maker = *state;
  lay_block (maker);
  take_tool (maker, "Select");
  maker_drag_beads (maker, 21, 4, 26, 7);
  assert_int_equal (selected (maker), BLOCK);
  maker_drag_beads (maker, 23, 6, 44, 7);
  assert_int_equal (maker_count (maker, 1), BLOCK);
  assert_int_equal (maker_bead (maker, 23, 6), 0);
  assert_int_equal (maker_bead (maker, 44, 7), 1);
  assert_string_equal (last_step (maker), "Move beads");
}

static void
a_colour_is_selected_and_cut (void **state)
{
  Maker *maker = *state;
  lay_block (maker);
  take_tool (maker, "Same colour");
  maker_click_bead (maker, 23, 4);
  assert_int_equal (selected (maker), BLOCK);
  maker_click_words (GTK_WIDGET (maker->window), "Selection");
  maker_click_words (GTK_WIDGET (maker->window), "Cut");
  desk_settle ();
  assert_int_equal (maker_count (maker, 1), 0);
  assert_string_equal (last_step (maker), "Cut");
}

static gboolean
has_piece (gpointer maker)
{
  return bw_band_canvas_has_piece (BW_BAND_CANVAS (maker_find (maker, BW_TYPE_BAND_CANVAS)));
}

/* Two beads whose box begins on a gap cannot land on the bead pointed at. */
static void
a_copy_lands_by_the_half_drop_and_says_so (void **state)
{
  Maker *maker = *state;
  double x, y;
  take_tool (maker, "Line");
  maker_drag_beads (maker, 21, 6, 22, 5);
  assert_int_equal (maker_count (maker, 1), 2);
  take_tool (maker, "Same colour");
  maker_click_bead (maker, 21, 6);
  desk_key ("c", GDK_CONTROL_MASK);
  expect_status (maker, "2 beads copied.");
  maker_bead_point (maker, 41, 4, &x, &y);
  desk_move (maker_find (maker, BW_TYPE_BAND_CANVAS), x, y);
  desk_key ("v", GDK_CONTROL_MASK);
  desk_until (has_piece, maker);
  expect_status (maker, "Moved by one row, so that the beads interlock.");
  assert_int_equal (maker_count (maker, 1), 4);
  desk_keep ("tools-paste");
  desk_key ("Return", 0);
  assert_false (has_piece (maker));
  assert_string_equal (last_step (maker), "Paste");
}

static void
what_another_program_copied_is_refused_with_a_sentence (void **state)
{
  Maker *maker = *state;
  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (maker->window)), "Dear customer");
  desk_key ("v", GDK_CONTROL_MASK);
  desk_settle ();
  assert_false (has_piece (maker));
  expect_status (maker, "There are no beads to paste: what was copied is something else.");
  assert_int_equal (bw_project_count_steps (maker_project (maker)), 0);
}

/* The keyboard is in the tray after a click there; colours and tools answer all the same. */
static void
letters_and_digits_answer_beside_the_band (void **state)
{
  Maker *maker = *state;
  assert_false (gtk_widget_has_focus (maker_find (maker, BW_TYPE_BAND_CANVAS)));
  desk_key ("d", 0);
  assert_int_equal (bw_session_get_colour (maker_session (maker)), 3);
  desk_key ("4", 0);
  assert_int_equal (bw_session_get_tool (maker_session (maker)), BW_TOOL_FRAME);
}

/* By the key and by the menu: each undoes the other. */
static void
flips_and_turns_are_done_by_key_and_by_menu (void **state)
{
  static const struct {
    const char *key, *item, *step;
  } deeds[] = {
    { "r", "Flip Round the Stone", "Flip beads" },
    { "u", "Flip Up and Down", "Flip beads" },
    { "t", "Half-Turn", "Turn beads" },
  };
  Maker *maker = *state;
  take_tool (maker, "Line");
  maker_drag_beads (maker, 21, 4, 31, 4);
  maker_drag_beads (maker, 21, 4, 26, 9);
  take_tool (maker, "Select");
  maker_drag_beads (maker, 21, 4, 32, 9);
  g_autoptr (BwDrawing) before = bw_drawing_copy (bw_project_get_drawing (maker_project (maker)));
  for (gsize i = 0; i < G_N_ELEMENTS (deeds); i++) {
    desk_key (deeds[i].key, GDK_CONTROL_MASK);
    assert_string_equal (last_step (maker), deeds[i].step);
    assert_false (bw_drawing_equal (before, bw_project_get_drawing (maker_project (maker))));
    maker_click_words (GTK_WIDGET (maker->window), "Selection");
    maker_click_words (GTK_WIDGET (maker->window), deeds[i].item);
    desk_settle ();
    assert_true (bw_drawing_equal (before, bw_project_get_drawing (maker_project (maker))));
  }
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up, maker_tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (line_block_and_frame_are_pulled),
    IN_WINDOW (the_size_is_told_while_a_line_is_pulled),
    IN_WINDOW (flood_swap_and_pick_answer_a_click),
    IN_WINDOW (beads_are_laid_and_rubbed_out),
    IN_WINDOW (a_block_is_selected_and_dragged_elsewhere),
    IN_WINDOW (a_colour_is_selected_and_cut),
    IN_WINDOW (a_copy_lands_by_the_half_drop_and_says_so),
    IN_WINDOW (what_another_program_copied_is_refused_with_a_sentence),
    IN_WINDOW (letters_and_digits_answer_beside_the_band),
    IN_WINDOW (flips_and_turns_are_done_by_key_and_by_menu),
  };
  return maker_run (tests);
}
