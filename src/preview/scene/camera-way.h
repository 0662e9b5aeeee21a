/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Ways the camera goes by itself, in closed form: they do not depend on how often frames come, and
 * end exactly. */
#pragma once

#include "project/session.h"

/* The camera runs on for so long after a turn by hand, seconds. */
#define BW_COAST_S 0.9

/* How quickly the hand turned it when it let go, degrees a second. */
typedef struct {
  double turn, tip;
} BwCoast;

/* Where a camera is so many seconds after it was let go at `from`: at first as quickly as the hand
 * turned it, then ever slower, and from BW_COAST_S on at rest. The tip stays within −90..90. */
BwCamera bw_coast_after (BwCamera from, BwCoast coast, double seconds);

/* Between two cameras, the shorter way round; share 0: `from`, 1: `to`, exactly. */
BwCamera bw_camera_between (BwCamera from, BwCamera to, double share);
