/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One stroke is one step of undo, Escape takes it back, and a ghost is its bead. */
#include "core/base/lattice.h"
#include "editor/tool/hand.h"
#include "editor/tool/toolbox.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>

typedef struct {
  BwProject *project;
  BwSession *session;
  BwHand *hand;
  BwBandLayout layout;
} Desk;

static int
set_up (void **state)
{
  Desk *desk = g_new0 (Desk, 1);
  desk->project = bw_project_new ();
  BwTray tray = *bw_project_get_tray (desk->project);
  tray.n_colours = 3;
  tray.colour[1] = (BwColour){ 'y', "Lamp glass", 0xe9c46a, BW_FINISH_CLEAR };
  tray.colour[2] = (BwColour){ 'z', "Buoy", 0xb23a48, BW_FINISH_OPAQUE };
  if (!bw_project_set_tray (desk->project, "Tray", &tray, NULL))
    return -1;
  desk->session = bw_session_new (desk->project);
  bw_session_set_colour (desk->session, 1);
  desk->hand = bw_hand_new (desk->session);
  const BwDesign *design = bw_project_get_design (desk->project);
  desk->layout = (BwBandLayout){ .columns = design->band.columns,
                                 .rows = design->band.rows,
                                 .pitch_mm = 1.6,
                                 .column_mm = 1.3,
                                 .zoom = 1 };
  *state = desk;
  return 0;
}

static int
tear_down (void **state)
{
  Desk *desk = *state;
  bw_hand_free (desk->hand);
  g_object_unref (desk->session);
  g_assert_finalize_object (desk->project);
  g_free (desk);
  return 0;
}

static guint8
cell (Desk *desk, int row, int column)
{
  return bw_drawing_get (bw_project_get_drawing (desk->project), row, column);
}

static void
press (Desk *desk, const BwTool *tool, int long_row, int column)
{
  bw_hand_begin (desk->hand, tool, &desk->layout, bw_band_middle (long_row, column));
}

static int
count (Desk *desk, guint8 colour)
{
  guint64 counts[256] = { 0 };
  bw_drawing_count (bw_project_get_drawing (desk->project), counts);
  return (int)counts[colour];
}

static void
one_stroke_is_one_undo_step (void **state)
{
  Desk *desk = *state;
  g_autoptr (BwDrawing) before = bw_drawing_copy (bw_project_get_drawing (desk->project));

  press (desk, &bw_tool_bead, 3, 2);
  bw_hand_update (desk->hand, bw_band_middle (9, 8));
  bw_hand_update (desk->hand, bw_band_middle (21, 4));
  bw_hand_end (desk->hand, bw_band_middle (24, 5));
  assert_false (bw_hand_busy (desk->hand));
  assert_true (count (desk, 1) >= 12);
  assert_string_equal (bw_project_undo_label (desk->project), "Draw beads");

  bw_project_undo (desk->project);
  assert_true (bw_drawing_equal (before, bw_project_get_drawing (desk->project)));
  assert_string_not_equal (bw_project_undo_label (desk->project), "Draw beads");
  bw_project_redo (desk->project);
  assert_int_equal (cell (desk, 3, 2), 1);
  assert_int_equal (cell (desk, 24, 5), 1);
}

static void
escape_during_a_stroke_reverts_it (void **state)
{
  Desk *desk = *state;
  g_autoptr (BwDrawing) before = bw_drawing_copy (bw_project_get_drawing (desk->project));
  g_autofree char *label = g_strdup (bw_project_undo_label (desk->project));

  press (desk, &bw_tool_bead, 3, 2);
  bw_hand_update (desk->hand, bw_band_middle (21, 4));
  assert_true (count (desk, 1) > 5);
  bw_hand_revert (desk->hand);
  assert_true (bw_drawing_equal (before, bw_project_get_drawing (desk->project)));

  /* The button is still down: what follows until it is let go draws nothing. */
  bw_hand_update (desk->hand, bw_band_middle (9, 8));
  bw_hand_end (desk->hand, bw_band_middle (9, 8));
  assert_true (bw_drawing_equal (before, bw_project_get_drawing (desk->project)));
  assert_string_equal (bw_project_undo_label (desk->project), label);
  assert_false (bw_project_can_redo (desk->project));
}

