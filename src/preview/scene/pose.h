/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the piece stands in the room. The room's z points up; the piece's own axes are those of the
 * core: z up the stone. */
#pragma once

#include "core/bail/hang.h"

/* First the piece turns about its own axis until azimuth `turn` points along the room's x; then it
 * leans over towards −x by `lean`, so that what pointed `lean` away from the axis, towards that
 * azimuth, points up. Last it turns about the vertical by `spin`. Radians; all 0: the stone stands
 * upright as in the core. */
typedef struct {
  double turn, lean, spin;
} BwPose;

/* A direction of the piece, in the room. */
BwVec3 bw_pose_turn (BwPose pose, BwVec3 in_piece);
/* A direction of the room, in the piece. */
BwVec3 bw_pose_turn_back (BwPose pose, BwVec3 in_room);

/* The pose at rest: hang->vertical points up, and the bail's azimuth along x, as near as may be.
 * Upright when there is no bail. */
BwPose bw_pose_at_rest (const BwHang *hang);
