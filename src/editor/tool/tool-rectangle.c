/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A rectangle of beads between two corners, shown while it is pulled. Its sides across the columns
 * step to and fro by half a bead, as the lattice does. */
#include "config.h"

#include "editor/tool/shape.h"
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
  BwShapeBox box = bw_shape_box (bw_tool_brick (hold, hold->from), bw_tool_square_end (hold),
                                 bw_band_layout_around (&hold->layout));
  bw_paint_restart (hold->paint);
  bw_shape_fill (box, set_bead, hold);
  return BW_TOOL_GOES_ON;
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
