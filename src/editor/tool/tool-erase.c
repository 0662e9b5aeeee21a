/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rubbing out: each bead the pointer crosses becomes one of the ground, the colour that most beads
 * had when the stroke began. */
#include "config.h"

#include "editor/tool/stroke.h"
#include "editor/tool/tool.h"

#include <glib/gi18n-lib.h>

static void
erase_bead (int long_row, int column, gpointer data)
{
  BwToolHold *hold = data;
  bw_tool_lay (hold, long_row, column, hold->ground);
}

static BwToolReply
erase (BwToolHold *hold)
{
  bw_stroke_visit (hold->last, hold->at, hold->layout.columns, erase_bead, hold);
  return BW_TOOL_GOES_ON;
}

const BwTool bw_tool_erase = {
  .kind = BW_TOOL_ERASE,
  .step = N_ ("Rub out"),
  .cursor = "crosshair",
  .begin = erase,
  .update = erase,
  .end = bw_tool_let_go,
};
