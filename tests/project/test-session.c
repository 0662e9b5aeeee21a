/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "edits.h"

#include "project/session.h"
#include <math.h>

static void
count (int *n)
{
  (*n)++;
}

/* A session of a new project, counting one of its signals. */
static BwSession *
session_counting (const char *signal, int *n)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwSession *session = bw_session_new (project);

  *n = 0;
  g_signal_connect_swapped (session, signal, G_CALLBACK (count), n);
  return session;
}

static void
the_camera_is_clamped_and_its_turn_wraps (void **state)
{
  int n;
  g_autoptr (BwSession) session = session_counting ("view-changed", &n);

  bw_session_set_camera (session, (BwCamera){ -30, 120, 1e9 });
  assert_true (fabs (bw_session_get_camera (session).turn_deg - 330) < 1e-9);
  assert_true (fabs (bw_session_get_camera (session).tip_deg - 90) < 1e-9);
  assert_true (isfinite (bw_session_get_camera (session).zoom));
  assert_true (bw_session_get_camera (session).zoom < 1e3);
  bw_session_set_camera (session, (BwCamera){ 725, -95, -1 });
  assert_true (fabs (bw_session_get_camera (session).turn_deg - 5) < 1e-9);
  assert_true (fabs (bw_session_get_camera (session).tip_deg + 90) < 1e-9);
  assert_true (bw_session_get_camera (session).zoom > 0);
  bw_session_set_camera (session, (BwCamera){ -1e-20, 0, 1 });
  assert_true (bw_session_get_camera (session).turn_deg >= 0);
  assert_true (bw_session_get_camera (session).turn_deg < 360);
  assert_int_equal (n, 3);
}

static void
a_camera_that_is_no_number_is_ignored (void **state)
{
  int n;
  g_autoptr (BwSession) session = session_counting ("view-changed", &n);
  BwCamera before = bw_session_get_camera (session), after;

  bw_session_set_camera (session, (BwCamera){ NAN, 0, 1 });
  bw_session_set_camera (session, (BwCamera){ 0, INFINITY, 1 });
  bw_session_set_camera (session, (BwCamera){ 0, 0, NAN });
  after = bw_session_get_camera (session);
  assert_memory_equal (&before, &after, sizeof before);
  assert_int_equal (n, 0);
}

static void
setting_what_is_already_so_tells_nobody (void **state)
{
  int n, hand;
  g_autoptr (BwSession) session = session_counting ("view-changed", &n);
  g_autoptr (BwSession) other = session_counting ("hand-changed", &hand);

  bw_session_set_camera (session, bw_session_get_camera (session));
  bw_session_set_layers (session, BW_LAYER_ALL | 1 << 12);
  bw_session_set_light (session, bw_session_get_light (session));
  bw_session_set_colour_by_fit (session, FALSE);
  assert_int_equal (n, 0);
  bw_session_set_layers (session, BW_LAYER_STONE);
  bw_session_set_light (session, BW_LIGHT_LAMP);
  bw_session_set_colour_by_fit (session, 17);
  assert_int_equal (n, 3);
  assert_int_equal (bw_session_get_colour_by_fit (session), TRUE);
  bw_session_set_tool (other, BW_TOOL_BEAD);
  bw_session_set_colour (other, 0);
  assert_int_equal (hand, 0);
  bw_session_set_tool (other, BW_TOOL_PICK);
  bw_session_set_colour (other, 2);
  assert_int_equal (hand, 2);
}

static void
the_colour_in_hand_is_always_one_of_the_tray (void **state)
{
  int n;
  g_autoptr (BwSession) session = session_counting ("hand-changed", &n);
  BwProject *project = bw_session_get_project (session);
  BwTray tray = *bw_project_get_tray (project);

  bw_session_set_colour (session, 99);
  assert_int_equal (bw_session_get_colour (session), 3);
  bw_session_set_colour (session, -5);
  assert_int_equal (bw_session_get_colour (session), 0);
  bw_session_set_colour (session, 3);
  tray.n_colours = 2;
  assert_true (bw_project_set_tray (project, "Fewer", &tray, NULL));
  assert_int_equal (bw_session_get_colour (session), 1);
  assert_int_equal (n, 4);
}

static void
a_lit_bead_goes_out_when_it_is_gone (void **state)
{
  int n, row, column;
  gboolean in_bail;
  g_autoptr (BwSession) session = session_counting ("hover-changed", &n);
  BwProject *project = bw_session_get_project (session);

  bw_session_set_hover (session, FALSE, 40, 1);
  bw_session_set_hover (session, FALSE, 40, 1);
  assert_int_equal (n, 1);
  set_rows (project, "Fewer", 40);
  bw_session_get_hover (session, &in_bail, &row, &column);
  assert_int_equal (row, 40);
  set_rows (project, "Fewer", 38);
  bw_session_get_hover (session, &in_bail, &row, &column);
  assert_int_equal (row, 0);
  assert_int_equal (n, 2);
  set_bail_style (project, "Bail", BW_BAIL_FLAP);
  bw_session_set_hover (session, TRUE, 3, 2);
  set_bail_style (project, "None", BW_BAIL_NONE);
  bw_session_get_hover (session, &in_bail, &row, &column);
  assert_int_equal (row, 0);
  assert_false (in_bail);
}

