/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The piece at rest in the picture: how it stands against the core, how it gets there, and the cord
 * it hangs by. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "pieces.h"
#include "preview/scene/camera.h"
#include "preview/gl/offscreen-context.h"
#include "preview/picture/projection.h"
#include "preview/scene/swing.h"
#include "preview/scene/scene-bead.h"
#include <string.h>

enum { PIECES = 40 };

static const BwBailStyle styles[] = { BW_BAIL_FLAP, BW_BAIL_UPRIGHT, BW_BAIL_RING, BW_BAIL_OVER };

/* One of many pieces by lot, every style in turn. */
typedef struct {
  BwProject *project;
  BwScene *scene;
  const BwHang *hang;
  const BwDesign *design;
} Piece;

static Piece
piece_at_rest (GRand *rand, int i)
{
  Piece piece = { .project = piece_random (rand, styles[i % 4]) };
  piece.scene = bw_scene_new (piece.project, FALSE);
  piece.hang = bw_project_hang (piece.project);
  piece.design = bw_project_get_design (piece.project);
  bw_scene_stand_at_rest (piece.scene);
  return piece;
}

static void
piece_clear (Piece *piece)
{
  bw_scene_free (piece->scene);
  g_object_unref (piece->project);
}

static BwVec3
wide (const float v[3])
{
  return bw_vec3 ((double)v[0], (double)v[1], (double)v[2]);
}

static const BwSceneStation *
station (const BwSceneTube *tube, guint i)
{
  return &g_array_index (tube->stations, BwSceneStation, i);
}

/* --- The stance --------------------------------------------------------------------------------
 */

static void
the_axis_leans_as_the_core_tilts_it (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (71);
  int level = 0, up = 0, down = 0;
  for (int i = 0; i < 4 * PIECES; i++) {
    Piece piece = piece_at_rest (rand, i);
    BwVec3 axis = bw_pose_turn (piece.scene->stance.pose, bw_vec3 (0, 0, 1));
    double from_up = bw_degrees (atan2 (hypot (axis.x, axis.y), axis.z));
    double told = piece.hang->up == BW_UP_BASE ? 180 - piece.hang->tilt_deg : piece.hang->tilt_deg;
    assert_true (fabs (from_up - told) < 1e-6);
    level += piece.hang->up == BW_UP_LEVEL;
    up += piece.hang->up == BW_UP_TIP;
    down += piece.hang->up == BW_UP_BASE;
    piece_clear (&piece);
  }
  assert_true (level > 5 && up > 5 && down > 5);
}

/* However little it leans, and whichever way: it is looked at across its cord. */
static void
a_loop_over_the_tip_turns_its_azimuth_to_where_the_camera_looks_for_it (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (84);
  for (int i = 0; i < PIECES; i++) {
    g_autoptr (BwProject) project = piece_random (rand, BW_BAIL_OVER);
    BwDesign design = *bw_project_get_design (project);
    bw_bail_reach_over (&design, bw_project_stone (project));
    assert_true (bw_project_set_design (project, "Across", &design, NULL));
    g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
    bw_scene_stand_at_rest (scene);
    double at = bw_radians (design.bail.at_deg);
    BwVec3 side = bw_pose_turn (scene->stance.pose, bw_vec3 (cos (at), sin (at), 0));
    /* The feet lie by the ring's length, the azimuth does not. */
    assert_true (fabs (atan2 (side.y, side.x)) < 0.3);
  }
}

static void
the_balance_point_hangs_plumb_under_the_cord (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (72);
  for (int i = 0; i < 4 * PIECES; i++) {
    Piece piece = piece_at_rest (rand, i);
    const BwSceneRest *rest = &piece.scene->rest;
    BwVec3 down = bw_pose_turn (piece.scene->stance.pose, bw_vec3_sub (rest->centroid, rest->hold));
    assert_true (hypot (down.x, down.y) < 1e-6);
    assert_true (down.z < 0 && -down.z < rest->drop);
    piece_clear (&piece);
  }
}

