/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Strokes under a live symmetry: what they make has it, what they take back is gone, and all of it
 * is one step. */
#include "editor/tool/hand.h"
#include "editor/tool/toolbox.h"
#include "editor/tool/piece.h"

#include "core/base/lattice.h"
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>
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
  tray.colour[1] = (BwColour){ '1', "Lamp", 0xe9c46a, BW_FINISH_CLEAR };
  tray.colour[2] = (BwColour){ '2', "Buoy", 0xb23a48, BW_FINISH_CLEAR };
  assert_true (bw_project_set_tray (desk->project, "Tray", &tray, NULL));
  BwDesign design = *bw_project_get_design (desk->project);
  design.band.rows = 90;
  assert_true (bw_project_set_design (desk->project, "Rows", &design, NULL));
  desk->session = bw_session_new (desk->project);
  bw_session_set_colour (desk->session, 1);
  desk->hand = bw_hand_new (desk->session);
  desk->layout = (BwBandLayout){
    .columns = design.band.columns,
    .rows = design.band.rows,
    .pitch_mm = design.gauge.pitch_mm,
    .column_mm = design.gauge.column_mm,
    .zoom = 1,
  };
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

static const BwDrawing *
drawing (Desk *desk)
{
  return bw_project_get_drawing (desk->project);
}

static BwBandPoint
random_point (Desk *desk, GRand *dice)
{
  int row = g_rand_int_range (dice, 1, desk->layout.rows + 1);
  int column = bw_lattice_column (row, g_rand_int_range (dice, 0, desk->layout.columns / 2));
  return bw_band_middle (row, column);
}

static void
pull (Desk *desk, const BwTool *tool, BwBandPoint from, BwBandPoint to)
{
  bw_hand_begin (desk->hand, tool, &desk->layout, from);
  bw_hand_end (desk->hand, to);
}

static void
every_tool_draws_what_has_the_symmetry (void **state)
{
  static const BwSymmetry friezes[]
      = { { BW_FRIEZE_P1, 18, 0 },   { BW_FRIEZE_P1M1, 0, 12 }, { BW_FRIEZE_P2, 30, 7 },
          { BW_FRIEZE_P11G, 10, 0 }, { BW_FRIEZE_P11G, 0, 0 },  { BW_FRIEZE_P2MG, 18, 4 },
          { BW_FRIEZE_P1, 14, 0 },   { BW_FRIEZE_P1M1, 16, 3 } };
  const BwTool *const tools[] = { &bw_tool_bead,  &bw_tool_line, &bw_tool_rectangle, &bw_tool_frame,
                                  &bw_tool_flood, &bw_tool_swap, &bw_tool_erase };
  Desk *desk = *state;
  g_autoptr (GRand) dice = g_rand_new_with_seed (81);
  g_autoptr (BwDrawing) plain = bw_drawing_copy (drawing (desk));
  for (gsize i = 0; i < G_N_ELEMENTS (friezes); i++) {
    bw_session_set_symmetry (desk->session, (BwLiveSymmetry){ friezes[i], FALSE });
    assert_true (bw_project_set_drawing (desk->project, "Plain", FALSE, plain, NULL));
    for (int stroke = 0; stroke < 40; stroke++) {
      BwBandPoint from = random_point (desk, dice), to = random_point (desk, dice);
      bw_session_set_colour (desk->session, g_rand_int_range (dice, 0, 3));
      pull (desk, tools[g_rand_int_range (dice, 0, G_N_ELEMENTS (tools))], from, to);
      assert_true (bw_symmetry_holds (&friezes[i], drawing (desk)));
    }
  }
}

