/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A piece that is still being woven, against the thread's path. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "pieces.h"
#include "preview/picture/offscreen.h"
#include "preview/picture/projection.h"
#include "preview/scene/played.h"
#include "preview/scene/seen-from.h"
#include "preview/scene/scene-bead.h"
#include "preview/scene/scene-thread.h"
#include <string.h>

enum { SIDE = 120 };

static const BwVisit *
visit_at (const BwPath *path, int i)
{
  return &g_array_index (path->visits, BwVisit, (guint)i);
}

static int
bead_of (const BwScene *scene, const BwVisit *visit)
{
  return bw_scene_bead_index (scene, visit->in_bail, visit->row, visit->column);
}

static int
count_there (const BwScene *scene)
{
  int n = 0;
  for (guint i = 0; i < scene->beads->len; i++)
    n += bw_played_has (scene, (int)i);
  return n;
}

static void
beads_are_there_once_they_are_picked_up (void **state)
{
  for (int piece = 0; piece < N_PIECES; piece++) {
    g_autoptr (BwProject) project = piece_new (piece);
    g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
    const BwPath *path = bw_project_path (project);
    int there = 0;
    assert_int_equal (count_there (scene), scene->beads->len);
    bw_scene_play (scene, 0);
    assert_int_equal (count_there (scene), 0);
    for (int i = 0; i < (int)path->visits->len; i++) {
      int bead = bead_of (scene, visit_at (path, i));
      assert_int_equal (bw_played_has (scene, bead), !visit_at (path, i)->is_new);
      bw_scene_play (scene, i + 1);
      assert_true (bw_played_has (scene, bead));
      there += visit_at (path, i)->is_new;
      if (i % 97 == 0)
        assert_int_equal (count_there (scene), there);
    }
    assert_int_equal (count_there (scene), there);
  }
}

/* The path of an odd strip ends with its last row: the bail never comes. */
static void
a_strip_that_cannot_be_zipped_never_gets_its_bail (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  BwDesign design = *bw_project_get_design (project);
  design.band.rows -= 1;
  assert_true (bw_project_set_design (project, "Odd", &design, NULL));
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  assert_true (design.band.rows % 2 && (int)scene->beads->len > scene->n_band);
  bw_scene_play (scene, G_MAXINT32);
  assert_int_equal (count_there (scene), scene->n_band);
}

static void
the_thread_has_run_as_far_as_the_needle (void **state)
{
  for (int piece = 0; piece < N_PIECES; piece++) {
    g_autoptr (BwProject) project = piece_new (piece);
    g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
    g_autoptr (GArray) all_holes = g_array_new (FALSE, FALSE, sizeof (BwSceneLine));
    g_autoptr (GArray) all_links = g_array_new (FALSE, FALSE, sizeof (BwSceneLine));
    int all = scene->n_visits, links = 0;
    bw_scene_thread_lines (scene, all, all_holes, all_links);
    assert_int_equal (all_holes->len, all);
    assert_int_equal (bw_played_holes (scene), all);
    assert_int_equal (bw_played_links (scene), all_links->len);
    for (int n = 0; n <= all; n++) {
      bw_scene_play (scene, n);
      assert_int_equal (bw_played_holes (scene), n);
      assert_in_range (bw_played_links (scene) - links, 0, 1);
      if (bw_played_links (scene) > links) {
        const BwSceneLine *link = &g_array_index (all_links, BwSceneLine, links);
        const BwSceneLine *hole = &g_array_index (all_holes, BwSceneLine, n - 1);
        assert_memory_equal (link->to, hole->from, sizeof link->to);
      }
      links = bw_played_links (scene);
    }
    assert_int_equal (links, all_links->len);
    bw_scene_play (scene, all + 7);
    assert_int_equal (bw_played_holes (scene), all);
  }
}

static void
the_needle_goes_on_from_the_bead_it_left (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  const BwPath *path = bw_project_path (project);
  int all = (int)path->visits->len;
  BwSceneLine needle;
  assert_false (bw_played_needle (scene, &needle));
  for (int n = 1; n < all; n += 11) {
    bw_scene_play (scene, n);
    assert_true (bw_played_needle (scene, &needle));
    const BwVisit *visit = visit_at (path, n - 1);
    const BwSceneBead *bead = &g_array_index (scene->beads, BwSceneBead, bead_of (scene, visit));
    float along = 0, length = 0, axis[3];
    bw_bead_axis (bead, axis);
    for (int i = 0; i < 3; i++) {
      float way = needle.to[i] - needle.from[i];
      along += way * axis[i];
      length = hypotf (length, way);
    }
    assert_true (fabsf (along) > 0.999f * length);
    assert_int_equal (along > 0, visit->direction);
    assert_true (length > 4 * scene->bead_half_length);
  }
  bw_scene_play (scene, 0);
  assert_false (bw_played_needle (scene, &needle));
  bw_scene_play (scene, all);
  assert_false (bw_played_needle (scene, &needle));
}