static void
a_click_sets_one_bead (void **state)
{
  Desk *desk = *state;
  press (desk, &bw_tool_bead, 12, 5);
  bw_hand_end (desk->hand, bw_band_middle (12, 5));
  assert_int_equal (count (desk, 1), 1);
  assert_int_equal (cell (desk, 12, 5), 1);
}

static void
drawing_on_ghosts_sets_the_real_beads (void **state)
{
  Desk *desk = *state;
  int rows = desk->layout.rows;
  assert_int_equal (rows % 2, 0);

  /* From the last rows over the join into the first, on the ghosts to the right. */
  press (desk, &bw_tool_bead, rows - 1, 4);
  bw_hand_update (desk->hand, bw_band_middle (rows + 3, 4));
  bw_hand_end (desk->hand, bw_band_middle (rows + 3, 4));
  assert_int_equal (count (desk, 1), 3);
  assert_int_equal (cell (desk, rows - 1, 4), 1);
  assert_int_equal (cell (desk, 1, 4), 1);
  assert_int_equal (cell (desk, 3, 4), 1);

  /* Seven turns to the left it is still the same band. */
  bw_session_set_colour (desk->session, 2);
  press (desk, &bw_tool_bead, 3 - 7 * rows, 4);
  bw_hand_end (desk->hand, bw_band_middle (3 - 7 * rows, 4));
  assert_int_equal (cell (desk, 3, 4), 2);
}

static void
a_stroke_shows_while_it_is_drawn (void **state)
{
  Desk *desk = *state;
  press (desk, &bw_tool_bead, 3, 2);
  assert_int_equal (cell (desk, 3, 2), 1);
  bw_hand_update (desk->hand, bw_band_middle (7, 2));
  assert_int_equal (cell (desk, 5, 2), 1);
  bw_hand_end (desk->hand, bw_band_middle (7, 2));
}

static void
a_stroke_of_the_ground_s_own_colour_is_no_step (void **state)
{
  Desk *desk = *state;
  bw_session_set_colour (desk->session, cell (desk, 3, 2));
  g_autofree char *label = g_strdup (bw_project_undo_label (desk->project));
  press (desk, &bw_tool_bead, 3, 2);
  bw_hand_end (desk->hand, bw_band_middle (3, 2));
  assert_string_equal (bw_project_undo_label (desk->project), label);
}

static void
picking_takes_the_colour_and_leaves_no_step (void **state)
{
  Desk *desk = *state;
  bw_project_set_bead (desk->project, "One bead", FALSE, 12, 5, 2);
  bw_session_set_tool (desk->session, BW_TOOL_PICK);
  press (desk, bw_tool_get (BW_TOOL_PICK), 12, 5);
  assert_int_equal (bw_session_get_colour (desk->session), 2);
  bw_hand_end (desk->hand, bw_band_middle (12, 5));
  assert_string_equal (bw_project_undo_label (desk->project), "One bead");
  assert_int_equal (bw_session_get_tool (desk->session), BW_TOOL_BEAD);
}

static void
picking_off_the_band_keeps_the_colour (void **state)
{
  Desk *desk = *state;
  BwBandPoint above = { 3, desk->layout.columns + 2 };
  bw_hand_begin (desk->hand, &bw_tool_pick, &desk->layout, above);
  bw_hand_end (desk->hand, above);
  assert_int_equal (bw_session_get_colour (desk->session), 1);
}

static void
a_new_press_finishes_what_was_under_way (void **state)
{
  Desk *desk = *state;
  press (desk, &bw_tool_bead, 3, 2);
  press (desk, &bw_tool_bead, 9, 2);
  bw_hand_end (desk->hand, bw_band_middle (9, 2));
  bw_project_undo (desk->project);
  assert_int_equal (cell (desk, 3, 2), 1);
  assert_int_not_equal (cell (desk, 9, 2), 1);
}

