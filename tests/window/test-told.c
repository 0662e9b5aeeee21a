/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the Draw stage tells of what is not laid yet, and what its rulers and ends offer. */
#include "maker.h"

#include "app/draw/motif-panel.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#define TRIED "Only tried, not laid yet"
#define LAID "Laid on the band where it was: Escape takes it back."

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

static GtkWidget *
window_of (Maker *maker)
{
  return GTK_WIDGET (maker->window);
}

static BwBandCanvas *
canvas_of (Maker *maker)
{
  return BW_BAND_CANVAS (maker_find (maker, BW_TYPE_BAND_CANVAS));
}

static void
choose (Maker *maker, const char *words)
{
  maker_click_words (window_of (maker), words);
  desk_settle ();
}

/* --- Only tried --------------------------------------------------------------------------------
 */

static void
what_is_only_tried_is_told_over_the_band_and_in_the_status_line (void **state)
{
  Maker *maker = *state;
  assert_null (desk_look_for_label (window_of (maker), TRIED));
  choose (maker, "Motif");
  assert_non_null (desk_look_for_label (window_of (maker), TRIED));
  assert_non_null (desk_look_for_prefix (window_of (maker), "Only tried: “Lay on the Band” keeps"));
  double x, y;
  maker_bead_point (maker, 21, 4, &x, &y);
  desk_move (GTK_WIDGET (canvas_of (maker)), x, y);
  GtkWidget *status = desk_look_for_prefix (window_of (maker), "Row 21, column 4");
  assert_non_null (status);
  assert_true (g_str_has_suffix (gtk_label_get_text (GTK_LABEL (status)), "(only tried)"));
  desk_keep ("told-tried");
  choose (maker, "Leave It");
  assert_null (desk_look_for_label (window_of (maker), TRIED));
}

static int
height_of (Maker *maker, const char *words)
{
  int x, y;
  desk_point (desk_find_label (window_of (maker), words), 0, 0, &x, &y);
  return y;
}

/* Whatever kind is chosen, and however many colours it takes. */
static void
the_buttons_of_a_motif_stay_where_they_are (void **state)
{
  Maker *maker = *state;
  choose (maker, "Motif");
  int leave = height_of (maker, "Leave It"), lay = height_of (maker, "Lay on the Band");
  GtkWidget *kinds = desk_find_type (maker_find (maker, BW_TYPE_MOTIF_PANEL), GTK_TYPE_FLOW_BOX);
  for (int i = 0; i < BW_N_MOTIFS; i++) {
    desk_click (GTK_WIDGET (gtk_flow_box_get_child_at_index (GTK_FLOW_BOX (kinds), i)));
    assert_int_equal (height_of (maker, "Leave It"), leave);
    assert_int_equal (height_of (maker, "Lay on the Band"), lay);
  }
}

/* --- In the air --------------------------------------------------------------------------------
 */

/* A piece of six beads floats over the band. */
static void
lift_copy (Maker *maker)
{
  maker_drag_beads (maker, 21, 4, 31, 4);
  desk_key ("9", 0);
  maker_drag_beads (maker, 21, 4, 31, 4);
  desk_key ("Return", GDK_CONTROL_MASK);
  assert_true (bw_band_canvas_has_piece (canvas_of (maker)));
  desk_key ("Up", 0);
  desk_key ("Up", 0);
}

static void
a_piece_laid_by_a_press_elsewhere_is_told_and_comes_back (void **state)
{
  Maker *maker = *state;
  lift_copy (maker);
  maker_click_bead (maker, 61, 8);
  assert_false (bw_band_canvas_has_piece (canvas_of (maker)));
  assert_int_equal (maker_count (maker, 1), 12);
  assert_non_null (desk_look_for_label (window_of (maker), LAID));
  assert_string_equal (bw_project_undo_label (maker_project (maker)), "Copy beads");
  desk_keep ("told-laid");
  desk_key ("Escape", 0);
  assert_int_equal (maker_count (maker, 1), 6);
  assert_string_not_equal (bw_project_undo_label (maker_project (maker)), "Copy beads");
  assert_null (desk_look_for_label (window_of (maker), LAID));
}

/* The keyboard is in the tray then. */
static void
a_piece_laid_by_leaving_the_band_comes_back_too (void **state)
{
  Maker *maker = *state;
  lift_copy (maker);
  desk_key ("F6", 0);
  assert_false (bw_band_canvas_has_piece (canvas_of (maker)));
  assert_non_null (desk_look_for_label (window_of (maker), LAID));
  desk_key ("Escape", 0);
  assert_int_equal (maker_count (maker, 1), 6);
}