static void
another_project_is_told_and_the_old_one_let_go (void **state)
{
  int n;
  g_autoptr (BwSession) session = session_counting ("project-changed", &n);
  BwProject *old = bw_session_get_project (session);
  g_autoptr (BwProject) other = corpus_project ("least.bandwright");

  g_object_add_weak_pointer (G_OBJECT (old), (gpointer *)&old);
  bw_session_set_colour (session, 3);
  bw_session_set_hover (session, FALSE, 3, 2);
  bw_session_set_project (session, bw_session_get_project (session));
  assert_int_equal (n, 0);
  bw_session_set_project (session, other);
  assert_int_equal (n, 1);
  assert_null (old);
  assert_ptr_equal (bw_session_get_project (session), other);
  assert_int_equal (bw_session_get_colour (session), 0);
}

static void
undo_does_not_move_what_the_session_holds (void **state)
{
  int n;
  g_autoptr (BwSession) session = session_counting ("view-changed", &n);
  BwProject *project = bw_session_get_project (session);

  bw_project_set_title (project, "Title", "Neap");
  bw_session_set_camera (session, (BwCamera){ 77, 7, 2 });
  bw_session_set_colour (session, 2);
  bw_project_undo (project);
  assert_true (fabs (bw_session_get_camera (session).turn_deg - 77) < 1e-9);
  assert_int_equal (bw_session_get_colour (session), 2);
  assert_int_equal (n, 1);
}

/* The new project's band has twelve columns. */
static void
locked_columns_are_told_and_forgotten_with_the_band (void **state)
{
  int n;
  g_autoptr (BwSession) session = session_counting ("locks-changed", &n);
  BwProject *project = bw_session_get_project (session);
  bw_session_set_locked (session, 3, TRUE);
  bw_session_set_locked (session, 3, TRUE);
  bw_session_set_locked (session, 12, TRUE);
  assert_int_equal (n, 2);
  assert_int_equal (bw_session_count_locked (session), 2);
  assert_true (bw_session_is_locked (session, 12));
  assert_false (bw_session_is_locked (session, 0));
  assert_false (bw_session_is_locked (session, BW_COLUMNS_MAX + 1));
  BwDesign design = *bw_project_get_design (project);
  design.band.columns = 10;
  assert_true (bw_project_set_design (project, "Narrower", &design, NULL));
  assert_false (bw_session_is_locked (session, 12));
  assert_true (bw_session_is_locked (session, 3));
  g_autoptr (BwProject) other = bw_project_new ();
  bw_session_set_project (session, other);
  assert_int_equal (bw_session_count_locked (session), 0);
}

/* Whatever a drawing says there, the locked column's beads are the project's. */
static void
a_locked_column_is_kept_in_a_drawing (void **state)
{
  int n;
  g_autoptr (BwSession) session = session_counting ("locks-changed", &n);
  const BwDrawing *own = bw_project_get_drawing (bw_session_get_project (session));
  g_autoptr (BwDrawing) other = bw_drawing_new (bw_drawing_columns (own), bw_drawing_rows (own), 2);
  bw_session_set_locked (session, 4, TRUE);
  bw_session_keep_locked (session, other);
  assert_int_equal (bw_drawing_get (other, 21, 4), bw_drawing_get (own, 21, 4));
  assert_int_equal (bw_drawing_get (other, 21, 6), 2);
  assert_int_equal (bw_drawing_get (other, 22, 5), 2);
}

/* What is woven so far is told to the views, and belongs to one project. */
static void
another_project_is_shown_finished (void **state)
{
  int n;
  g_autoptr (BwSession) session = session_counting ("view-changed", &n);
  assert_int_equal (bw_session_get_played (session), -1);
  bw_session_set_played (session, 12);
  bw_session_set_played (session, 12);
  assert_int_equal (n, 1);
  assert_int_equal (bw_session_get_played (session), 12);
  g_autoptr (BwProject) other = bw_project_new ();
  bw_session_set_project (session, other);
  assert_int_equal (bw_session_get_played (session), -1);
  bw_session_set_played (session, -9);
  assert_int_equal (bw_session_get_played (session), -1);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_camera_is_clamped_and_its_turn_wraps),
    cmocka_unit_test (a_camera_that_is_no_number_is_ignored),
    cmocka_unit_test (setting_what_is_already_so_tells_nobody),
    cmocka_unit_test (the_colour_in_hand_is_always_one_of_the_tray),
    cmocka_unit_test (a_lit_bead_goes_out_when_it_is_gone),
    cmocka_unit_test (another_project_is_told_and_the_old_one_let_go),
    cmocka_unit_test (undo_does_not_move_what_the_session_holds),
    cmocka_unit_test (locked_columns_are_told_and_forgotten_with_the_band),
    cmocka_unit_test (a_locked_column_is_kept_in_a_drawing),
    cmocka_unit_test (another_project_is_shown_finished),
  };

  return cmocka_run_group_tests_name ("session", tests, NULL, NULL);
}
