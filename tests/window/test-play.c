/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Watching the piece being woven: the button on the stone, the bar, its keys and its words. */
#include "maker.h"

#include "app/window/play-bar.h"
#include "core/path/path-pass.h"
#include "preview/scene/seen-from.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

static gboolean
does (GtkWidget *widget, gconstpointer action)
{
  return GTK_IS_ACTIONABLE (widget)
         && g_strcmp0 (gtk_actionable_get_action_name (GTK_ACTIONABLE (widget)), action) == 0;
}

static gboolean
steps (GtkWidget *widget, gconstpointer data)
{
  GVariant *target = does (widget, "play.step")
                         ? gtk_actionable_get_action_target_value (GTK_ACTIONABLE (widget))
                         : NULL;
  return target && g_variant_get_int32 (target) == *(const int *)data;
}

static int
played (Maker *maker)
{
  return bw_session_get_played (maker_session (maker));
}

static GtkWidget *
window_of (Maker *maker)
{
  return GTK_WIDGET (maker->window);
}

static BwPlayBar *
bar_of (Maker *maker)
{
  return BW_PLAY_BAR (maker_find (maker, BW_TYPE_PLAY_BAR));
}

static void
press (Maker *maker, const char *action)
{
  GtkWidget *button = desk_look_for (window_of (maker), does, action);
  assert_non_null (button);
  desk_click (button);
  desk_settle ();
}

static void
step (Maker *maker, int by)
{
  GtkWidget *button = desk_look_for (window_of (maker), steps, &by);
  assert_non_null (button);
  desk_click (button);
  desk_settle ();
}

static void
key (const char *name)
{
  desk_key (name, 0);
  desk_settle ();
}

static void
expect_words (Maker *maker, const char *now)
{
  assert_non_null (desk_look_for_prefix (window_of (maker), now));
}

/* The desk wants no motion: nothing runs, everything else goes. */
static void
by_steps_and_keys_it_is_woven_to_the_end (void **state)
{
  Maker *maker = *state;
  const BwPath *path = bw_project_path (maker_project (maker));
  int all = (int)path->visits->len, columns = maker_design (maker)->band.columns;
  BwCamera own = bw_session_get_camera (maker_session (maker));
  maker_stage (maker, "draw");
  assert_int_equal (played (maker), -1);
  press (maker, "view.play");
  assert_int_equal (played (maker), 0);
  expect_words (maker, "Nothing strung yet");
  assert_false (bw_play_bar_is_running (bar_of (maker)));
  desk_keep ("play-nothing");
  step (maker, 2);
  assert_int_equal (played (maker), columns);
  expect_words (maker, "Pick-up, rows 1 and 2 of ");
  step (maker, 1);
  assert_int_equal (played (maker), columns + 1);
  expect_words (maker, "Row 3 of ");
  step (maker, 2);
  assert_int_equal (played (maker), 2 * columns);
  expect_words (maker, "then row 4");
  step (maker, -2);
  assert_int_equal (played (maker), columns);
  step (maker, -1);
  assert_int_equal (played (maker), columns - 1);
  press (maker, "view.play");
  assert_int_equal (played (maker), -1);
  press (maker, "view.play");
  key ("Right");
  key ("Right");
  assert_int_equal (played (maker), 2);
  key ("Down");
  assert_int_equal (played (maker), columns);
  key ("Page_Down");
  assert_int_equal (played (maker), 2 * columns);
  key ("Up");
  assert_int_equal (played (maker), columns);
  key ("space");
  assert_int_equal (played (maker), columns);
  key ("End");
  assert_int_equal (played (maker), all);
  expect_words (maker, "All ");
  desk_keep ("play-all");
  key ("Home");
  assert_int_equal (played (maker), 0);
  press (maker, "view.play");
  BwCamera back = bw_session_get_camera (maker_session (maker));
  assert_int_equal (played (maker), -1);
  assert_true (back.turn_deg == own.turn_deg && back.tip_deg == own.tip_deg);
  assert_false (bw_project_get_modified (maker_project (maker)));
}