static void
a_hand_that_goes_away_reverts (void **state)
{
  Desk *desk = *state;
  press (desk, &bw_tool_bead, 3, 2);
  bw_hand_free (desk->hand);
  assert_int_equal (count (desk, 1), 0);
  assert_false (bw_project_in_step (desk->project));
  desk->hand = bw_hand_new (desk->session);
}

/* The same stroke cut into any number of moves leaves the same drawing. */
static void
a_stroke_is_the_same_however_few_moves_arrive (void **state)
{
  Desk *desk = *state;
  g_autoptr (GRand) rand = g_rand_new_with_seed (31);
  for (int trial = 0; trial < 40; trial++) {
    BwBandPoint from = { g_rand_double_range (rand, -30, 30), g_rand_double_range (rand, 0, 12) };
    BwBandPoint to = { g_rand_double_range (rand, -30, 30), g_rand_double_range (rand, 0, 12) };
    int pieces = g_rand_int_range (rand, 2, 60);

    bw_hand_begin (desk->hand, &bw_tool_bead, &desk->layout, from);
    bw_hand_end (desk->hand, to);
    g_autoptr (BwDrawing) whole = bw_drawing_copy (bw_project_get_drawing (desk->project));
    bw_project_undo (desk->project);

    bw_hand_begin (desk->hand, &bw_tool_bead, &desk->layout, from);
    for (int i = 1; i < pieces; i++)
      bw_hand_update (desk->hand, (BwBandPoint){ from.u + (to.u - from.u) * i / pieces,
                                                 from.v + (to.v - from.v) * i / pieces });
    bw_hand_end (desk->hand, to);
    assert_true (bw_drawing_equal (whole, bw_project_get_drawing (desk->project)));
    bw_project_undo (desk->project);
  }
}

static void
a_line_is_shown_while_it_is_pulled_and_is_one_step (void **state)
{
  Desk *desk = *state;
  press (desk, &bw_tool_line, 11, 2);
  bw_hand_update (desk->hand, bw_band_middle (31, 2));
  assert_int_equal (count (desk, 1), 11);
  bw_hand_update (desk->hand, bw_band_middle (15, 6));
  /* What the pull showed on its way is gone again. */
  assert_int_equal (count (desk, 1), 5);
  bw_hand_end (desk->hand, bw_band_middle (20, 11));
  assert_int_equal (count (desk, 1), 10);
  assert_int_equal (cell (desk, 11, 2), 1);
  assert_int_equal (cell (desk, 20, 11), 1);
  assert_string_equal (bw_project_undo_label (desk->project), "Draw a line");
  bw_project_undo (desk->project);
  assert_int_equal (count (desk, 1), 0);
}

static void
a_line_runs_on_over_the_join (void **state)
{
  Desk *desk = *state;
  int rows = desk->layout.rows;
  press (desk, &bw_tool_line, rows - 3, 2);
  bw_hand_end (desk->hand, bw_band_middle (rows + 5, 2));
  assert_int_equal (count (desk, 1), 5);
  assert_int_equal (cell (desk, rows - 3, 2), 1);
  assert_int_equal (cell (desk, 5, 2), 1);
}

static void
a_line_pulled_off_the_band_stays_on_its_edge (void **state)
{
  Desk *desk = *state;
  int top = desk->layout.columns;
  BwBandPoint above = bw_band_middle (21, top);
  above.v += 40;
  press (desk, &bw_tool_line, 11, 2);
  bw_hand_end (desk->hand, above);
  assert_int_equal (cell (desk, 21, top), 1);
}

static void
a_pulled_shape_can_be_taken_back (void **state)
{
  Desk *desk = *state;
  const BwTool *tools[] = { &bw_tool_line, &bw_tool_rectangle, &bw_tool_flood };
  for (gsize i = 0; i < G_N_ELEMENTS (tools); i++) {
    g_autofree char *label = g_strdup (bw_project_undo_label (desk->project));
    press (desk, tools[i], 11, 2);
    bw_hand_update (desk->hand, bw_band_middle (31, 6));
    assert_true (count (desk, 1) > 0);
    bw_hand_revert (desk->hand);
    assert_int_equal (count (desk, 1), 0);
    assert_string_equal (bw_project_undo_label (desk->project), label);
  }
}

