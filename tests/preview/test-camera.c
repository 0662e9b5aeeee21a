/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The eye, its rays, and what lies under the pointer. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "pieces.h"
#include "preview/scene/camera.h"
#include "preview/scene/seen-from.h"
#include "preview/scene/scene-bead.h"

enum { WIDTH = 640, HEIGHT = 480 };

typedef struct {
  BwProject *project;
  BwScene *scene;
} Piece;

static Piece
piece_at_hand (int which)
{
  BwProject *project = piece_new (which);
  return (Piece){ project, bw_scene_new (project, FALSE) };
}

static void
piece_away (Piece *piece)
{
  bw_scene_free (piece->scene);
  g_object_unref (piece->project);
}

static void
a_ray_passes_through_what_is_projected_on_its_pixel (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (1);
  Piece piece = piece_at_hand (1);
  for (int i = 0; i < 2000; i++) {
    BwEye eye;
    BwVec3 from, along;
    double x, y;
    float at[3];
    for (int k = 0; k < 3; k++)
      at[k] = piece.scene->centre[k]
              + piece.scene->radius * (float)g_rand_double_range (rand, -0.6, 0.6);
    piece.scene->free_below = (float)(i % 3) * 0.2f;
    bw_eye_init (&eye, piece_camera (rand), piece.scene, WIDTH, HEIGHT);
    assert_true (bw_eye_project (&eye, at, WIDTH, HEIGHT, &x, &y));
    bw_eye_ray (&eye, x, y, WIDTH, HEIGHT, &from, &along);
    BwVec3 to = bw_vec3_sub (bw_vec3 ((double)at[0], (double)at[1], (double)at[2]), from);
    assert_true (bw_vec3_length (bw_vec3_cross (to, along)) < 2e-3);
    /* The matrices that OpenGL gets say the same. */
    vec4 clip = { at[0], at[1], at[2], 1 };
    glm_mat4_mulv (eye.view, clip, clip);
    glm_mat4_mulv (eye.projection, clip, clip);
    assert_true (fabs ((double)(clip[0] / clip[3]) * WIDTH / 2 + WIDTH / 2.0 - x) < 0.02);
    assert_true (fabs (HEIGHT / 2.0 - (double)(clip[1] / clip[3]) * HEIGHT / 2 - y) < 0.02);
    assert_true (fabsf (clip[2] / clip[3]) < 1);
  }
  piece_away (&piece);
}

static void
at_zoom_one_the_whole_piece_is_in_the_picture (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (2);
  const int sizes[][2] = { { 800, 300 }, { 300, 800 }, { 500, 500 } };
  for (int which = 0; which < N_PIECES; which++) {
    Piece piece = piece_at_hand (which);
    for (gsize s = 0; s < 8 * G_N_ELEMENTS (sizes); s++) {
      BwEye eye;
      BwCamera camera = piece_camera (rand);
      int width = sizes[s % 3][0], height = sizes[s % 3][1];
      camera.zoom = 1;
      bw_eye_init (&eye, camera, piece.scene, width, height);
      for (guint i = 0; i < piece.scene->stone->len; i++) {
        double x, y;
        assert_true (bw_eye_project (&eye, g_array_index (piece.scene->stone, BwSceneVertex, i).at,
                                     width, height, &x, &y));
        assert_true (x >= 0 && x <= width && y >= 0 && y <= height);
      }
      for (guint i = 0; i < piece.scene->beads->len; i++) {
        double x, y;
        assert_true (bw_eye_project (&eye, g_array_index (piece.scene->beads, BwSceneBead, i).at,
                                     width, height, &x, &y));
        assert_true (x >= 0 && x <= width && y >= 0 && y <= height);
      }
    }
    piece_away (&piece);
  }
}

/* In an upright picture an upright stone is limited by its height, not by the narrow side. */
static void
a_tall_picture_is_filled_by_a_tall_stone (void **state)
{
  Piece piece = piece_at_hand (3);
  BwEye eye;
  double x, y, top = 1000, bottom = 0;
  bw_eye_init (&eye, (BwCamera){ 20, 0, 1 }, piece.scene, 500, 800);
  for (guint i = 0; i < piece.scene->stone->len; i++) {
    assert_true (bw_eye_project (&eye, g_array_index (piece.scene->stone, BwSceneVertex, i).at, 500,
                                 800, &x, &y));
    top = MIN (top, y);
    bottom = MAX (bottom, y);
  }
  assert_true (bottom - top > 0.85 * 800);
  piece_away (&piece);
}