static void
a_pose_turned_back_is_where_it_was (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (73);
  for (int i = 0; i < 500; i++) {
    BwPose pose = { g_rand_double_range (rand, -7, 7), g_rand_double_range (rand, -4, 4),
                    g_rand_double_range (rand, -7, 7) };
    BwVec3 v = bw_vec3 (g_rand_double_range (rand, -9, 9), g_rand_double_range (rand, -9, 9),
                        g_rand_double_range (rand, -9, 9));
    BwVec3 back = bw_pose_turn_back (pose, bw_pose_turn (pose, v));
    assert_true (bw_vec3_length (bw_vec3_sub (back, v)) < 1e-12);
    assert_true (fabs (bw_vec3_length (bw_pose_turn (pose, v)) - bw_vec3_length (v)) < 1e-12);
  }
}

static void
the_plumb_line_is_upright_in_the_picture (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (74);
  for (int i = 0; i < PIECES; i++) {
    Piece piece = piece_at_rest (rand, i);
    const BwSceneRest *rest = &piece.scene->rest;
    BwCamera camera
        = { g_rand_double_range (rand, 0, 360), g_rand_double_range (rand, -60, 60), 1 };
    const float hold[] = { (float)rest->hold.x, (float)rest->hold.y, (float)rest->hold.z };
    const float balance[]
        = { (float)rest->centroid.x, (float)rest->centroid.y, (float)rest->centroid.z };
    double x0, y0, x1, y1;
    BwEye eye;
    bw_eye_init (&eye, camera, piece.scene, 500, 700);
    assert_true (bw_eye_project (&eye, hold, 500, 700, &x0, &y0));
    assert_true (bw_eye_project (&eye, balance, 500, 700, &x1, &y1));
    assert_true (fabs (x0 - 250) < 0.02 && fabs (x1 - 250) < 0.02 && y1 > y0);
    piece_clear (&piece);
  }
}

static gboolean
is_inside (const BwEye *eye, const float at[3], int width, int height)
{
  double x, y;
  return bw_eye_project (eye, at, width, height, &x, &y) && x >= 0 && x <= width && y >= 0
         && y <= height;
}

static void
the_whole_piece_stays_in_the_picture_as_the_viewer_walks_round (void **state)
{
  static const int sizes[][2] = { { 420, 700 }, { 700, 420 }, { 300, 300 } };
  g_autoptr (GRand) rand = g_rand_new_with_seed (75);
  for (int i = 0; i < PIECES; i++) {
    Piece piece = piece_at_rest (rand, i);
    const int *size = sizes[g_rand_int_range (rand, 0, 3)];
    BwCamera camera
        = { g_rand_double_range (rand, 0, 360), g_rand_double_range (rand, -90, 90), 1 };
    BwEye eye;
    bw_eye_init (&eye, camera, piece.scene, size[0], size[1]);
    for (guint k = 0; k < piece.scene->stone->len; k++)
      assert_true (is_inside (&eye, g_array_index (piece.scene->stone, BwSceneVertex, k).at,
                              size[0], size[1]));
    for (guint k = 0; k < piece.scene->beads->len; k++)
      assert_true (is_inside (&eye, g_array_index (piece.scene->beads, BwSceneBead, k).at, size[0],
                              size[1]));
    piece_clear (&piece);
  }
}

static void
without_a_bail_the_piece_stands_and_no_cord_is_drawn (void **state)
{
  g_autoptr (BwProject) project = piece_new (3);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  assert_false (scene->rest.hangs);
  bw_scene_stand_at_rest (scene);
  assert_true (scene->stance.pose.lean == 0 && scene->stance.pose.turn == 0);
  assert_int_equal (scene->cord.stations->len, 0);
  assert_int_equal (scene->ring.stations->len, 0);
}

/* --- The swing ---------------------------------------------------------------------------------
 */

static void
a_swing_begins_as_told_and_ends_exactly_at_rest (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (76);
  for (int i = 0; i < 200; i++) {
    BwSwing start = { g_rand_double_range (rand, -3.2, 3.2), g_rand_double_range (rand, -9, 9) };
    BwSwing first = bw_swing_after (start, 0), last = bw_swing_after (start, BW_SWING_S);
    assert_true (fabs (first.offset - start.offset) < 1e-12);
    assert_true (fabs (first.speed - start.speed) < 1e-12);
    assert_true (last.offset == 0 && last.speed == 0);
    /* What is cut off at the end is not to be seen. */
    assert_true (fabs (bw_swing_after (start, BW_SWING_S - 1e-6).offset) < 0.0035);
  }
}

