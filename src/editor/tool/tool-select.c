/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Selecting by a box: a drag selects the beads in it, a press alone selects nothing. Control adds
 * to what is selected, Shift keeps the box square. */
#include "editor/tool/shape.h"
#include "editor/tool/tool.h"

static BwRegion *
start (const BwToolHold *hold)
{
  if (hold->selected != NULL && hold->held & BW_HELD_CONTROL)
    return bw_region_copy (hold->selected);
  return bw_region_new (hold->layout.columns, hold->layout.rows);
}

static BwToolReply
press (BwToolHold *hold)
{
  bw_session_take_selection (hold->session, start (hold));
  return BW_TOOL_GOES_ON;
}

static BwToolReply
pull (BwToolHold *hold)
{
  BwShapeBox box = bw_shape_box (bw_tool_brick (hold, hold->from), bw_tool_square_end (hold),
                                 bw_band_layout_around (&hold->layout));
  BwRegion *region = start (hold);
  bw_region_add_box (region, box.first_row, box.last_row, box.first_column, box.last_column);
  bw_session_take_selection (hold->session, region);
  return BW_TOOL_GOES_ON;
}

const BwTool bw_tool_select = {
  .kind = BW_TOOL_SELECT,
  .cursor = "crosshair",
  .spans = TRUE,
  .begin = press,
  .update = pull,
  .end = bw_tool_let_go,
  .words = bw_tool_block_words,
};
