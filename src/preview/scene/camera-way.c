/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Running on, the speed falls as (1 − t/T)²: the way is its integral, a third of what it would be
 * at the hand's own speed (common practice, no source). */
#include "preview/scene/camera-way.h"

#include <math.h>

BwCamera
bw_coast_after (BwCamera from, BwCoast coast, double seconds)
{
  double left = 1 - CLAMP (seconds / BW_COAST_S, 0, 1);
  double way = BW_COAST_S / 3 * (1 - left * left * left);
  from.turn_deg += coast.turn * way;
  from.tip_deg = CLAMP (from.tip_deg + coast.tip * way, -90, 90);
  return from;
}

BwCamera
bw_camera_between (BwCamera from, BwCamera to, double share)
{
  if (share >= 1)
    return to;
  return (BwCamera){ .turn_deg
                     = from.turn_deg + share * remainder (to.turn_deg - from.turn_deg, 360),
                     .tip_deg = from.tip_deg + share * (to.tip_deg - from.tip_deg),
                     .zoom = from.zoom * pow (to.zoom / from.zoom, share) };
}