/* By the mirror's own law, not by the core's account of it. */
static void
a_mirrored_stroke_is_its_own_mirror_image (void **state)
{
  Desk *desk = *state;
  int rows = desk->layout.rows;
  bw_session_set_symmetry (desk->session, (BwLiveSymmetry){ { BW_FRIEZE_P1M1, 0, 20 }, FALSE });
  pull (desk, &bw_tool_line, bw_band_middle (25, 2), bw_band_middle (40, 11));
  for (int row = 1; row <= rows; row++)
    for (int j = 0; j < desk->layout.columns / 2; j++) {
      int column = bw_lattice_column (row, j);
      int other = (2 * 20 - (row - 1) + 2 * rows) % rows + 1;
      assert_int_equal (bw_drawing_get (drawing (desk), row, column),
                        bw_drawing_get (drawing (desk), other, column));
    }
}

static void
count_visit (int row, int column, gpointer data)
{
  (*(int *)data)++;
}

static void
every_face_gets_the_bead_as_far_from_its_middle (void **state)
{
  Desk *desk = *state;
  BwLive live;
  for (int mirror = 0; mirror < 2; mirror++) {
    bw_session_set_symmetry (
        desk->session, (BwLiveSymmetry){ { mirror ? BW_FRIEZE_P1M1 : BW_FRIEZE_P1, 0, 0 }, TRUE });
    bw_live_init (&live, desk->session);
    assert_int_equal (live.n_faces, bw_project_stone (desk->project)->faces);
    for (int i = 0; i < live.n_faces; i++) {
      int n = 0, row = (live.face[i].middle + 2 + desk->layout.rows) % desk->layout.rows + 1;
      bw_live_each (&live, row, bw_lattice_column (row, 1), count_visit, &n);
      assert_int_equal (n, 1 + live.n_faces * (1 + mirror));
    }
    pull (desk, &bw_tool_bead, bw_band_middle (live.face[0].middle + 1, 4),
          bw_band_middle (live.face[0].middle + 1, 4));
    for (int i = 0; i < live.n_faces; i++)
      assert_int_equal (
          bw_drawing_get (drawing (desk),
                          (live.face[i].middle + desk->layout.rows) % desk->layout.rows + 1, 4),
          1);
  }
}

/* Every bead lies on just one face, and a face reaches on both sides of its middle. */
static void
faces_share_out_the_whole_ring (void **state)
{
  Desk *desk = *state;
  BwLive live;
  int reach = 0;
  bw_session_set_symmetry (desk->session, (BwLiveSymmetry){ .each_face = TRUE });
  bw_live_init (&live, desk->session);
  for (int i = 0; i < live.n_faces; i++) {
    assert_true (live.face[i].first < 0 && live.face[i].last > 0);
    assert_int_equal (live.face[i].middle % 2, 0);
    reach += live.face[i].last - live.face[i].first;
  }
  assert_int_equal (reach, desk->layout.rows);
}

static void
shapes_pulled_about_leave_nothing_behind (void **state)
{
  Desk *desk = *state;
  g_autoptr (GRand) dice = g_rand_new_with_seed (82);
  g_autoptr (BwDrawing) before = bw_drawing_copy (drawing (desk));
  bw_session_set_symmetry (desk->session, (BwLiveSymmetry){ { BW_FRIEZE_P2MG, 18, 0 }, FALSE });
  bw_hand_begin (desk->hand, &bw_tool_frame, &desk->layout, random_point (desk, dice));
  for (int i = 0; i < 50; i++)
    bw_hand_update (desk->hand, random_point (desk, dice));
  BwBandPoint to = random_point (desk, dice), from = random_point (desk, dice);
  bw_hand_revert (desk->hand);
  assert_true (bw_drawing_equal (before, drawing (desk)));
  pull (desk, &bw_tool_rectangle, from, to);
  assert_false (bw_drawing_equal (before, drawing (desk)));
  assert_string_equal (bw_project_undo_label (desk->project), "Fill a block");
  bw_project_undo (desk->project);
  assert_true (bw_drawing_equal (before, drawing (desk)));
}

static void
draw_something (Desk *desk)
{
  pull (desk, &bw_tool_rectangle, bw_band_middle (20, 3), bw_band_middle (30, 7));
  bw_session_set_colour (desk->session, 2);
  pull (desk, &bw_tool_line, bw_band_middle (21, 4), bw_band_middle (28, 7));
}

