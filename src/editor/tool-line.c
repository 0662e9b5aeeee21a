/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A line from bead to bead, one bead thick, shown while it is pulled. */
#include "config.h"

#include "stroke.h"
#include "tool.h"

#include <glib/gi18n-lib.h>

/* What is drawn on, and by whom. */
typedef struct {
  const BwToolHold *hold;
  BwDrawing *drawing;
} Sheet;

static void
set_bead (int long_row, int column, gpointer data)
{
  Sheet *sheet = data;
  bw_tool_draw_bead (sheet->hold, sheet->drawing, long_row, column);
}

static BwToolReply
pull (BwToolHold *hold)
{
  g_autoptr (BwDrawing) drawing = bw_drawing_copy (hold->before);
  Sheet sheet = { hold, drawing };
  bw_stroke_line (bw_tool_brick (hold, hold->from), bw_tool_brick (hold, hold->at), set_bead,
                  &sheet);
  bw_tool_show (hold, drawing);
  return BW_TOOL_GOES_ON;
}

static BwToolReply
let_go (BwToolHold *hold)
{
  return BW_TOOL_COMMITS;
}

const BwTool bw_tool_line = {
  .kind = BW_TOOL_LINE,
  .step = N_ ("Draw a line"),
  .cursor = "crosshair",
  .spans = TRUE,
  .begin = pull,
  .update = pull,
  .end = let_go,
};