static void
the_stone_turns_about_its_own_axis (void **state)
{
  Piece piece = piece_at_hand (0);
  for (int turn = 0; turn < 360; turn += 40) {
    const float on_axis[3] = { 0, 0, 10 };
    BwEye eye;
    double x, y;
    bw_eye_init (&eye, (BwCamera){ turn, 20, 1 }, piece.scene, WIDTH, HEIGHT);
    assert_true (bw_eye_project (&eye, on_axis, WIDTH, HEIGHT, &x, &y));
    assert_true (fabs (x - WIDTH / 2.0) < 1e-3);
  }
  piece_away (&piece);
}

static void
turn_and_tip_mean_what_they_say (void **state)
{
  Piece piece = piece_at_hand (0);
  BwEye eye;
  float *centre = piece.scene->centre;
  double x, y, x0, y0;
  bw_eye_init (&eye, (BwCamera){ 0, 0, 1 }, piece.scene, WIDTH, HEIGHT);
  assert_true (eye.eye[0] > centre[0] + 10 && fabsf (eye.eye[1] - centre[1]) < 1e-3f);
  /* The tip is up, azimuth 90° at the right. */
  assert_true (bw_eye_project (&eye, centre, WIDTH, HEIGHT, &x0, &y0));
  assert_true (fabs (x0 - WIDTH / 2.0) < 1e-3 && fabs (y0 - HEIGHT / 2.0) < 1e-3);
  float up[3] = { centre[0], centre[1], centre[2] + 5 };
  assert_true (bw_eye_project (&eye, up, WIDTH, HEIGHT, &x, &y) && y < y0 - 10);
  float right[3] = { centre[0], centre[1] + 5, centre[2] };
  assert_true (bw_eye_project (&eye, right, WIDTH, HEIGHT, &x, &y) && x > x0 + 10);
  bw_eye_init (&eye, (BwCamera){ 90, 0, 1 }, piece.scene, WIDTH, HEIGHT);
  assert_true (eye.eye[1] > centre[1] + 10);
  bw_eye_init (&eye, (BwCamera){ 0, 90, 1 }, piece.scene, WIDTH, HEIGHT);
  assert_true (eye.eye[2] > centre[2] + 10);
  assert_true (bw_eye_project (&eye, right, WIDTH, HEIGHT, &x, &y) && x > x0 + 10);
  piece_away (&piece);
}

/* Signed distance from the bead's rounded outer surface, written down once more on its own: the
 * core is a cylinder smaller by the rounding, the surface lies at the rounding's distance from it.
 */
static double
bead_distance (const BwScene *scene, const BwSceneBead *bead, BwVec3 p)
{
  BwVec3 off
      = bw_vec3_sub (p, bw_vec3 ((double)bead->at[0], (double)bead->at[1], (double)bead->at[2]));
  float hole[3];
  bw_bead_axis (bead, hole);
  BwVec3 axis = bw_vec3 ((double)hole[0], (double)hole[1], (double)hole[2]);
  double q = (double)scene->bead_rounding, z = bw_vec3_dot (off, axis);
  double r = bw_vec3_length (bw_vec3_sub (off, bw_vec3_scale (axis, z)));
  double over_r = r - ((double)scene->bead_radius - q);
  double over_z = fabs (z) - ((double)scene->bead_half_length - q);
  return over_r <= 0 || over_z <= 0 ? MAX (over_r, over_z) - q : hypot (over_r, over_z) - q;
}

static gboolean
in_stone (const BwScene *scene, BwVec3 p)
{
  for (guint i = 0; i < scene->stone_planes->len; i++) {
    const BwScenePlane *plane = &g_array_index (scene->stone_planes, BwScenePlane, i);
    if (p.x * (double)plane->normal[0] + p.y * (double)plane->normal[1]
            + p.z * (double)plane->normal[2]
        > (double)plane->distance)
      return FALSE;
  }
  return TRUE;
}

/* Walks the ray in small steps and looks where it is: slow, and without a formula in common with
 * what is tested. −2: within a step of another answer. */
