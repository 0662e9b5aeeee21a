/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The Hang stage with a real pointer: the piece hangs, is walked round, is mended by a click, and
 * hands its camera back. */
#include "maker.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

typedef struct {
  Maker maker;
  BwStoneView *view;
} Bench;

/* A flap low on the stone, so that the piece tips and other heights mend it. */
static int
set_up (void **state)
{
  Bench *bench = g_new0 (Bench, 1);
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (GError) error = NULL;
  BwDesign design = *bw_project_get_design (project);
  design.bail = (BwBail){ BW_BAIL_FLAP, 6, 23, 3, 180, 3, 2 };
  design.band.bottom_mm = 5;
  if (!bw_project_set_design (project, "Bail", &design, &error))
    fail_msg ("%s", error->message);
  g_autofree char *path = maker_save (project, "hanging.bandwright");
  maker_start (&bench->maker, path);
  bench->view = BW_STONE_VIEW (maker_find (&bench->maker, BW_TYPE_STONE_VIEW));
  *state = bench;
  return 0;
}

static int
tear_down (void **state)
{
  Bench *bench = *state;
  maker_stop (&bench->maker);
  g_free (bench);
  return 0;
}

static gboolean
hangs_at_rest (gpointer data)
{
  Bench *bench = data;
  const BwScene *scene = bw_stone_view_get_scene (bench->view);
  return !bw_stone_view_is_swinging (bench->view) && scene->rest.hangs
         && scene->stance.pose.lean == scene->rest.stance.pose.lean;
}

/* Against the core, by the axis alone. */
static void
expect_rest (Bench *bench)
{
  const BwHang *hang = bw_project_hang (maker_project (&bench->maker));
  const BwScene *scene = bw_stone_view_get_scene (bench->view);
  BwVec3 axis = bw_pose_turn (scene->stance.pose, bw_vec3 (0, 0, 1));
  double from_up = bw_degrees (atan2 (hypot (axis.x, axis.y), axis.z));
  double told = hang->up == BW_UP_BASE ? 180 - hang->tilt_deg : hang->tilt_deg;
  assert_true (fabs (from_up - told) < 1e-6);
  BwVec3 down = bw_pose_turn (scene->stance.pose, bw_vec3_sub (hang->centroid, hang->hold));
  assert_true (hypot (down.x, down.y) < 1e-6 && down.z < 0);
}

static gboolean
same_camera (BwCamera a, BwCamera b)
{
  return a.turn_deg == b.turn_deg && a.tip_deg == b.tip_deg && a.zoom == b.zoom;
}

static BwCamera
camera (Bench *bench)
{
  return bw_session_get_camera (maker_session (&bench->maker));
}

static void
on_its_stage_the_piece_comes_to_rest_and_is_walked_round (void **state)
{
  Bench *bench = *state;
  GtkWidget *view = GTK_WIDGET (bench->view);
  double x = gtk_widget_get_width (view) / 2.0, y = gtk_widget_get_height (view) / 2.0;
  BwCamera own = camera (bench);
  maker_stage (&bench->maker, "hang");
  desk_until (hangs_at_rest, bench);
  expect_rest (bench);
  desk_rest ();
  desk_keep ("rest");

  BwCamera before = camera (bench);
  desk_drag (view, x, y, x + 80, y, 6, 1);
  BwCamera walked = camera (bench);
  assert_true (fabs (walked.turn_deg - before.turn_deg) > 5);
  assert_true (walked.tip_deg == before.tip_deg);
  expect_rest (bench);
  desk_scroll (view, x, y, 3);
  assert_true (camera (bench).zoom > before.zoom);
  expect_rest (bench);

  maker_stage (&bench->maker, "draw");
  assert_true (same_camera (camera (bench), own));
  assert_true (bw_stone_view_get_scene (bench->view)->stance.pose.lean == 0);
}

static void
a_height_that_hangs_it_level_is_one_click_and_one_step_back (void **state)
{
  Bench *bench = *state;
  BwProject *project = maker_project (&bench->maker);
  maker_stage (&bench->maker, "hang");
  desk_until (hangs_at_rest, bench);
  assert_true (bw_project_hang (project)->tilt_deg < 80);
  double bottom = maker_design (&bench->maker)->band.bottom_mm;
  BwCamera before = camera (bench);

  GtkWidget *level = desk_look_for_prefix (GTK_WIDGET (bench->maker.window), "Level: ");
  assert_non_null (level);
  maker_reveal (level);
  desk_click (level);
  desk_settle ();
  /* Level, as a maker calls it: within five degrees. */
  assert_true (bw_project_hang (project)->tilt_deg >= 85);
  desk_until (hangs_at_rest, bench);
  expect_rest (bench);
  desk_keep ("rest-level");
  assert_true (same_camera (camera (bench), before));

  desk_key ("z", GDK_CONTROL_MASK);
  desk_settle ();
  assert_true (maker_design (&bench->maker)->band.bottom_mm == bottom);
  assert_false (bw_project_can_undo (project));
  desk_until (hangs_at_rest, bench);
  expect_rest (bench);
  assert_true (same_camera (camera (bench), before));
}

static void
the_maker_may_stand_it_upright_and_hang_it_again_by_key (void **state)
{
  Bench *bench = *state;
  BwCamera own = camera (bench);
  maker_stage (&bench->maker, "hang");
  desk_until (hangs_at_rest, bench);
  desk_key ("r", GDK_ALT_MASK);
  desk_settle ();
  assert_true (bw_stone_view_get_scene (bench->view)->stance.pose.lean == 0);
  assert_true (same_camera (camera (bench), own));
  desk_key ("r", GDK_ALT_MASK);
  desk_until (hangs_at_rest, bench);
  expect_rest (bench);
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (on_its_stage_the_piece_comes_to_rest_and_is_walked_round),
    IN_WINDOW (a_height_that_hangs_it_level_is_one_click_and_one_step_back),
    IN_WINDOW (the_maker_may_stand_it_upright_and_hang_it_again_by_key),
  };
  return maker_run (tests);
}
