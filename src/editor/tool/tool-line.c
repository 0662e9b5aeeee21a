/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A line from bead to bead, one bead thick, shown while it is pulled. */
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
pull (BwToolHold *hold)
{
  bw_paint_restart (hold->paint);
  bw_stroke_line (bw_tool_brick (hold, hold->from), bw_tool_straight_end (hold), set_bead, hold);
  return BW_TOOL_GOES_ON;
}

const BwTool bw_tool_line = {
  .kind = BW_TOOL_LINE,
  .step = N_ ("Draw a line"),
  .cursor = "crosshair",
  .spans = TRUE,
  .begin = pull,
  .update = pull,
  .end = bw_tool_let_go,
  .words = bw_tool_line_words,
};
