/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A rectangle of beads between two corners, shown while it is pulled. Its sides across the columns
 * step to and fro by half a bead, as the lattice does. */
#include "config.h"

#include "core/lattice.h"
#include "tool.h"

#include <glib/gi18n-lib.h>

/* More than one turn round the stone is one turn. */
static int
last_row (const BwToolHold *hold, int first, int last)
{
  return MIN (last, first + 2 * bw_band_layout_around (&hold->layout) - 1);
}

static BwToolReply
pull (BwToolHold *hold)
{
  g_autoptr (BwDrawing) drawing = bw_drawing_copy (hold->before);
  BwBeadAt a = bw_tool_brick (hold, hold->from), b = bw_tool_brick (hold, hold->at);
  int first = MIN (a.row, b.row), last = last_row (hold, first, MAX (a.row, b.row));

  for (int row = first; row <= last; row++)
    for (int column = MIN (a.column, b.column); column <= MAX (a.column, b.column); column++)
      if (bw_lattice_has (row, column))
        bw_tool_draw_bead (hold, drawing, row, column);
  bw_tool_show (hold, drawing);
  return BW_TOOL_GOES_ON;
}

static BwToolReply
let_go (BwToolHold *hold)
{
  return BW_TOOL_COMMITS;
}

const BwTool bw_tool_rectangle = {
  .kind = BW_TOOL_RECTANGLE,
  .step = N_ ("Fill a rectangle"),
  .cursor = "crosshair",
  .spans = TRUE,
  .begin = pull,
  .update = pull,
  .end = let_go,
};