static void
the_energy_of_a_swing_never_grows (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (77);
  for (int i = 0; i < 200; i++) {
    BwSwing start = { g_rand_double_range (rand, -3.2, 3.2), g_rand_double_range (rand, -9, 9) };
    double before = bw_swing_energy (start);
    for (int k = 1; k <= 400; k++) {
      double energy = bw_swing_energy (bw_swing_after (start, k * BW_SWING_S / 400));
      assert_true (energy <= before);
      before = energy;
    }
  }
}

static void
the_speed_of_a_swing_is_how_its_offset_changes (void **state)
{
  const BwSwing start = { 1.4, -2 };
  for (double t = 0.01; t < 1.4; t += 0.013) {
    double ahead = bw_swing_after (start, t + 1e-6).offset;
    double behind = bw_swing_after (start, t - 1e-6).offset;
    assert_true (fabs ((ahead - behind) / 2e-6 - bw_swing_after (start, t).speed) < 1e-6);
  }
}

static void
a_piece_let_go_overshoots_a_little_and_once_visibly (void **state)
{
  const BwSwing start = { 1, 0 };
  double least = 1, most_after = 0, at_least = 0;
  for (double t = 0; t < BW_SWING_S; t += 0.001) {
    double offset = bw_swing_after (start, t).offset;
    if (offset < least) {
      least = offset;
      at_least = t;
    }
  }
  for (double t = at_least; t < BW_SWING_S; t += 0.001)
    most_after = MAX (most_after, bw_swing_after (start, t).offset);
  assert_true (least < -0.1 && least > -0.35);
  assert_true (most_after < 0.08);
}

static void
on_its_way_the_piece_hangs_from_a_point_that_stands_still (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (78);
  for (int i = 0; i < PIECES; i++) {
    Piece piece = piece_at_rest (rand, i);
    BwScene *scene = piece.scene;
    double lean = scene->rest.stance.pose.lean;
    BwVec3 still
        = bw_pose_turn (scene->stance.pose, bw_vec3_sub (scene->rest.hold, scene->stance.centre));
    for (double off = -1; off <= 1; off += 0.25) {
      bw_scene_stand_swinging (scene, lean + off, 1);
      BwVec3 now
          = bw_pose_turn (scene->stance.pose, bw_vec3_sub (scene->rest.hold, scene->stance.centre));
      assert_true (bw_vec3_length (bw_vec3_sub (now, still)) < 1e-9);
      assert_true (fabs (scene->stance.pose.lean - lean - off) < 1e-12);
    }
    bw_scene_stand_swinging (scene, lean, 1);
    const BwStance arrived = scene->stance;
    bw_scene_stand_at_rest (scene);
    assert_true (bw_vec3_length (bw_vec3_sub (arrived.centre, scene->stance.centre)) < 1e-9);
    assert_true (fabs (arrived.radius - scene->stance.radius) < 1e-9);
    piece_clear (&piece);
  }
}

/* --- The cord ----------------------------------------------------------------------------------
 */

/* How far a point is outside a bead, its rims taken as sharp and its hole as filled. */
static double
outside_bead (const BwScene *scene, const BwSceneBead *bead, BwVec3 at)
{
  float hole[3];
  bw_bead_axis (bead, hole);
  BwVec3 from = bw_vec3_sub (at, wide (bead->at)), axis = wide (hole);
  double h = bw_vec3_dot (from, axis);
  double r = bw_vec3_length (bw_vec3_sub (from, bw_vec3_scale (axis, h)));
  double out = r - (double)scene->bead_radius, along = fabs (h) - (double)scene->bead_half_length;
  return out < 0 || along < 0 ? MAX (out, along) : hypot (out, along);
}

/* How near the middle line of a tube comes to any bead of the bail, walked in small steps. */
static double
nearest_bead (const BwScene *scene, const BwSceneTube *tube)
{
  double nearest = 1e9;
  for (guint i = 0; i + 1 < tube->stations->len; i++)
    for (int k = 0; k < 8; k++) {
      BwVec3 a = wide (station (tube, i)->at), b = wide (station (tube, i + 1)->at);
      BwVec3 at = bw_vec3_add (a, bw_vec3_scale (bw_vec3_sub (b, a), k / 8.0));
      for (int j = scene->n_band; j < (int)scene->beads->len; j++)
        nearest = MIN (nearest,
                       outside_bead (scene, &g_array_index (scene->beads, BwSceneBead, j), at));
    }
  return nearest;
}

