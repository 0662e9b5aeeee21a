/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The piece standing upright, hanging at rest, or on its way there: pose, framing and cord. At rest
 * the picture is framed about the plumb line, so that nothing swings out of it while the viewer
 * walks round the piece. */
#include "preview/scene/scene-parts.h"

#define CORD_ABOVE 0.55 /* cord to be seen over the piece at rest, in half sizes of the piece */
/* Length of each end, in the same: in any picture of usual shape it leaves at the top, whole. */
#define CORD_AT_REST 4.5

static BwVec3
wide (const float v[3])
{
  return bw_vec3 ((double)v[0], (double)v[1], (double)v[2]);
}

static BwStance
upright_stance (const BwScene *scene)
{
  return (BwStance){ .centre = wide (scene->centre),
                     .radius = (double)scene->radius,
                     .breadth = (double)scene->breadth,
                     .stands = TRUE };
}

/* What the piece takes up about the plumb line: heights over the point it hangs by; once the middle
 * is known, the sphere about it. */
typedef struct {
  double low, high, breadth;
  double middle, radius;
} Extent;

typedef void (*Take) (Extent *extent, BwVec3 hung, double reach);

/* Where the piece's own axes point while it hangs: a turn worked out once for all its beads. */
typedef struct {
  BwVec3 hold, x, y, z;
} Hung;

static void
take_heights (Extent *extent, BwVec3 hung, double reach)
{
  extent->low = MIN (extent->low, hung.z - reach);
  extent->high = MAX (extent->high, hung.z + reach);
  extent->breadth = MAX (extent->breadth, sqrt (hung.x * hung.x + hung.y * hung.y) + reach);
}

static void
take_distance (Extent *extent, BwVec3 hung, double reach)
{
  hung.z -= extent->middle;
  extent->radius = MAX (extent->radius, bw_vec3_length (hung) + reach);
}

static Hung
axes_hung (const BwSceneRest *rest)
{
  return (Hung){ rest->hold, bw_pose_turn (rest->stance.pose, bw_vec3 (1, 0, 0)),
                 bw_pose_turn (rest->stance.pose, bw_vec3 (0, 1, 0)),
                 bw_pose_turn (rest->stance.pose, bw_vec3 (0, 0, 1)) };
}

static BwVec3
hung (const Hung *axes, const float at[3])
{
  BwVec3 off = bw_vec3_sub (wide (at), axes->hold);
  return bw_vec3_add (bw_vec3_scale (axes->x, off.x),
                      bw_vec3_add (bw_vec3_scale (axes->y, off.y), bw_vec3_scale (axes->z, off.z)));
}

static void
each_part (const BwScene *scene, Take take, Extent *extent)
{
  const Hung axes = axes_hung (&scene->rest);
  double reach = hypot ((double)scene->bead_radius, (double)scene->bead_half_length);
  for (guint i = 0; i < scene->stone->len; i++)
    take (extent, hung (&axes, g_array_index (scene->stone, BwSceneVertex, i).at), 0);
  for (guint i = 0; i < scene->beads->len; i++)
    take (extent, hung (&axes, g_array_index (scene->beads, BwSceneBead, i).at), reach);
  for (guint i = 0; i < scene->ring.stations->len; i++)
    take (extent, hung (&axes, g_array_index (scene->ring.stations, BwSceneStation, i).at),
          (double)scene->ring.radius);
}

static void
frame_at_rest (BwScene *scene)
{
  BwStance *stance = &scene->rest.stance;
  Extent extent = { 0 };
  each_part (scene, take_heights, &extent);
  scene->rest.drop = -extent.low;
  extent.high += CORD_ABOVE * (double)scene->radius;
  extent.middle = (extent.low + extent.high) / 2;
  extent.radius = extent.high - extent.middle;
  each_part (scene, take_distance, &extent);
  BwVec3 up = bw_pose_turn_back (stance->pose, bw_vec3 (0, 0, 1));
  stance->centre = bw_vec3_add (scene->rest.hold, bw_vec3_scale (up, extent.middle));
  stance->breadth = extent.breadth;
  stance->radius = extent.radius;
}

void
bw_scene_add_rest (BwScene *scene, const BwHang *hang)
{
  BwSceneRest *rest = &scene->rest;
  rest->hangs = hang->has_bail;
  rest->stance = upright_stance (scene);
  rest->centroid = hang->centroid;
  if (!rest->hangs)
    return;
  rest->stance.pose = bw_pose_at_rest (hang);
  rest->stance.stands = FALSE;
  rest->hold = hang->hold;
  rest->tilt_deg = hang->tilt_deg;
  rest->up = hang->up;
  frame_at_rest (scene);
}

void
bw_scene_stand_upright (BwScene *scene)
{
  scene->stance = upright_stance (scene);
  g_array_set_size (scene->cord.stations, 0);
}

void
bw_scene_stand_at_rest (BwScene *scene)
{
  if (!scene->rest.hangs) {
    bw_scene_stand_upright (scene);
    return;
  }
  scene->stance = scene->rest.stance;
  bw_scene_lay_cord (scene, bw_pose_turn_back (scene->stance.pose, bw_vec3 (0, 0, 1)),
                     CORD_AT_REST * (double)scene->radius);
}

static double
between (double from, double to, double share)
{
  return from + (to - from) * share;
}

/* The middle of the picture as the room has it, seen from the point the piece hangs by: that point
 * stands still while the piece swings. */
static BwVec3
centre_on_the_way (const BwScene *scene, double arrived)
{
  const BwSceneRest *rest = &scene->rest;
  BwPose turned = rest->stance.pose;
  turned.lean = 0;
  BwVec3 start = bw_pose_turn (turned, bw_vec3_sub (wide (scene->centre), rest->hold));
  BwVec3 end = bw_pose_turn (rest->stance.pose, bw_vec3_sub (rest->stance.centre, rest->hold));
  return bw_vec3_add (bw_vec3_scale (start, 1 - arrived), bw_vec3_scale (end, arrived));
}

void
bw_scene_stand_swinging (BwScene *scene, double lean, double arrived)
{
  const BwSceneRest *rest = &scene->rest;
  BwStance upright = upright_stance (scene), *now = &scene->stance;
  g_return_if_fail (rest->hangs);
  now->pose = rest->stance.pose;
  now->pose.lean = lean;
  now->stands = FALSE;
  now->centre
      = bw_vec3_add (rest->hold, bw_pose_turn_back (now->pose, centre_on_the_way (scene, arrived)));
  now->radius = between (upright.radius, rest->stance.radius, arrived);
  now->breadth = between (upright.breadth, rest->stance.breadth, arrived);
  /* The cord goes along with the piece at first and is pulled straight up as the piece arrives. */
  BwPose cord = rest->stance.pose;
  cord.lean = between (cord.lean, lean, arrived);
  bw_scene_lay_cord (scene, bw_pose_turn_back (cord, bw_vec3 (0, 0, 1)),
                     CORD_AT_REST * (double)scene->radius);
}