static gboolean
is_beyond (gpointer maker)
{
  return played (maker) > 3;
}

static gboolean
runs (gpointer maker)
{
  return bw_play_bar_is_running (bar_of (maker));
}

static gboolean
stands_still (gpointer maker)
{
  return !runs (maker);
}

static gboolean
is_done (gpointer maker)
{
  return played (maker) == (int)bw_project_path (maker_project (maker))->visits->len;
}

static void
it_runs_by_itself_and_nothing_moves_in_a_pause (void **state)
{
  Maker *maker = *state;
  maker_stage (maker, "draw");
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", TRUE, NULL);
  desk_click (desk_look_for (window_of (maker), does, "view.play"));
  desk_until (is_beyond, maker);
  assert_true (bw_play_bar_is_running (bar_of (maker)));
  desk_strike ("space", 0);
  desk_settle ();
  int here = played (maker);
  assert_false (bw_play_bar_is_running (bar_of (maker)));
  assert_true (desk_rest ());
  assert_int_equal (played (maker), here);
  /* On the stone the same key goes. */
  gtk_widget_grab_focus (maker_find (maker, BW_TYPE_STONE_VIEW));
  desk_strike ("space", 0);
  desk_until (runs, maker);
  desk_strike ("space", 0);
  desk_until (stands_still, maker);
  /* To its end it stands still by itself. */
  GtkWidget *bar = GTK_WIDGET (bar_of (maker));
  gtk_widget_activate_action (bar, "play.speed", "s", "whole");
  bw_session_set_played (maker_session (maker),
                         (int)bw_project_path (maker_project (maker))->visits->len - 9);
  bw_play_bar_toggle (BW_PLAY_BAR (bar));
  desk_until (is_done, maker);
  assert_false (bw_play_bar_is_running (BW_PLAY_BAR (bar)));
  /* Less motion ends a run. */
  bw_play_bar_toggle (BW_PLAY_BAR (bar));
  assert_true (bw_play_bar_is_running (BW_PLAY_BAR (bar)));
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", FALSE, NULL);
  assert_false (bw_play_bar_is_running (BW_PLAY_BAR (bar)));
  assert_true (desk_rest ());
}

/* How far the needle is off the middle of what is seen, degrees. */
static double
needle_aside (Maker *maker)
{
  BwCamera now = bw_session_get_camera (maker_session (maker));
  BwCamera there = bw_seen_from_needle (maker_project (maker), played (maker), now);
  return fabs (remainder (there.turn_deg - now.turn_deg, 360));
}

static double
turn_of (Maker *maker)
{
  return bw_session_get_camera (maker_session (maker)).turn_deg;
}

/* All round the stone: a row's step turns it only when the needle would be out of sight. */
static void
where_less_motion_is_wanted_steps_leave_the_stone_as_it_stands (void **state)
{
  Maker *maker = *state;
  int all = (int)bw_project_path (maker_project (maker))->visits->len, turns = 0, steps_made = 0;
  maker_stage (maker, "draw");
  press (maker, "view.play");
  while (played (maker) < all) {
    double before = turn_of (maker);
    key ("Down");
    steps_made++;
    assert_true (needle_aside (maker) < 60);
    if (turn_of (maker) != before) {
      turns++;
      assert_true (needle_aside (maker) < 1e-6);
    }
  }
  /* Once round is six times sixty degrees; the bail's way stands on one side. */
  assert_true (turns >= 4 && turns <= 9);
  assert_true (steps_made > 10 * turns);
}

static void
where_motion_is_wanted_the_needle_stays_in_front (void **state)
{
  Maker *maker = *state;
  maker_stage (maker, "draw");
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", TRUE, NULL);
  desk_click (desk_look_for (window_of (maker), does, "view.play"));
  desk_until (is_beyond, maker);
  desk_strike ("space", 0);
  desk_until (stands_still, maker);
  for (int i = 0; i < 4; i++) {
    key ("Down");
    assert_true (needle_aside (maker) < 1e-6);
  }
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", FALSE, NULL);
}