static void
the_cord_passes_the_opening_without_cutting_a_bead (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (79);
  int tried = 0;
  for (int i = 0; i < 4 * PIECES; i++) {
    Piece piece = piece_at_rest (rand, i);
    const BwScene *scene = piece.scene;
    double radius = (double)scene->cord.radius;
    assert_true (fabs (2 * radius - piece.design->bail.cord_mm) < 1e-6);
    if (piece.hang->loop.largest_cord_mm >= piece.design->bail.cord_mm) {
      assert_true (nearest_bead (scene, &scene->cord) > radius - 0.02);
      tried++;
    }
    piece_clear (&piece);
  }
  assert_true (tried > PIECES);
}

/* In the plane across the opening: inside the arc of the loop, over its base. */
static void
the_middle_of_the_cord_lies_in_the_loop_and_its_ends_on_either_side (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (80);
  for (int i = 0; i < 4 * PIECES; i++) {
    Piece piece = piece_at_rest (rand, i);
    const BwSceneTube *cord = &piece.scene->cord;
    if (piece.design->bail.style != BW_BAIL_RING
        && piece.hang->loop.largest_cord_mm >= piece.design->bail.cord_mm) {
      BwVec3 pivot = piece.hang->pivot, along = piece.scene->seat.along;
      BwVec3 in = bw_vec3_sub (wide (station (cord, cord->stations->len / 2)->at), pivot);
      double deep = -bw_vec3_dot (in, piece.scene->seat.over);
      assert_true (fabs (bw_vec3_dot (in, along)) < 1e-3);
      assert_true (deep > 0 && deep < piece.hang->loop.opening_mm);
      double half = piece.design->bail.columns * piece.design->gauge.column_mm / 2 - 0.2;
      double first = bw_vec3_dot (bw_vec3_sub (wide (station (cord, 0)->at), pivot), along);
      double last = bw_vec3_dot (
          bw_vec3_sub (wide (station (cord, cord->stations->len - 1)->at), pivot), along);
      if (piece.hang->level)
        assert_true (first < -half && last > half);
    }
    piece_clear (&piece);
  }
}

static void
both_ends_of_the_cord_go_up_and_part_gently (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (81);
  for (int i = 0; i < 4 * PIECES; i++) {
    Piece piece = piece_at_rest (rand, i);
    const BwSceneTube *cord = &piece.scene->cord;
    guint last = cord->stations->len - 1;
    assert_true (station (cord, 0)->shown == 0 && station (cord, last)->shown == 0);
    for (int end = 0; end < 2; end++) {
      const BwSceneStation *tip = station (cord, end ? last : 0);
      BwVec3 way = bw_vec3_scale (wide (tip->tangent), end ? 1 : -1);
      BwVec3 rise = bw_pose_turn (piece.scene->stance.pose, way);
      assert_true (rise.z > cos (bw_radians (35)));
    }
    piece_clear (&piece);
  }
}

static void
the_metal_ring_is_closed_and_linked_with_loop_and_cord (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (82);
  int tried = 0;
  for (int i = 2; i < 8 * PIECES; i += 4) {
    Piece piece = piece_at_rest (rand, i);
    const BwScene *scene = piece.scene;
    const BwSceneTube *ring = &scene->ring;
    guint last = ring->stations->len - 1;
    assert_true (
        bw_vec3_length (bw_vec3_sub (wide (station (ring, 0)->at), wide (station (ring, last)->at)))
        < 1e-3);
    if (piece.hang->loop.largest_cord_mm >= piece.design->bail.cord_mm) {
      double wire = (double)ring->radius;
      assert_true (nearest_bead (scene, ring) > wire - 0.02);
      /* It goes round the crest: under it and over it. */
      double least = 1e9, most = -1e9;
      for (guint k = 0; k <= last; k++) {
        double over = bw_vec3_dot (bw_vec3_sub (wide (station (ring, k)->at), piece.hang->pivot),
                                   bw_vec3 (cos (bw_radians (piece.design->bail.at_deg)),
                                            sin (bw_radians (piece.design->bail.at_deg)), 0));
        least = MIN (least, over);
        most = MAX (most, over);
      }
      assert_true (least < -wire && least > -piece.hang->loop.opening_mm + wire - 1e-3);
      assert_true (most > piece.design->bead.diameter_mm + wire);
      tried++;
    }
    piece_clear (&piece);
  }
  assert_true (tried > 15);
}

