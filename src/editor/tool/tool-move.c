/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Moving what is selected: the beads follow the pointer, their place becomes ground; with Control
 * they are copied. Shift keeps the move straight. */
#include "config.h"

#include "editor/tool/piece.h"
#include "editor/tool/tool.h"

#include <glib/gi18n-lib.h>

/* From bead to bead the half-drop is kept by itself, wherever the pointer goes. */
static BwToolReply
pull (BwToolHold *hold)
{
  BwBeadAt from = bw_tool_brick (hold, hold->from), to = bw_tool_straight_end (hold);
  g_autoptr (BwPiece) piece = hold->selected ? bw_piece_lift (hold->before, hold->selected) : NULL;
  int row, column;
  if (piece == NULL)
    return BW_TOOL_REVERTS;

  bw_piece_place (piece, &row, &column);
  bw_piece_set_copy (piece, (hold->held & BW_HELD_CONTROL) != 0);
  bw_piece_put (piece, row + to.row - from.row, column + to.column - from.column);
  bw_piece_lay (piece, hold->paint, hold->ground);
  bw_session_take_selection (hold->session,
                             bw_piece_region (piece, hold->layout.columns, hold->layout.rows));
  return BW_TOOL_GOES_ON;
}

static BwToolReply
press (BwToolHold *hold)
{
  return hold->selected ? BW_TOOL_GOES_ON : BW_TOOL_REVERTS;
}

const BwTool bw_tool_move = {
  .kind = BW_TOOL_MOVE,
  .step = N_ ("Move beads"),
  .cursor = "move",
  .spans = TRUE,
  .begin = press,
  .update = pull,
  .end = bw_tool_let_go,
  .words = bw_tool_move_words,
};
