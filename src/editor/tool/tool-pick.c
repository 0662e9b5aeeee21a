/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Picking a colour up from the band; letting go leaves the hand ready to draw with it. */
#include "editor/tool/tool.h"

gboolean
bw_tool_pick_up (BwSession *session, BwBeadAt bead)
{
  BwProject *project = bw_session_get_project (session);
  int colour = bw_drawing_get (bw_project_shown_drawing (project), bead.row, bead.column);
  if (colour >= bw_project_get_tray (project)->n_colours)
    return FALSE;
  bw_session_set_colour (session, colour);
  return TRUE;
}

static BwToolReply
pick (BwToolHold *hold)
{
  BwBeadAt bead;
  if (bw_band_layout_bead (&hold->layout, hold->at, &bead))
    bw_tool_pick_up (hold->session, bead);
  return BW_TOOL_GOES_ON;
}

static BwToolReply
let_go (BwToolHold *hold)
{
  pick (hold);
  if (bw_session_get_tool (hold->session) == BW_TOOL_PICK)
    bw_session_set_tool (hold->session, BW_TOOL_BEAD);
  return BW_TOOL_COMMITS;
}

const BwTool bw_tool_pick = {
  .kind = BW_TOOL_PICK,
  .cursor = "crosshair",
  .begin = pick,
  .update = pick,
  .end = let_go,
};