/* --- The picture -------------------------------------------------------------------------------
 */

enum { SIZE = 300 };

static guint8
opacity (cairo_surface_t *surface, int x, int y)
{
  guint32 value;
  cairo_surface_flush (surface);
  memcpy (&value,
          cairo_image_surface_get_data (surface) + y * cairo_image_surface_get_stride (surface)
              + 4 * x,
          4);
  return (guint8)(value >> 24);
}

static cairo_surface_t *
drawing (const BwScene *scene, BwCamera camera, guint layers)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, SIZE, SIZE);
  cairo_t *cr = cairo_create (surface);
  bw_projection_draw (cr, scene, camera, layers, BW_LIGHT_DAY, -1, SIZE, SIZE);
  cairo_destroy (cr);
  return surface;
}

/* The pixel a station falls on. */
static void
place (const BwScene *scene, BwCamera camera, const BwSceneStation *at, int *x, int *y)
{
  BwEye eye;
  double px, py;
  bw_eye_init (&eye, camera, scene, SIZE, SIZE);
  assert_true (bw_eye_project (&eye, at->at, SIZE, SIZE, &px, &py));
  *x = CLAMP ((int)px, 0, SIZE - 1);
  *y = CLAMP ((int)py, 0, SIZE - 1);
}

static void
the_cord_is_seen_over_the_piece_by_either_way_of_drawing (void **state)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (BwOffscreen) gl = bw_offscreen_new (FALSE, &error);
  assert_non_null (gl);
  for (int i = 0; i < 3; i++) {
    g_autoptr (BwProject) project = piece_new (i);
    g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
    bw_scene_stand_at_rest (scene);
    BwCamera camera = { 298, 9, 1 };
    guint with = BW_LAYER_ALL, without = BW_LAYER_ALL & ~(guint)BW_LAYER_CORD;
    bw_offscreen_set_scene (gl, scene);
    cairo_surface_t *shown[] = {
      bw_offscreen_picture (gl, scene, camera, with, BW_LIGHT_DAY, -1, SIZE, SIZE, &error),
      drawing (scene, camera, with),
      bw_offscreen_picture (gl, scene, camera, without, BW_LIGHT_DAY, -1, SIZE, SIZE, &error),
      drawing (scene, camera, without),
    };
    /* On each end, clear of the piece. */
    guint n = scene->cord.stations->len;
    const guint stations[] = { 30, n - 31 };
    for (int k = 0; k < 2; k++) {
      int x, y;
      place (scene, camera, station (&scene->cord, stations[k]), &x, &y);
      for (int way = 0; way < 2; way++) {
        assert_true (opacity (shown[way], x, y) > 250);
        assert_int_equal (opacity (shown[2 + way], x, y), 0);
      }
    }
    for (int k = 0; k < 4; k++)
      cairo_surface_destroy (shown[k]);
  }
}

/* Where every azimuth would do the bail keeps its own. */
static void
a_piece_that_hangs_straight_turns_to_its_bail (void **state)
{
  BwHang hang = { .has_bail = TRUE, .vertical = { 0, 0, 1 }, .pivot = { 0, 3, 40 } };
  BwPose pose = bw_pose_at_rest (&hang);
  assert_true (fabs (pose.turn - G_PI / 2) < 1e-12);
  assert_true (pose.lean == 0);
}

