/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stone is convex: a ray enters it through the last of the planes it crosses inward, and a
 * point outside lies before the face that it is farthest beyond. */
#include "preview/scene/facing.h"

static BwVec3
normal_of (const BwScene *scene, int face)
{
  const float *n = g_array_index (scene->stone_planes, BwScenePlane, face).normal;
  return bw_vec3 ((double)n[0], (double)n[1], (double)n[2]);
}

/* How far a point is beyond a face's plane. */
static double
beyond (const BwScene *scene, int face, BwVec3 at)
{
  return bw_vec3_dot (normal_of (scene, face), at)
         - (double)g_array_index (scene->stone_planes, BwScenePlane, face).distance;
}

static int
face_before (const BwScene *scene, const float at[3])
{
  int found = -1;
  double most = -G_MAXDOUBLE;
  for (int i = 0; i < (int)scene->stone_planes->len; i++) {
    double off = beyond (scene, i, bw_vec3 ((double)at[0], (double)at[1], (double)at[2]));
    if (off > most) {
      most = off;
      found = i;
    }
  }
  return found;
}

static int
face_entered (const BwScene *scene, BwVec3 from, BwVec3 along)
{
  int found = -1;
  double enter = 0, leave = G_MAXDOUBLE;
  for (int i = 0; i < (int)scene->stone_planes->len; i++) {
    double way = bw_vec3_dot (normal_of (scene, i), along), off = beyond (scene, i, from);
    if (way < 0 && off / -way > enter) {
      enter = off / -way;
      found = i;
    } else if (way > 0)
      leave = MIN (leave, off / -way);
    else if (way == 0 && off > 0)
      return -1;
  }
  return enter < leave ? found : -1;
}

int
bw_face_under (const BwEye *eye, const BwScene *scene, guint layers, double x, double y, int width,
               int height)
{
  BwVec3 from, along;
  int bead = bw_eye_pick (eye, scene, layers, x, y, width, height);
  if (bead >= 0)
    return face_before (scene, g_array_index (scene->beads, BwSceneBead, bead).at);
  if (!(layers & BW_LAYER_STONE))
    return -1;
  bw_eye_ray (eye, x, y, width, height, &from, &along);
  return face_entered (scene, from, along);
}

BwCamera
bw_camera_facing (const BwScene *scene, int face, BwCamera now)
{
  BwVec3 way = bw_pose_turn (scene->stance.pose, normal_of (scene, face));
  double flat = hypot (way.x, way.y);
  if (flat > 1e-6)
    now.turn_deg = bw_degrees (atan2 (way.y, way.x));
  now.tip_deg = bw_degrees (atan2 (way.z, flat));
  return now;
}