static void
what_is_not_woven_cannot_be_pointed_at (void **state)
{
  g_autoptr (BwProject) project = piece_new (3);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  BwEye eye;
  int found = 0;
  bw_eye_init (&eye, (BwCamera){ 20, 5, 2 }, scene, SIDE, SIDE);
  for (int y = 0; y < SIDE; y += 3)
    for (int x = 0; x < SIDE; x += 3) {
      bw_scene_play (scene, -1);
      int bead = bw_eye_pick (&eye, scene, BW_LAYER_ALL, x, y, SIDE, SIDE);
      if (bead < 0)
        continue;
      bw_scene_play (scene, 0);
      int born = scene->born[bead];
      found++;
      bw_scene_play (scene, born);
      assert_int_not_equal (bw_eye_pick (&eye, scene, BW_LAYER_ALL, x, y, SIDE, SIDE), bead);
      bw_scene_play (scene, born + 1);
      assert_int_equal (bw_eye_pick (&eye, scene, BW_LAYER_ALL, x, y, SIDE, SIDE), bead);
    }
  assert_true (found > 100);
}

/* --- Pictures ----------------------------------------------------------------------------------
 */

static cairo_surface_t *
picture (BwScene *scene, guint layers, gboolean by_hand)
{
  BwCamera camera = { 200, 10, 1 };
  if (!by_hand)
    return bw_offscreen_render (scene, camera, layers, BW_LIGHT_DAY, SIDE, SIDE, NULL, NULL);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, SIDE, SIDE);
  cairo_t *cr = cairo_create (surface);
  bw_projection_draw (cr, scene, camera, layers, BW_LIGHT_DAY, -1, SIDE, SIDE);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

/* How many pixels of a scene played so far with these layers differ from the finished one with
 * those. */
static int
differ (BwScene *scene, int played, guint layers, guint finished, gboolean by_hand)
{
  int n = 0;
  bw_scene_play (scene, -1);
  cairo_surface_t *a = picture (scene, finished, by_hand);
  bw_scene_play (scene, played);
  cairo_surface_t *b = picture (scene, layers, by_hand);
  const guint32 *p = (const guint32 *)(const void *)cairo_image_surface_get_data (a);
  const guint32 *q = (const guint32 *)(const void *)cairo_image_surface_get_data (b);
  for (int i = 0; i < SIDE * SIDE; i++)
    n += p[i] != q[i];
  cairo_surface_destroy (a);
  cairo_surface_destroy (b);
  return n;
}

static void
pictures_show_what_is_woven_and_nothing_else (void **state)
{
  const guint bare = BW_LAYER_STONE | BW_LAYER_BED;
  for (int piece = 0; piece < 3; piece++)
    for (int by_hand = 0; by_hand < 2; by_hand++) {
      g_autoptr (BwProject) project = piece_new (piece);
      g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
      int all = scene->n_visits;
      guint whole = BW_LAYER_ALL & ~(guint)(BW_LAYER_CORD | BW_LAYER_BALANCE);
      assert_int_equal (differ (scene, 0, BW_LAYER_ALL, bare, by_hand), 0);
      assert_int_equal (differ (scene, all, BW_LAYER_ALL, whole, by_hand), 0);
      assert_true (differ (scene, all / 2, BW_LAYER_ALL, whole, by_hand) > 50);
      assert_true (differ (scene, all / 2, BW_LAYER_ALL, bare, by_hand) > 50);
      /* The thread alone is half as long. */
      assert_true (differ (scene, all / 2, BW_LAYER_THREAD, BW_LAYER_THREAD, by_hand) > 50);
      assert_int_equal (differ (scene, all, BW_LAYER_THREAD, BW_LAYER_THREAD, by_hand), 0);
      assert_int_equal (differ (scene, 0, BW_LAYER_THREAD, 0, by_hand), 0);
    }
}

/* --- The eye goes with the needle ---------------------------------------------------------------
 */

static double
turned (double from, double to)
{
  return fabs (remainder (to - from, 360));
}

static void
the_eye_goes_round_with_the_needle (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  const BwPath *path = bw_project_path (project);
  const BwPlaces *places = bw_project_true_places (project);
  double row = 360.0 / places->rows;
  BwCamera now = { 0, 33, 1.7 }, last = bw_seen_from_needle (project, 0, now);
  for (int n = 1; n <= (int)path->visits->len; n++) {
    BwCamera camera = bw_seen_from_needle (project, n, now);
    const BwVisit *visit = visit_at (path, n - 1);
    assert_true (camera.tip_deg == now.tip_deg && camera.zoom == now.zoom);
    if (visit->part == BW_PART_ROWS) {
      BwPlace place = bw_places_get (places, visit->row, visit->column);
      /* Two rows back at most, as the mean of a row's visits is; and never by a jerk. */
      assert_true (turned (camera.turn_deg, bw_degrees (atan2 (place.at.y, place.at.x))) < 2 * row);
      assert_true (turned (last.turn_deg, camera.turn_deg) < 0.5 * row);
    }
    if (visit->in_bail)
      assert_true (camera.turn_deg == last.turn_deg);
    last = camera;
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (beads_are_there_once_they_are_picked_up),
    cmocka_unit_test (a_strip_that_cannot_be_zipped_never_gets_its_bail),
    cmocka_unit_test (the_thread_has_run_as_far_as_the_needle),
    cmocka_unit_test (the_needle_goes_on_from_the_bead_it_left),
    cmocka_unit_test (what_is_not_woven_cannot_be_pointed_at),
    cmocka_unit_test (pictures_show_what_is_woven_and_nothing_else),
    cmocka_unit_test (the_eye_goes_round_with_the_needle),
  };
  return cmocka_run_group_tests_name ("played", tests, NULL, NULL);
}