/* In a picture as high as wide or a third higher. */
static void
upright_there_is_no_cord_and_at_rest_it_leaves_the_picture_whole (void **state)
{
  for (int i = 0; i < 3; i++) {
    g_autoptr (BwProject) project = piece_new (i);
    g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
    assert_int_equal (scene->cord.stations->len, 0);
    bw_scene_stand_at_rest (scene);
    const int heights[] = { 300, 400 };
    for (gsize k = 0; k < G_N_ELEMENTS (heights); k++) {
      BwEye eye;
      int above = 0;
      bw_eye_init (&eye, bw_session_camera_at_rest, scene, 300, heights[k]);
      for (guint n = 0; n < scene->cord.stations->len; n++) {
        const BwSceneStation *at = station (&scene->cord, n);
        double x, y;
        assert_true (bw_eye_project (&eye, at->at, 300, heights[k], &x, &y));
        above += y < 0;
        assert_true (y < 0 || at->shown == 1);
      }
      assert_true (above > 2);
    }
    bw_scene_stand_upright (scene);
    assert_int_equal (scene->cord.stations->len, 0);
  }
}

/* A maker reads the tilt off the picture before any number: seen as the stage opens, the axis
 * slopes the way the piece tilts and about as much. The stage looks aslant at the axis, which makes
 * slopes steeper by 1 / cos 28° = 1.13 and, through the eye's nearness, by a degree or two. */
static void
the_axis_slopes_in_the_picture_as_the_piece_tilts (void **state)
{
  int seen = 0;
  for (int i = 0; i < 3; i++) {
    g_autoptr (BwProject) project = piece_new (i);
    g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
    const BwHang *hang = bw_project_hang (project);
    BwEye eye;
    double x[2], y[2];
    bw_scene_stand_at_rest (scene);
    bw_eye_init (&eye, bw_session_camera_at_rest, scene, 400, 400);
    for (int end = 0; end < 2; end++) {
      const float at[3] = { (float)scene->rest.centroid.x, (float)scene->rest.centroid.y,
                            (float)scene->rest.centroid.z + (end ? 6 : -6) };
      assert_true (bw_eye_project (&eye, at, 400, 400, &x[end], &y[end]));
    }
    double slope = bw_degrees (atan2 (y[0] - y[1], fabs (x[1] - x[0])));
    double tilt = 90 - bw_degrees (acos (CLAMP (hang->vertical.z, -1, 1)));
    if (fabs (tilt) > 60)
      continue;
    if (fabs (slope - tilt) > 2.5 + 0.15 * fabs (tilt))
      fail_msg ("piece %d tilts by %.1f° and looks as by %.1f°", i, tilt, slope);
    seen++;
  }
  assert_true (seen > 1);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_piece_that_hangs_straight_turns_to_its_bail),
    cmocka_unit_test (the_axis_slopes_in_the_picture_as_the_piece_tilts),
    cmocka_unit_test (the_axis_leans_as_the_core_tilts_it),
    cmocka_unit_test (a_loop_over_the_tip_turns_its_azimuth_to_where_the_camera_looks_for_it),
    cmocka_unit_test (the_balance_point_hangs_plumb_under_the_cord),
    cmocka_unit_test (a_pose_turned_back_is_where_it_was),
    cmocka_unit_test (the_plumb_line_is_upright_in_the_picture),
    cmocka_unit_test (the_whole_piece_stays_in_the_picture_as_the_viewer_walks_round),
    cmocka_unit_test (without_a_bail_the_piece_stands_and_no_cord_is_drawn),
    cmocka_unit_test (a_swing_begins_as_told_and_ends_exactly_at_rest),
    cmocka_unit_test (the_energy_of_a_swing_never_grows),
    cmocka_unit_test (the_speed_of_a_swing_is_how_its_offset_changes),
    cmocka_unit_test (a_piece_let_go_overshoots_a_little_and_once_visibly),
    cmocka_unit_test (on_its_way_the_piece_hangs_from_a_point_that_stands_still),
    cmocka_unit_test (the_cord_passes_the_opening_without_cutting_a_bead),
    cmocka_unit_test (the_middle_of_the_cord_lies_in_the_loop_and_its_ends_on_either_side),
    cmocka_unit_test (both_ends_of_the_cord_go_up_and_part_gently),
    cmocka_unit_test (upright_there_is_no_cord_and_at_rest_it_leaves_the_picture_whole),
    cmocka_unit_test (the_metal_ring_is_closed_and_linked_with_loop_and_cord),
    cmocka_unit_test (the_cord_is_seen_over_the_piece_by_either_way_of_drawing),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