static int
found_by_walking (const Piece *piece, const BwEye *eye, double x, double y)
{
  const double step = 0.01, doubt = 0.004;
  const BwScene *scene = piece->scene;
  BwVec3 from, along;
  bw_eye_ray (eye, x, y, WIDTH, HEIGHT, &from, &along);
  g_autoptr (GArray) near_ray = g_array_new (FALSE, FALSE, sizeof (int));
  for (int i = 0; i < (int)scene->beads->len; i++) {
    const float *at = g_array_index (scene->beads, BwSceneBead, i).at;
    BwVec3 to = bw_vec3_sub (bw_vec3 ((double)at[0], (double)at[1], (double)at[2]), from);
    if (bw_vec3_length (bw_vec3_cross (to, along)) < 1.2)
      g_array_append_val (near_ray, i);
  }
  double far = 2 * bw_vec3_length (from) + 2 * (double)scene->radius;
  int grazed = -1;
  for (double t = 0; t < far; t += step) {
    BwVec3 p = bw_vec3_add (from, bw_vec3_scale (along, t));
    if (in_stone (scene, p))
      return grazed == -1 ? -1 : -2;
    for (guint i = 0; i < near_ray->len; i++) {
      int index = g_array_index (near_ray, int, i);
      double d = bead_distance (scene, &g_array_index (scene->beads, BwSceneBead, index), p);
      if (d < 0)
        return grazed == -1 || grazed == index ? index : -2;
      if (d < doubt)
        grazed = grazed == -1 || grazed == index ? index : -2;
    }
  }
  return grazed == -1 ? -1 : -2;
}

static void
the_bead_under_a_pixel_is_the_one_a_walk_along_the_ray_finds (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (3);
  guint layers = BW_LAYER_ALL & ~(guint)BW_LAYER_BED;
  int found = 0, sure = 0;
  for (int which = 0; which < N_PIECES; which++) {
    Piece piece = piece_at_hand (which);
    for (int i = 0; i < 60; i++) {
      BwEye eye;
      double x = g_rand_double_range (rand, 0.25, 0.75) * WIDTH;
      double y = g_rand_double_range (rand, 0.2, 0.8) * HEIGHT;
      bw_eye_init (&eye, piece_camera (rand), piece.scene, WIDTH, HEIGHT);
      int walked = found_by_walking (&piece, &eye, x, y);
      if (walked == -2)
        continue;
      assert_int_equal (bw_eye_pick (&eye, piece.scene, layers, x, y, WIDTH, HEIGHT), walked);
      sure++;
      found += walked >= 0;
    }
    piece_away (&piece);
  }
  assert_true (sure > 150);
  assert_true (found > 50);
}

/* A bead that faces the eye squarely is the one found under its own middle. */
static void
a_bead_that_faces_the_eye_is_found_under_its_middle (void **state)
{
  for (int which = 0; which < N_PIECES; which++) {
    Piece piece = piece_at_hand (which);
    const BwScene *scene = piece.scene;
    for (int i = 0; i < scene->n_band; i += 7) {
      const BwSceneBead *bead = &g_array_index (scene->beads, BwSceneBead, i);
      BwEye eye;
      double x, y;
      BwCamera camera = { bw_degrees (atan2 ((double)bead->out[1], (double)bead->out[0])), 0, 2 };
      bw_eye_init (&eye, camera, scene, WIDTH, HEIGHT);
      assert_true (bw_eye_project (&eye, bead->at, WIDTH, HEIGHT, &x, &y));
      assert_int_equal (bw_eye_pick (&eye, scene, BW_LAYER_BAND, x, y, WIDTH, HEIGHT), i);
      camera.turn_deg += 180;
      bw_eye_init (&eye, camera, scene, WIDTH, HEIGHT);
      assert_true (bw_eye_project (&eye, bead->at, WIDTH, HEIGHT, &x, &y));
      assert_int_not_equal (bw_eye_pick (&eye, scene, BW_LAYER_ALL, x, y, WIDTH, HEIGHT), i);
    }
    piece_away (&piece);
  }
}