static void
escape_takes_back_no_step_that_came_after (void **state)
{
  Maker *maker = *state;
  lift_copy (maker);
  maker_click_bead (maker, 61, 8);
  desk_key ("1", 0);
  maker_click_bead (maker, 61, 8);
  assert_null (desk_look_for_label (window_of (maker), LAID));
  desk_key ("Escape", 0);
  assert_int_equal (maker_count (maker, 1), 13);
}

/* --- Rulers and ends ---------------------------------------------------------------------------
 */

static void
the_number_of_a_column_offers_what_is_done_with_columns (void **state)
{
  Maker *maker = *state;
  double x, y;
  maker_bead_point (maker, 21, 4, &x, &y);
  desk_click_at (GTK_WIDGET (canvas_of (maker)), 10, y, 3);
  desk_keep ("told-column");
  choose (maker, "Fill Column 4 with “Straw light”");
  assert_int_equal (maker_count (maker, 1), maker_design (maker)->band.rows / 2);
  assert_int_equal (maker_bead (maker, 21, 4), 1);
  assert_string_equal (bw_project_undo_label (maker_project (maker)), "Fill");
  desk_click_at (GTK_WIDGET (canvas_of (maker)), 10, y, 3);
  choose (maker, "Lock Column 4");
  assert_true (bw_session_is_locked (maker_session (maker), 4));
}

static void
the_number_of_a_row_offers_what_is_done_with_rows (void **state)
{
  Maker *maker = *state;
  const BwBandLayout *layout = bw_band_canvas_get_layout (canvas_of (maker));
  double x, y;
  for (int row = 21; row <= 22; row++) {
    maker_bead_point (maker, row, row == 21 ? 4 : 5, &x, &y);
    desk_click_at (GTK_WIDGET (canvas_of (maker)), x, layout->y + layout->height + 6, 3);
    g_autofree char *words = g_strdup_printf ("Select Row %d", row);
    choose (maker, words);
    const BwRegion *region = bw_session_get_selection (maker_session (maker));
    assert_non_null (region);
    assert_int_equal (bw_region_count (region), maker_design (maker)->band.columns / 2);
    assert_true (bw_region_has (region, row, row == 21 ? 4 : 5));
  }
}

typedef struct {
  const BwBandLayout *layout;
  double roll;
} Rolled;

static gboolean
has_rolled_on (gpointer data)
{
  const Rolled *rolled = data;
  return rolled->layout->roll > rolled->roll + 2;
}

/* Held at the end of the canvas, not beyond it: a canvas may end where the screen does. */
static void
a_stroke_held_at_the_end_of_the_canvas_rolls_on (void **state)
{
  Maker *maker = *state;
  GtkWidget *canvas = GTK_WIDGET (canvas_of (maker));
  const BwBandLayout *layout = bw_band_canvas_get_layout (canvas_of (maker));
  bw_band_canvas_set_zoom (canvas_of (maker), 8);
  desk_settle ();
  double end = layout->x + layout->width - 4, y = layout->y + layout->height / 2;
  Rolled rolled = { layout, layout->roll };
  desk_move (canvas, end - 60, y);
  desk_press (1);
  for (double x = end - 50; x <= end; x += 10)
    desk_move (canvas, x, y);
  desk_until (has_rolled_on, &rolled);
  desk_release (1);
  assert_true (maker_count (maker, 1) >= 3); /* two pitches and the bead it began on */
  /* One that begins there is meant for the beads that lie there. */
  int laid = maker_count (maker, 1);
  double roll = layout->roll;
  desk_drag (canvas, end - 3, y, end, y, 2, 1);
  desk_rest ();
  assert_true (layout->roll == roll);
  assert_true (maker_count (maker, 1) <= laid + 2);
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up, maker_tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (what_is_only_tried_is_told_over_the_band_and_in_the_status_line),
    IN_WINDOW (the_buttons_of_a_motif_stay_where_they_are),
    IN_WINDOW (a_piece_laid_by_a_press_elsewhere_is_told_and_comes_back),
    IN_WINDOW (a_piece_laid_by_leaving_the_band_comes_back_too),
    IN_WINDOW (escape_takes_back_no_step_that_came_after),
    IN_WINDOW (the_number_of_a_column_offers_what_is_done_with_columns),
    IN_WINDOW (the_number_of_a_row_offers_what_is_done_with_rows),
    IN_WINDOW (a_stroke_held_at_the_end_of_the_canvas_rolls_on),
  };
  return maker_run (tests);
}
