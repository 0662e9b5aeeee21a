/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A rectangle of beads between two corners, shown while it is pulled. Its sides across the columns
 * step to and fro by half a bead, as the lattice does. */
#include "config.h"

#include "editor/tool/tool.h"

#include <glib/gi18n-lib.h>

static BwToolReply
pull (BwToolHold *hold)
{
  return bw_tool_pull_shape (hold, bw_shape_fill);
}

const BwTool bw_tool_rectangle = {
  .kind = BW_TOOL_RECTANGLE,
  .step = N_ ("Fill a block"),
  .cursor = "crosshair",
  .spans = TRUE,
  .begin = pull,
  .update = pull,
  .end = bw_tool_let_go,
  .words = bw_tool_block_words,
};