static void
a_rectangle_fills_its_rows_and_columns (void **state)
{
  Desk *desk = *state;
  press (desk, &bw_tool_rectangle, 30, 9);
  bw_hand_update (desk->hand, bw_band_middle (50, 11));
  bw_hand_end (desk->hand, bw_band_middle (21, 4));
  for (int row = 1; row <= desk->layout.rows; row++)
    for (int column = 1; column <= desk->layout.columns; column++)
      if (bw_lattice_has (row, column))
        assert_int_equal (cell (desk, row, column) == 1,
                          row >= 21 && row <= 30 && column >= 4 && column <= 9);
  assert_string_equal (bw_project_undo_label (desk->project), "Fill a block");
}

static void
a_rectangle_of_many_turns_is_one_turn (void **state)
{
  Desk *desk = *state;
  press (desk, &bw_tool_rectangle, 3, 4);
  bw_hand_end (desk->hand, bw_band_middle (3 + 9 * desk->layout.rows, 4));
  assert_int_equal (count (desk, 1), desk->layout.rows / 2);
}

/* A wall all round along column 6 parts the band in two. */
static void
a_flood_stops_at_another_colour_and_crosses_the_join (void **state)
{
  Desk *desk = *state;
  int rows = desk->layout.rows, columns = desk->layout.columns;
  bw_session_set_colour (desk->session, 2);
  press (desk, &bw_tool_line, 1, 6);
  bw_hand_end (desk->hand, bw_band_middle (rows - 1, 6));
  bw_session_set_colour (desk->session, 1);
  press (desk, &bw_tool_flood, rows - 1, 2);
  bw_hand_end (desk->hand, bw_band_middle (rows - 1, 2));
  /* In a half-drop lattice the wall's neighbours touch each other past it only above and below. */
  for (int row = 1; row <= rows; row++)
    for (int column = 1; column <= columns; column++)
      if (bw_lattice_has (row, column))
        assert_int_equal (cell (desk, row, column), column < 6 ? 1 : column == 6 ? 2 : 0);
  assert_string_equal (bw_project_undo_label (desk->project), "Flood");
}

static void
a_flood_of_odd_rows_runs_on_where_the_ends_touch (void **state)
{
  Desk *desk = *state;
  BwDesign design = *bw_project_get_design (desk->project);
  design.band.rows = 41;
  assert_true (bw_project_set_design (desk->project, "Rows", &design, NULL));
  desk->layout.rows = 41;
  /* A wall across the band: rows 20 and 21 are one zigzag of beads from edge to edge. */
  bw_session_set_colour (desk->session, 2);
  press (desk, &bw_tool_rectangle, 20, 1);
  bw_hand_end (desk->hand, bw_band_middle (21, desk->layout.columns));
  bw_session_set_colour (desk->session, 1);
  press (desk, &bw_tool_flood, 3, 2);
  bw_hand_end (desk->hand, bw_band_middle (3, 2));
  assert_int_equal (cell (desk, 19, 2), 1);
  /* The rows beyond the wall are reached over the join, where row 41 touches row 1. */
  assert_int_equal (cell (desk, 41, 2), 1);
  assert_int_equal (cell (desk, 40, 1), 1);
  assert_int_equal (cell (desk, 22, 1), 1);
}

static void
flooding_with_the_colour_already_there_is_no_step (void **state)
{
  Desk *desk = *state;
  g_autofree char *label = g_strdup (bw_project_undo_label (desk->project));
  bw_session_set_colour (desk->session, 0);
  press (desk, &bw_tool_flood, 11, 2);
  bw_hand_end (desk->hand, bw_band_middle (11, 2));
  assert_string_equal (bw_project_undo_label (desk->project), label);
}

static void
every_kind_of_tool_has_its_own_file (void **state)
{
  for (BwToolKind kind = BW_TOOL_BEAD; kind <= BW_TOOL_FLOOD; kind++)
    assert_int_equal (bw_tool_get (kind)->kind, kind);
}

