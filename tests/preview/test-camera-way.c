/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The camera going by itself, the hand that lets it go, and the face it is asked to look at. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "pieces.h"
#include "preview/scene/camera-way.h"
#include "preview/scene/facing.h"
#include "preview/scene/hand-speed.h"

enum { SIDE = 300 };

/* --- Ways --------------------------------------------------------------------------------------
 */

static void
let_go_it_slows_down_and_stops_exactly (void **state)
{
  const BwCamera from = { 100, 10, 2 };
  const BwCoast coast = { -240, 60 };
  const double step = 1e-4;
  double last = 241;
  for (double t = 0; t < BW_COAST_S + 0.2; t += 0.01) {
    BwCamera a = bw_coast_after (from, coast, t), b = bw_coast_after (from, coast, t + step);
    double speed = (a.turn_deg - b.turn_deg) / step;
    assert_true (speed >= 0 && speed <= last + 1e-6);
    assert_true (b.tip_deg >= a.tip_deg && b.zoom == from.zoom);
    last = speed;
  }
  BwCamera start = bw_coast_after (from, coast, 0), soon = bw_coast_after (from, coast, step);
  assert_true (start.turn_deg == from.turn_deg && start.tip_deg == from.tip_deg);
  /* As quickly as the hand at first, then never again. */
  assert_true (fabs ((soon.turn_deg - start.turn_deg) / step + 240) < 0.1);
  BwCamera end = bw_coast_after (from, coast, BW_COAST_S), later = bw_coast_after (from, coast, 99);
  assert_true (end.turn_deg == later.turn_deg && end.tip_deg == later.tip_deg);
  assert_true (fabs (end.turn_deg - (100 - 240 * BW_COAST_S / 3)) < 1e-9);
}

static void
running_on_it_does_not_turn_over (void **state)
{
  assert_true (bw_coast_after ((BwCamera){ 0, 80, 1 }, (BwCoast){ 0, 300 }, 1).tip_deg == 90);
  assert_true (bw_coast_after ((BwCamera){ 0, -80, 1 }, (BwCoast){ 0, -300 }, 1).tip_deg == -90);
}

static void
from_camera_to_camera_it_goes_the_shorter_way (void **state)
{
  const BwCamera from = { 350, -20, 1 }, to = { 30, 40, 4 };
  BwCamera half = bw_camera_between (from, to, 0.5), end = bw_camera_between (from, to, 1);
  assert_true (fabs (half.turn_deg - 370) < 1e-9);
  assert_true (fabs (half.tip_deg - 10) < 1e-9 && fabs (half.zoom - 2) < 1e-9);
  assert_true (end.turn_deg == to.turn_deg && end.tip_deg == to.tip_deg && end.zoom == to.zoom);
  half = bw_camera_between (to, from, 0.5);
  assert_true (fabs (half.turn_deg - 10) < 1e-9);
  BwCamera start = bw_camera_between (from, to, 0);
  assert_true (start.turn_deg == 350 && start.tip_deg == -20);
}

/* --- The hand ----------------------------------------------------------------------------------
 */

static void
a_hand_s_speed_is_that_of_its_last_moves (void **state)
{
  BwHandSpeed hand = { .n = 0 };
  double x, y;
  assert_false (bw_hand_speed_at (&hand, 5, &x, &y));
  /* First slowly, then at 300 and −100 a second, for longer than is looked at. */
  for (guint32 ms = 1000; ms < 1500; ms += 10)
    bw_hand_speed_note (&hand, ms, ms * 0.01, 0);
  for (guint32 ms = 1500; ms <= 1700; ms += 10)
    bw_hand_speed_note (&hand, ms, ms * 0.3, ms * -0.1);
  assert_true (bw_hand_speed_at (&hand, 1705, &x, &y));
  assert_true (fabs (x - 300) < 1e-6 && fabs (y + 100) < 1e-6);
  assert_true (bw_hand_speed_at (&hand, 1755, &x, &y));
  assert_false (bw_hand_speed_at (&hand, 1765, &x, &y));
}