static void
what_is_dragged_goes_and_what_is_dragged_with_control_stays (void **state)
{
  Desk *desk = *state;
  draw_something (desk);
  g_autoptr (BwDrawing) before = bw_drawing_copy (drawing (desk));
  bw_session_set_tool (desk->session, BW_TOOL_SELECT);
  pull (desk, &bw_tool_select, bw_band_middle (20, 3), bw_band_middle (30, 7));
  assert_ptr_equal (bw_tool_at (desk->session, &desk->layout, bw_band_middle (22, 5)),
                    &bw_tool_move);
  for (int copies = 0; copies < 2; copies++) {
    bw_hand_set_held (desk->hand, copies ? BW_HELD_CONTROL : 0);
    pull (desk, &bw_tool_move, bw_band_middle (22, 5), bw_band_middle (51, 8));
    for (int row = 20; row <= 30; row++)
      for (int column = 3; column <= 7; column++)
        if (bw_lattice_has (row, column)) {
          guint8 was = bw_drawing_get (before, row, column);
          assert_int_equal (bw_drawing_get (drawing (desk), row + 29, column + 3), was);
          assert_int_equal (bw_drawing_get (drawing (desk), row, column), copies ? was : 0);
          assert_true (
              bw_region_has (bw_session_get_selection (desk->session), row + 29, column + 3));
        }
    bw_project_undo (desk->project);
    assert_true (bw_drawing_equal (before, drawing (desk)));
    bw_session_take_selection (desk->session, NULL);
    bw_hand_set_held (desk->hand, 0);
    pull (desk, &bw_tool_select, bw_band_middle (20, 3), bw_band_middle (30, 7));
  }
}

static void
control_adds_to_what_is_selected_and_a_click_selects_nothing (void **state)
{
  Desk *desk = *state;
  pull (desk, &bw_tool_select, bw_band_middle (10, 1), bw_band_middle (13, 4));
  int first = bw_region_count (bw_session_get_selection (desk->session));
  bw_hand_set_held (desk->hand, BW_HELD_CONTROL);
  pull (desk, &bw_tool_select, bw_band_middle (30, 1), bw_band_middle (33, 4));
  assert_int_equal (bw_region_count (bw_session_get_selection (desk->session)), 2 * first);
  bw_hand_set_held (desk->hand, 0);
  bw_hand_begin (desk->hand, &bw_tool_select, &desk->layout, bw_band_middle (50, 1));
  assert_null (bw_session_get_selection (desk->session));
  bw_hand_revert (desk->hand);
  assert_int_equal (bw_region_count (bw_session_get_selection (desk->session)), 2 * first);
}

static void
a_colour_is_selected_whole_or_where_it_hangs_together (void **state)
{
  Desk *desk = *state;
  draw_something (desk);
  pull (desk, &bw_tool_rectangle, bw_band_middle (60, 3), bw_band_middle (64, 7));
  guint64 counts[256] = { 0 };
  bw_drawing_count (drawing (desk), counts);
  pull (desk, &bw_tool_select_colour, bw_band_middle (60, 5), bw_band_middle (60, 5));
  assert_int_equal (bw_region_count (bw_session_get_selection (desk->session)), counts[2]);
  bw_hand_set_held (desk->hand, BW_HELD_SHIFT);
  pull (desk, &bw_tool_select_colour, bw_band_middle (60, 5), bw_band_middle (60, 5));
  assert_in_range (bw_region_count (bw_session_get_selection (desk->session)), 1, counts[2] - 1);
}

