/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one place that knows every tool: the hand works with whichever it is given. */
#include "editor/tool/toolbox.h"

const BwTool *
bw_tool_get (BwToolKind kind)
{
  static const BwTool *const tools[BW_N_TOOLS] = {
    &bw_tool_bead,   &bw_tool_pick,          &bw_tool_line, &bw_tool_rectangle,
    &bw_tool_flood,  &bw_tool_frame,         &bw_tool_swap, &bw_tool_erase,
    &bw_tool_select, &bw_tool_select_colour, &bw_tool_move,
  };
  for (gsize i = 0; i < G_N_ELEMENTS (tools); i++)
    if (tools[i]->kind == kind)
      return tools[i];
  return &bw_tool_bead;
}

const BwTool *
bw_tool_at (BwSession *session, const BwBandLayout *layout, BwBandPoint at)
{
  BwToolKind kind = bw_session_get_tool (session);
  const BwRegion *selected = bw_session_get_selection (session);
  BwBeadAt bead;

  if ((kind == BW_TOOL_SELECT || kind == BW_TOOL_SELECT_COLOUR) && selected != NULL
      && bw_band_layout_bead (layout, at, &bead) && bw_region_has (selected, bead.row, bead.column))
    return &bw_tool_move;
  return bw_tool_get (kind);
}