/* What lies far back does not count, and what comes at one moment tells nothing. */
static void
a_hand_seen_too_seldom_has_no_speed (void **state)
{
  BwHandSpeed hand = { .n = 0 };
  double x, y;
  bw_hand_speed_note (&hand, 100, 0, 0);
  assert_false (bw_hand_speed_at (&hand, 101, &x, &y));
  bw_hand_speed_note (&hand, 400, 90, 0);
  assert_false (bw_hand_speed_at (&hand, 410, &x, &y));
  bw_hand_speed_note (&hand, 403, 95, 0);
  assert_false (bw_hand_speed_at (&hand, 410, &x, &y));
  bw_hand_speed_note (&hand, 420, 110, 0);
  assert_true (bw_hand_speed_at (&hand, 430, &x, &y));
  assert_true (fabs (x - 1000) < 1e-6);
  /* The events' clock begins again after 49 days. */
  hand = (BwHandSpeed){ .n = 0 };
  bw_hand_speed_note (&hand, G_MAXUINT32 - 9, 0, 0);
  bw_hand_speed_note (&hand, 10, 20, 0);
  assert_true (bw_hand_speed_at (&hand, 20, &x, &y));
  assert_true (fabs (x - 1000) < 1e-6);
}

/* --- Faces -------------------------------------------------------------------------------------
 */

/* The way from the piece to the eye, in its own axes, and how far a face's normal is off it. */
static double
off_straight (const BwScene *scene, int face, BwCamera camera)
{
  const float *n = g_array_index (scene->stone_planes, BwScenePlane, face).normal;
  double turn = bw_radians (camera.turn_deg), tip = bw_radians (camera.tip_deg);
  BwVec3 way = bw_pose_turn_back (
      scene->stance.pose, bw_vec3 (cos (tip) * cos (turn), cos (tip) * sin (turn), sin (tip)));
  BwVec3 normal = bw_vec3 ((double)n[0], (double)n[1], (double)n[2]);
  return bw_vec3_length (bw_vec3_cross (way, normal)) + (bw_vec3_dot (way, normal) < 0);
}

static void
every_face_can_be_looked_at_straight (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (7);
  for (int piece = 0; piece < N_PIECES; piece++) {
    g_autoptr (BwProject) project = piece_new (piece);
    g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
    for (int hung = 0; hung < 2; hung++) {
      if (hung)
        bw_scene_stand_at_rest (scene);
      for (int i = 0; i < (int)scene->stone_planes->len; i++) {
        BwCamera now = piece_camera (rand), straight = bw_camera_facing (scene, i, now);
        assert_true (off_straight (scene, i, straight) < 1e-6);
        assert_true (straight.zoom == now.zoom);
      }
    }
  }
}

/* The base looks down: nothing says from which side, so the maker's own stays. */
static void
from_straight_below_the_turn_stays (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  int found = 0;
  for (int i = 0; i < (int)scene->stone_planes->len; i++) {
    const BwScenePlane *plane = &g_array_index (scene->stone_planes, BwScenePlane, i);
    if (plane->normal[2] > -0.999f)
      continue;
    BwCamera straight = bw_camera_facing (scene, i, (BwCamera){ 123, 4, 1.5 });
    assert_true (straight.turn_deg == 123 && fabs (straight.tip_deg + 90) < 1e-3);
    found++;
  }
  assert_int_equal (found, 1);
}

/* Where the ray first meets the stone it is on the face found and within all others. */
static void
the_face_found_is_the_one_the_ray_meets (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (8);
  g_autoptr (BwProject) project = piece_new (2);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  int on = 0, beside = 0;
  for (int i = 0; i < 3000; i++) {
    BwEye eye;
    BwVec3 from, along;
    double x = g_rand_double_range (rand, 0, SIDE), y = g_rand_double_range (rand, 0, SIDE);
    bw_eye_init (&eye, piece_camera (rand), scene, SIDE, SIDE);
    int face = bw_face_under (&eye, scene, BW_LAYER_STONE, x, y, SIDE, SIDE);
    bw_eye_ray (&eye, x, y, SIDE, SIDE, &from, &along);
    if (face < 0) {
      beside++;
      assert_int_equal (bw_face_under (&eye, scene, BW_LAYER_STONE, x, y, SIDE, SIDE), -1);
      continue;
    }
    const BwScenePlane *plane = &g_array_index (scene->stone_planes, BwScenePlane, face);
    BwVec3 n
        = bw_vec3 ((double)plane->normal[0], (double)plane->normal[1], (double)plane->normal[2]);
    double way = ((double)plane->distance - bw_vec3_dot (n, from)) / bw_vec3_dot (n, along);
    BwVec3 at = bw_vec3_add (from, bw_vec3_scale (along, way));
    assert_true (bw_vec3_dot (n, along) < 0 && way > 0);
    on++;
    for (guint k = 0; k < scene->stone_planes->len; k++) {
      const BwScenePlane *other = &g_array_index (scene->stone_planes, BwScenePlane, k);
      assert_true ((double)other->normal[0] * at.x + (double)other->normal[1] * at.y
                       + (double)other->normal[2] * at.z
                   < (double)other->distance + 1e-3);
    }
  }
  assert_true (on > 500 && beside > 500);
}

