/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bail hides the join, and makers look at the other side: working on the bail turns it to the
 * front, but no further than it takes. At rest it is on top and always in sight. */
#include "editor/bail/bail-look.h"

#include <math.h>

void
bw_bail_look_at (BwSession *session)
{
  const BwDesign *design = bw_project_get_design (bw_session_get_project (session));
  BwCamera camera = bw_session_get_camera (session);
  double off = remainder (design->bail.at_deg - camera.turn_deg, 360);
  if (bw_session_get_at_rest (session) || design->bail.style == BW_BAIL_NONE
      || fabs (off) <= BW_BAIL_IN_SIGHT_DEG)
    return;
  camera.turn_deg += off - copysign (BW_BAIL_IN_SIGHT_DEG, off);
  bw_session_set_camera (session, camera);
}
