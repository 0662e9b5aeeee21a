/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two angles make the piece rest as the core has it. The third, about the vertical, is the viewer's
 * walk round the piece and belongs to the camera, but that a piece which hangs nearly upright may
 * lean any way: then it turns the bail to where the camera looks for it. In doubles, since the pose
 * must agree with the core's tilt. */
#include "preview/scene/pose.h"

BwVec3
bw_pose_turn (BwPose pose, BwVec3 v)
{
  double ct = cos (pose.turn), st = sin (pose.turn), cl = cos (pose.lean), sl = sin (pose.lean);
  double cs = cos (pose.spin), ss = sin (pose.spin);
  double x = ct * v.x + st * v.y, y = ct * v.y - st * v.x, over = cl * x - sl * v.z;
  return bw_vec3 (cs * over - ss * y, ss * over + cs * y, sl * x + cl * v.z);
}

BwVec3
bw_pose_turn_back (BwPose pose, BwVec3 v)
{
  double ct = cos (pose.turn), st = sin (pose.turn), cl = cos (pose.lean), sl = sin (pose.lean);
  double cs = cos (pose.spin), ss = sin (pose.spin);
  double over = cs * v.x + ss * v.y, y = cs * v.y - ss * v.x;
  double x = cl * over + sl * v.z, z = cl * v.z - sl * over;
  return bw_vec3 (ct * x - st * y, st * x + ct * y, z);
}

BwPose
bw_pose_at_rest (const BwHang *hang)
{
  if (!hang->has_bail)
    return (BwPose){ 0 };
  BwVec3 up = hang->vertical, side = bw_vec3_scale (hang->frame.columns, -1);
  gboolean over = hang->frame.out.z > 0.5;
  double out = hypot (up.x, up.y);
  /* Straight up or down the stone every azimuth would do: the bail's own is kept. */
  BwVec3 towards = out > 1e-9 ? up : over ? side : hang->pivot;
  BwPose pose = { .turn = atan2 (towards.y, towards.x), .lean = atan2 (out, up.z) };
  BwVec3 turned = bw_pose_turn (pose, side);
  pose.spin = over ? -atan2 (turned.y, turned.x) : 0;
  return pose;
}
