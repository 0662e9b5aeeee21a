/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a tool needs again and again while the hand holds it: the brick it is over, the straight or
 * square end of what it pulls, a bead laid. */
#include "editor/tool/tool.h"

#include "editor/tool/shape.h"

BwBeadAt
bw_tool_brick (const BwToolHold *hold, BwBandPoint point)
{
  point.v = CLAMP (point.v, 0, hold->layout.columns - 0.5);
  return bw_band_brick (point);
}

BwBeadAt
bw_tool_straight_end (const BwToolHold *hold)
{
  const BwBandLayout *layout = &hold->layout;
  BwBeadAt to = bw_tool_brick (hold, hold->at);
  if (hold->held & BW_HELD_SHIFT)
    to = bw_shape_straighten (bw_tool_brick (hold, hold->from), to, layout->pitch_mm,
                              layout->column_mm);
  return to;
}

BwBeadAt
bw_tool_square_end (const BwToolHold *hold)
{
  const BwBandLayout *layout = &hold->layout;
  BwBeadAt to = bw_tool_brick (hold, hold->at);
  if (hold->held & BW_HELD_SHIFT)
    to = bw_shape_square (bw_tool_brick (hold, hold->from), to, layout->pitch_mm,
                          layout->column_mm);
  return to;
}

void
bw_tool_lay (BwToolHold *hold, int long_row, int column, guint8 colour)
{
  bw_paint_lay (hold->paint, bw_band_layout_row (&hold->layout, long_row), column, colour);
}

void
bw_tool_set_bead (BwToolHold *hold, int long_row, int column)
{
  bw_tool_lay (hold, long_row, column, hold->colour);
}

static void
set_bead (int long_row, int column, gpointer data)
{
  bw_tool_set_bead (data, long_row, column);
}

BwToolReply
bw_tool_pull_shape (BwToolHold *hold,
                    void (*shape) (BwShapeBox box, BwStrokeVisit visit, gpointer data))
{
  BwShapeBox box = bw_shape_box (bw_tool_brick (hold, hold->from), bw_tool_square_end (hold),
                                 bw_band_layout_around (&hold->layout));
  bw_paint_restart (hold->paint);
  shape (box, set_bead, hold);
  return BW_TOOL_GOES_ON;
}

BwToolReply
bw_tool_let_go (BwToolHold *hold)
{
  return BW_TOOL_COMMITS;
}

BwToolReply
bw_tool_hold_still (BwToolHold *hold)
{
  return BW_TOOL_GOES_ON;
}
