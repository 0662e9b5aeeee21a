/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two angles say all there is to say: the third, about the vertical, is the viewer's walk round the
 * piece and belongs to the camera. In doubles, since the pose must agree with the core's tilt. */
#include "preview/scene/pose.h"

BwVec3
bw_pose_turn (BwPose pose, BwVec3 v)
{
  double ct = cos (pose.turn), st = sin (pose.turn), cl = cos (pose.lean), sl = sin (pose.lean);
  double x = ct * v.x + st * v.y, y = ct * v.y - st * v.x;
  return bw_vec3 (cl * x - sl * v.z, y, sl * x + cl * v.z);
}

BwVec3
bw_pose_turn_back (BwPose pose, BwVec3 v)
{
  double ct = cos (pose.turn), st = sin (pose.turn), cl = cos (pose.lean), sl = sin (pose.lean);
  double x = cl * v.x + sl * v.z, z = cl * v.z - sl * v.x;
  return bw_vec3 (ct * x - st * v.y, st * x + ct * v.y, z);
}

BwPose
bw_pose_at_rest (const BwHang *hang)
{
  if (!hang->has_bail)
    return (BwPose){ 0, 0 };
  BwVec3 up = hang->vertical;
  double out = hypot (up.x, up.y);
  /* Straight up or down the stone every azimuth would do: the bail's own is kept. */
  BwVec3 towards = out > 1e-9 ? up : hang->pivot;
  return (BwPose){ atan2 (towards.y, towards.x), atan2 (out, up.z) };
}