static void
what_is_not_shown_is_neither_found_nor_in_the_way (void **state)
{
  Piece piece = piece_at_hand (0);
  const BwScene *scene = piece.scene;
  const BwSceneBead *bead = &g_array_index (scene->beads, BwSceneBead, 0);
  BwEye eye;
  double x, y;
  BwCamera camera = { bw_degrees (atan2 ((double)bead->out[1], (double)bead->out[0])) + 180, 0, 1 };
  bw_eye_init (&eye, camera, scene, WIDTH, HEIGHT);
  assert_true (bw_eye_project (&eye, bead->at, WIDTH, HEIGHT, &x, &y));
  int front = bw_eye_pick (&eye, scene, BW_LAYER_ALL, x, y, WIDTH, HEIGHT);
  assert_true (front >= 0 && front != 0);
  assert_int_equal (bw_eye_pick (&eye, scene, BW_LAYER_STONE, x, y, WIDTH, HEIGHT), -1);
  assert_int_equal (bw_eye_pick (&eye, scene, BW_LAYER_BAIL, x, y, WIDTH, HEIGHT), -1);
  piece_away (&piece);
}

static void
the_bed_hides_what_lies_behind_it (void **state)
{
  Piece piece = piece_at_hand (3);
  BwScene *scene = piece.scene;
  int hidden = 0;
  /* With every bead but the farthest taken away, the bed alone stands before it. */
  const BwSceneBead far_bead = g_array_index (scene->beads, BwSceneBead, scene->n_band / 2);
  g_array_set_size (scene->beads, 0);
  g_array_append_val (scene->beads, far_bead);
  for (int tip = -6; tip <= 6; tip += 3) {
    BwEye eye;
    double x, y;
    BwCamera camera
        = { bw_degrees (atan2 ((double)far_bead.out[1], (double)far_bead.out[0])) + 180, tip, 1 };
    bw_eye_init (&eye, camera, scene, WIDTH, HEIGHT);
    assert_true (bw_eye_project (&eye, far_bead.at, WIDTH, HEIGHT, &x, &y));
    assert_int_equal (bw_eye_pick (&eye, scene, BW_LAYER_BAND, x, y, WIDTH, HEIGHT), 0);
    hidden += bw_eye_pick (&eye, scene, BW_LAYER_BAND | BW_LAYER_BED, x, y, WIDTH, HEIGHT) == -1;
  }
  assert_int_equal (hidden, 5);
  piece_away (&piece);
}

static void
coming_near_the_eye_aims_at_the_band (void **state)
{
  Piece piece = piece_at_hand (2);
  for (double zoom = 1; zoom <= 16; zoom *= 4) {
    BwEye eye;
    double x, y;
    bw_eye_init (&eye, (BwCamera){ 30, 10, zoom }, piece.scene, WIDTH, HEIGHT);
    assert_true (bw_eye_project (&eye, piece.scene->focus, WIDTH, HEIGHT, &x, &y));
    double off = hypot (x - WIDTH / 2.0, y - HEIGHT / 2.0);
    assert_true (zoom < 4 ? off > 5 : off < 0.1);
  }
  piece_away (&piece);
}

/* What lies over the foot of the picture covers nothing of the piece, however it is turned. */
static void
what_is_kept_free_below_stays_free (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (15);
  for (int which = 0; which < N_PIECES; which++) {
    Piece piece = piece_at_hand (which);
    piece.scene->free_below = 0.25f;
    for (int i = 0; i < 20; i++) {
      BwEye eye;
      BwCamera camera = piece_camera (rand);
      camera.zoom = 1;
      bw_eye_init (&eye, camera, piece.scene, WIDTH, HEIGHT);
      for (guint k = 0; k < piece.scene->stone->len; k++) {
        double x, y;
        const float *at = g_array_index (piece.scene->stone, BwSceneVertex, k).at;
        assert_true (bw_eye_project (&eye, at, WIDTH, HEIGHT, &x, &y));
        assert_true (y >= -0.5 && y <= 0.75 * HEIGHT + 0.5);
      }
    }
    piece_away (&piece);
  }
}

/* --- Views by name -----------------------------------------------------------------------------
 */

/* From the middle of the picture to the eye, in the piece's axes. */
static BwVec3
way_to_eye (const BwScene *scene, BwCamera camera)
{
  BwEye eye;
  bw_eye_init (&eye, camera, scene, WIDTH, HEIGHT);
  return bw_vec3 ((double)eye.view[0][2], (double)eye.view[1][2], (double)eye.view[2][2]);
}