/* A bead lies before the face whose middle it is nearest to, not before the one the ray would meet
 * behind it. */
static void
a_bead_is_before_its_own_face (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  int tried = 0;
  for (int i = 0; i < scene->n_band; i += 7) {
    const BwSceneBead *bead = &g_array_index (scene->beads, BwSceneBead, i);
    double azimuth = bw_degrees (atan2 ((double)bead->at[1], (double)bead->at[0])), x, y;
    /* Regular, six faces, face 1 at azimuth 0; near a corner either may be meant. */
    double off = remainder (azimuth, 60);
    BwEye eye;
    bw_eye_init (&eye, (BwCamera){ azimuth + 25, 10, 1 }, scene, SIDE, SIDE);
    if (fabs (off) > 27 || !bw_eye_project (&eye, bead->at, SIDE, SIDE, &x, &y)
        || bw_eye_pick (&eye, scene, BW_LAYER_ALL, x, y, SIDE, SIDE) != i)
      continue;
    int face = bw_face_under (&eye, scene, BW_LAYER_ALL, x, y, SIDE, SIDE);
    assert_in_range (face, 0, scene->stone_planes->len - 1);
    BwCamera straight = bw_camera_facing (scene, face, (BwCamera){ 0, 0, 1 });
    assert_true (fabs (remainder (straight.turn_deg - (azimuth - off), 360)) < 0.01);
    tried++;
  }
  assert_true (tried > 30);
}

/* At the outline beads stand out beyond the stone, where no ray meets it. */
static void
a_bead_at_the_outline_is_before_a_face_too (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  BwEye eye;
  int beyond = 0;
  bw_eye_init (&eye, (BwCamera){ 10, 0, 1 }, scene, SIDE, SIDE);
  for (int y = 0; y < SIDE; y += 8)
    for (int x = 0; x < SIDE; x++) {
      if (bw_eye_pick (&eye, scene, BW_LAYER_ALL, x, y, SIDE, SIDE) < 0)
        continue;
      assert_true (bw_face_under (&eye, scene, BW_LAYER_ALL, x, y, SIDE, SIDE) >= 0);
      beyond += bw_face_under (&eye, scene, BW_LAYER_STONE, x, y, SIDE, SIDE) < 0;
    }
  assert_true (beyond > 5);
}

static void
beside_the_piece_and_without_a_stone_there_is_no_face (void **state)
{
  g_autoptr (BwProject) project = piece_new (3);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  BwEye eye;
  bw_eye_init (&eye, (BwCamera){ 0, 0, 1 }, scene, SIDE, SIDE);
  assert_int_equal (bw_face_under (&eye, scene, BW_LAYER_ALL, 1, 1, SIDE, SIDE), -1);
  assert_true (bw_face_under (&eye, scene, BW_LAYER_STONE, SIDE / 2.0, SIDE / 4.0, SIDE, SIDE)
               >= 0);
  assert_int_equal (bw_face_under (&eye, scene, BW_LAYER_BAND, SIDE / 2.0, SIDE / 8.0, SIDE, SIDE),
                    -1);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (let_go_it_slows_down_and_stops_exactly),
    cmocka_unit_test (running_on_it_does_not_turn_over),
    cmocka_unit_test (from_camera_to_camera_it_goes_the_shorter_way),
    cmocka_unit_test (a_hand_s_speed_is_that_of_its_last_moves),
    cmocka_unit_test (a_hand_seen_too_seldom_has_no_speed),
    cmocka_unit_test (every_face_can_be_looked_at_straight),
    cmocka_unit_test (from_straight_below_the_turn_stays),
    cmocka_unit_test (the_face_found_is_the_one_the_ray_meets),
    cmocka_unit_test (a_bead_is_before_its_own_face),
    cmocka_unit_test (a_bead_at_the_outline_is_before_a_face_too),
    cmocka_unit_test (beside_the_piece_and_without_a_stone_there_is_no_face),
  };
  return cmocka_run_group_tests_name ("camera-way", tests, NULL, NULL);
}