/* One stroke with a tool, on a project of its own; what it holds afterwards is owned. */
static char *
drawn_with (const BwTool *tool, gboolean tried)
{
  Desk *desk;
  assert_int_equal (set_up ((void **)(void *)&desk), 0);
  bw_project_set_bead (desk->project, "Spot", FALSE, 3, 2, 2);
  g_autoptr (BwRegion) box = bw_region_new (desk->layout.columns, desk->layout.rows);
  bw_region_add_box (box, 1, 6, 1, 4);
  bw_session_take_selection (desk->session, g_steal_pointer (&box));
  g_autoptr (BwDrawing) other = bw_drawing_new (desk->layout.columns, desk->layout.rows, 2);
  if (tried)
    assert_true (bw_project_try (desk->project, "Try", NULL, other, NULL));
  press (desk, tool, 3, 2);
  bw_hand_update (desk->hand, bw_band_middle (9, 4));
  bw_hand_end (desk->hand, bw_band_middle (9, 4));
  char *data = bw_project_to_data (desk->project, NULL);
  assert_int_equal (tear_down ((void **)(void *)&desk), 0);
  return data;
}

static void
no_tool_begins_on_a_trial (void **state)
{
  for (BwToolKind kind = 0; kind < BW_N_TOOLS; kind++) {
    g_autofree char *plain = drawn_with (bw_tool_get (kind), FALSE);
    g_autofree char *tried = drawn_with (bw_tool_get (kind), TRUE);
    assert_string_equal (plain, tried);
  }
}

/* What is seen is picked up, but never a colour that only the trial brings. */
static void
a_colour_of_the_trial_alone_is_not_picked_up (void **state)
{
  Desk *desk = *state;
  BwTray tray = *bw_project_get_tray (desk->project);
  tray.colour[3] = (BwColour){ 'q', "Own", 0x123456, BW_FINISH_MATTE };
  tray.n_colours = 4;
  g_autoptr (BwDrawing) other = bw_drawing_new (desk->layout.columns, desk->layout.rows, 3);
  bw_drawing_set (other, 3, 2, 2);
  assert_true (bw_project_try (desk->project, "Try", &tray, other, NULL));
  bw_tool_pick_up (desk->session, (BwBeadAt){ 5, 2 });
  assert_int_equal (bw_session_get_colour (desk->session), 1);
  bw_tool_pick_up (desk->session, (BwBeadAt){ 3, 2 });
  assert_int_equal (bw_session_get_colour (desk->session), 2);
  assert_true (bw_project_has_trial (desk->project));
}

int
main (void)
{
#define WITH_DESK(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    WITH_DESK (one_stroke_is_one_undo_step),
    WITH_DESK (escape_during_a_stroke_reverts_it),
    WITH_DESK (a_click_sets_one_bead),
    WITH_DESK (drawing_on_ghosts_sets_the_real_beads),
    WITH_DESK (a_stroke_shows_while_it_is_drawn),
    WITH_DESK (a_stroke_of_the_ground_s_own_colour_is_no_step),
    WITH_DESK (picking_takes_the_colour_and_leaves_no_step),
    WITH_DESK (picking_off_the_band_keeps_the_colour),
    WITH_DESK (a_new_press_finishes_what_was_under_way),
    WITH_DESK (a_hand_that_goes_away_reverts),
    WITH_DESK (a_stroke_is_the_same_however_few_moves_arrive),
    WITH_DESK (a_line_is_shown_while_it_is_pulled_and_is_one_step),
    WITH_DESK (a_line_runs_on_over_the_join),
    WITH_DESK (a_line_pulled_off_the_band_stays_on_its_edge),
    WITH_DESK (a_pulled_shape_can_be_taken_back),
    WITH_DESK (a_rectangle_fills_its_rows_and_columns),
    WITH_DESK (a_rectangle_of_many_turns_is_one_turn),
    WITH_DESK (a_flood_stops_at_another_colour_and_crosses_the_join),
    WITH_DESK (a_flood_of_odd_rows_runs_on_where_the_ends_touch),
    WITH_DESK (flooding_with_the_colour_already_there_is_no_step),
    WITH_DESK (every_kind_of_tool_has_its_own_file),
    cmocka_unit_test (no_tool_begins_on_a_trial),
    WITH_DESK (a_colour_of_the_trial_alone_is_not_picked_up),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
