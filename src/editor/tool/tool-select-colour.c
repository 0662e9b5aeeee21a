/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Selecting by colour: every bead of the colour pointed at, all over the band; with Shift only
 * those that hang together with it. Control adds to what is selected. */
#include "editor/tool/flood.h"
#include "editor/tool/tool.h"

static BwToolReply
press (BwToolHold *hold)
{
  BwBeadAt bead;
  if (!bw_band_layout_bead (&hold->layout, hold->at, &bead)) {
    bw_session_take_selection (hold->session, NULL);
    return BW_TOOL_GOES_ON;
  }

  BwRegion *region = hold->held & BW_HELD_SHIFT
                         ? bw_flood (hold->before, bead.row, bead.column)
                         : bw_region_new (hold->layout.columns, hold->layout.rows);
  if (!(hold->held & BW_HELD_SHIFT))
    bw_region_add_colour (region, hold->before,
                          bw_drawing_get (hold->before, bead.row, bead.column));
  if (hold->selected != NULL && hold->held & BW_HELD_CONTROL)
    bw_region_join (region, hold->selected);
  bw_session_take_selection (hold->session, region);
  return BW_TOOL_GOES_ON;
}

const BwTool bw_tool_select_colour = {
  .kind = BW_TOOL_SELECT_COLOUR,
  .cursor = "crosshair",
  .begin = press,
  .update = bw_tool_hold_still,
  .end = bw_tool_let_go,
};