static void
a_swap_keeps_to_what_is_selected (void **state)
{
  Desk *desk = *state;
  pull (desk, &bw_tool_rectangle, bw_band_middle (20, 3), bw_band_middle (40, 7));
  pull (desk, &bw_tool_select, bw_band_middle (20, 3), bw_band_middle (28, 7));
  bw_session_set_colour (desk->session, 2);
  pull (desk, &bw_tool_swap, bw_band_middle (40, 3), bw_band_middle (40, 3));
  for (int row = 20; row <= 40; row++)
    for (int column = 3; column <= 7; column++)
      if (bw_lattice_has (row, column))
        assert_int_equal (bw_drawing_get (drawing (desk), row, column), row <= 28 ? 2 : 1);
  assert_string_equal (bw_project_undo_label (desk->project), "Recolour beads");
}

/* Drawn on one side before the symmetry was switched on. */
static void
a_swap_changes_no_bead_of_another_colour_whatever_the_symmetry (void **state)
{
  Desk *desk = *state;
  pull (desk, &bw_tool_rectangle, bw_band_middle (20, 3), bw_band_middle (28, 5));
  g_autoptr (BwDrawing) before = bw_drawing_copy (drawing (desk));
  bw_session_set_symmetry (desk->session, (BwLiveSymmetry){ { BW_FRIEZE_P1M1, 0, 60 }, FALSE });
  bw_session_set_colour (desk->session, 2);
  pull (desk, &bw_tool_swap, bw_band_middle (20, 3), bw_band_middle (20, 3));
  for (int row = 1; row <= bw_drawing_rows (before); row++)
    for (int column = 1; column <= bw_drawing_columns (before); column++)
      if (bw_lattice_has (row, column)) {
        guint8 was = bw_drawing_get (before, row, column);
        assert_int_equal (bw_drawing_get (drawing (desk), row, column), was == 1 ? 2 : was);
      }
}

static void
rubbing_out_lays_the_ground (void **state)
{
  Desk *desk = *state;
  g_autoptr (BwDrawing) before = bw_drawing_copy (drawing (desk));
  pull (desk, &bw_tool_rectangle, bw_band_middle (20, 3), bw_band_middle (30, 3));
  pull (desk, &bw_tool_erase, bw_band_middle (18, 3), bw_band_middle (32, 3));
  assert_true (bw_drawing_equal (before, drawing (desk)));
  assert_string_equal (bw_project_undo_label (desk->project), "Rub out");
}

static void
shift_keeps_a_line_straight_as_soon_as_it_is_held (void **state)
{
  Desk *desk = *state;
  bw_hand_begin (desk->hand, &bw_tool_line, &desk->layout, bw_band_middle (21, 4));
  bw_hand_update (desk->hand, bw_band_middle (42, 5));
  bw_hand_set_held (desk->hand, BW_HELD_SHIFT);
  assert_int_equal (bw_drawing_get (drawing (desk), 42, 5), 0);
  assert_int_equal (bw_drawing_get (drawing (desk), 41, 4), 1);
  bw_hand_set_held (desk->hand, 0);
  assert_int_equal (bw_drawing_get (drawing (desk), 42, 5), 1);
  bw_hand_revert (desk->hand);
}

int
main (void)
{
#define WITH_DESK(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    WITH_DESK (every_tool_draws_what_has_the_symmetry),
    WITH_DESK (a_mirrored_stroke_is_its_own_mirror_image),
    WITH_DESK (every_face_gets_the_bead_as_far_from_its_middle),
    WITH_DESK (faces_share_out_the_whole_ring),
    WITH_DESK (shapes_pulled_about_leave_nothing_behind),
    WITH_DESK (what_is_dragged_goes_and_what_is_dragged_with_control_stays),
    WITH_DESK (control_adds_to_what_is_selected_and_a_click_selects_nothing),
    WITH_DESK (a_colour_is_selected_whole_or_where_it_hangs_together),
    WITH_DESK (a_swap_keeps_to_what_is_selected),
    WITH_DESK (a_swap_changes_no_bead_of_another_colour_whatever_the_symmetry),
    WITH_DESK (rubbing_out_lays_the_ground),
    WITH_DESK (shift_keeps_a_line_straight_as_soon_as_it_is_held),
  };
  return cmocka_run_group_tests_name ("paint", tests, NULL, NULL);
}