static BwVec3
at_azimuth (double degrees)
{
  return bw_vec3 (cos (bw_radians (degrees)), sin (bw_radians (degrees)), 0);
}

/* Each face once, then the first again; whether the piece stands or hangs. */
static void
going_on_from_face_to_face_comes_round_the_stone (void **state)
{
  for (int which = 0; which < N_PIECES; which++) {
    Piece piece = piece_at_hand (which);
    int faces = bw_project_stone (piece.project)->faces;
    for (int hanging = 0; hanging <= piece.scene->rest.hangs; hanging++) {
      BwCamera camera = { .turn_deg = 77, .tip_deg = 5, .zoom = 1.5 };
      gboolean seen[BW_FACES_MAX] = { FALSE };
      if (hanging)
        bw_scene_stand_at_rest (piece.scene);
      for (int i = 0; i < faces; i++) {
        camera = bw_seen_from (BW_SEEN_FROM_FACE, piece.project, hanging, camera);
        BwVec3 way = way_to_eye (piece.scene, camera);
        int face = (int)lround (bw_degrees (atan2 (way.y, way.x)) / (360.0 / faces));
        face = (face + faces) % faces;
        assert_true (bw_vec3_dot (way, at_azimuth (face * 360.0 / faces)) > 1 - 1e-5);
        assert_false (seen[face]);
        assert_true (i == 0 || seen[(face + faces - 1) % faces]); /* counting on */
        seen[face] = TRUE;
        assert_true (camera.zoom == 1.5);
      }
    }
    piece_away (&piece);
  }
}

static void
the_join_and_the_front_are_looked_at_where_they_are (void **state)
{
  for (int which = 0; which < N_PIECES; which++) {
    Piece piece = piece_at_hand (which);
    const BwDesign *design = bw_project_get_design (piece.project);
    BwCamera now = { .turn_deg = 12, .tip_deg = 40, .zoom = 3 };
    BwCamera join = bw_seen_from (BW_SEEN_FROM_JOIN, piece.project, FALSE, now);
    BwVec3 seam = at_azimuth (design->band.seam_deg);
    assert_true (bw_vec3_dot (way_to_eye (piece.scene, join), seam) > 1 - 1e-5);
    BwCamera front = bw_seen_from (BW_SEEN_FROM_FRONT, piece.project, FALSE, now);
    BwVec3 back = design->bail.style == BW_BAIL_NONE ? seam : at_azimuth (design->bail.at_deg);
    assert_true (bw_vec3_dot (way_to_eye (piece.scene, front), back) < -0.95);
    BwCamera above = bw_seen_from (BW_SEEN_FROM_ABOVE, piece.project, FALSE, now);
    assert_true (way_to_eye (piece.scene, above).z > 1 - 1e-5);
    if (piece.scene->rest.hangs) {
      bw_scene_stand_at_rest (piece.scene);
      join = bw_seen_from (BW_SEEN_FROM_JOIN, piece.project, TRUE, now);
      assert_true (bw_vec3_dot (way_to_eye (piece.scene, join), seam) > 1 - 1e-5);
    }
    piece_away (&piece);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (coming_near_the_eye_aims_at_the_band),
    cmocka_unit_test (a_ray_passes_through_what_is_projected_on_its_pixel),
    cmocka_unit_test (at_zoom_one_the_whole_piece_is_in_the_picture),
    cmocka_unit_test (a_tall_picture_is_filled_by_a_tall_stone),
    cmocka_unit_test (the_stone_turns_about_its_own_axis),
    cmocka_unit_test (turn_and_tip_mean_what_they_say),
    cmocka_unit_test (the_bead_under_a_pixel_is_the_one_a_walk_along_the_ray_finds),
    cmocka_unit_test (a_bead_that_faces_the_eye_is_found_under_its_middle),
    cmocka_unit_test (what_is_not_shown_is_neither_found_nor_in_the_way),
    cmocka_unit_test (the_bed_hides_what_lies_behind_it),
    cmocka_unit_test (what_is_kept_free_below_stays_free),
    cmocka_unit_test (going_on_from_face_to_face_comes_round_the_stone),
    cmocka_unit_test (the_join_and_the_front_are_looked_at_where_they_are),
  };
  return cmocka_run_group_tests_name ("camera", tests, NULL, NULL);
}
