/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The outline of a rectangle, one bead thick, shown while it is pulled. */
#include "config.h"

#include "editor/tool/tool.h"

#include <glib/gi18n-lib.h>

static BwToolReply
pull (BwToolHold *hold)
{
  return bw_tool_pull_shape (hold, bw_shape_frame);
}

const BwTool bw_tool_frame = {
  .kind = BW_TOOL_FRAME,
  .step = N_ ("Draw a frame"),
  .cursor = "crosshair",
  .spans = TRUE,
  .begin = pull,
  .update = pull,
  .end = bw_tool_let_go,
  .words = bw_tool_frame_words,
};
