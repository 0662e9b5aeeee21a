/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Laying beads one by one: each bead the pointer crosses takes the colour in hand. */
#include "config.h"

#include "editor/tool/stroke.h"
#include "editor/tool/tool.h"

#include <glib/gi18n-lib.h>

static void
set_bead (int long_row, int column, gpointer data)
{
  bw_tool_set_bead (data, long_row, column);
}

static BwToolReply
draw (BwToolHold *hold)
{
  bw_stroke_visit (hold->last, hold->at, hold->layout.columns, set_bead, hold);
  return BW_TOOL_GOES_ON;
}

const BwTool bw_tool_bead = {
  .kind = BW_TOOL_BEAD,
  .step = N_ ("Draw beads"),
  .cursor = "crosshair",
  .begin = draw,
  .update = draw,
  .end = bw_tool_let_go,
};