static void
turned_by_hand_the_stone_is_the_maker_s (void **state)
{
  Maker *maker = *state;
  maker_stage (maker, "draw");
  press (maker, "view.play");
  key ("End");
  key ("Home");
  step (maker, 2);
  GtkWidget *view = maker_find (maker, BW_TYPE_STONE_VIEW);
  desk_drag (view, 100, 60, 250, 60, 4, 1);
  desk_settle ();
  double turned = turn_of (maker);
  /* Half round from where it was turned to, and nothing turns. */
  for (int i = 0; i < 6; i++) {
    step (maker, 2);
    assert_true (turn_of (maker) == turned);
  }
  key ("End");
  assert_true (turn_of (maker) == turned);
  key ("Home");
  step (maker, 2);
  /* Asked to follow again it looks at the needle, near or far. */
  press (maker, "play.follow");
  assert_true (needle_aside (maker) < 1e-6);
  desk_drag (view, 100, 60, 125, 60, 4, 1);
  desk_settle ();
  assert_true (needle_aside (maker) > 1 && needle_aside (maker) < 60);
  press (maker, "play.follow");
  assert_true (needle_aside (maker) < 1e-6);
  desk_drag (view, 100, 60, 150, 60, 4, 1);
  turned = turn_of (maker);
  press (maker, "view.play");
  assert_true (turn_of (maker) == turned);
}

static void
it_begins_at_the_row_the_bench_stands_at_and_stands_upright (void **state)
{
  Maker *maker = *state;
  BwProject *project = maker_project (maker);
  BwPass pass;
  assert_true (bw_project_set_progress (project, "Rows", 20, NULL, 0, NULL));
  maker_stage (maker, "hang");
  gboolean hung = bw_session_get_at_rest (maker_session (maker));
  press (maker, "view.play");
  assert_true (bw_path_row_pass (bw_project_path (project), FALSE, 20, &pass));
  assert_int_equal (played (maker), pass.first + pass.n);
  expect_words (maker, "Row 20 of ");
  assert_false (bw_session_get_at_rest (maker_session (maker)));
  desk_keep ("play-hang");
  press (maker, "view.play");
  assert_int_equal (bw_session_get_at_rest (maker_session (maker)), hung);
}

static void
a_shorter_band_and_another_design_end_what_is_no_more (void **state)
{
  Maker *maker = *state;
  BwProject *project = maker_project (maker);
  maker_stage (maker, "draw");
  press (maker, "view.play");
  key ("End");
  int all = played (maker);
  BwDesign design = *maker_design (maker);
  design.band.rows -= 10;
  assert_true (bw_project_set_design (project, "Shorter", &design, NULL));
  desk_settle ();
  assert_true (played (maker) < all);
  assert_true (is_done (maker));
  expect_words (maker, "All ");
  g_autoptr (BwProject) other = bw_project_new ();
  bw_session_set_project (maker_session (maker), other);
  desk_settle ();
  assert_int_equal (played (maker), -1);
  assert_non_null (desk_look_for (window_of (maker), does, "view.look"));
  bw_session_set_project (maker_session (maker), project);
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, maker_set_up, maker_tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (by_steps_and_keys_it_is_woven_to_the_end),
    IN_WINDOW (it_runs_by_itself_and_nothing_moves_in_a_pause),
    IN_WINDOW (where_less_motion_is_wanted_steps_leave_the_stone_as_it_stands),
    IN_WINDOW (where_motion_is_wanted_the_needle_stays_in_front),
    IN_WINDOW (turned_by_hand_the_stone_is_the_maker_s),
    IN_WINDOW (it_begins_at_the_row_the_bench_stands_at_and_stands_upright),
    IN_WINDOW (a_shorter_band_and_another_design_end_what_is_no_more),
  };
  return maker_run (tests);
}
