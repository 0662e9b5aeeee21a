/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Picking a colour up from the band; letting go leaves the hand ready to draw with it. */
#include "editor/tool/tool.h"

static BwToolReply
pick (BwToolHold *hold)
{
  BwBeadAt bead;
  if (bw_band_layout_bead (&hold->layout, hold->at, &bead)) {
    const BwDrawing *drawing = bw_project_get_drawing (hold->project);
    bw_session_set_colour (hold->session, bw_drawing_get (drawing, bead.row, bead.column));
  }
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
