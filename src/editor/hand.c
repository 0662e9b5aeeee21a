/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One press, drag and release is one step of undo, whatever the tool; that rule lives here once
 * instead of in every tool. */
#include "config.h"

#include "hand.h"

#include <glib/gi18n-lib.h>

struct _BwHand {
  BwSession *session;
  const BwTool *tool; /* NULL when nothing is under way */
  BwToolHold hold;
  BwDrawing *before;
};

BwHand *
bw_hand_new (BwSession *session)
{
  BwHand *hand = g_new0 (BwHand, 1);
  hand->session = g_object_ref (session);
  return hand;
}

void
bw_hand_free (BwHand *hand)
{
  bw_hand_revert (hand);
  g_object_unref (hand->session);
  g_free (hand);
}

gboolean
bw_hand_busy (BwHand *hand)
{
  return hand->tool != NULL;
}

const BwTool *
bw_hand_get_tool (BwHand *hand)
{
  return hand->tool;
}

static void
put_down (BwHand *hand)
{
  hand->tool = NULL;
  g_clear_object (&hand->hold.project);
  g_clear_pointer (&hand->before, bw_drawing_unref);
}

/* Nothing happens when the tool was put down meanwhile: what a tool does may reach those who do so.
 */
static void
commit (BwHand *hand)
{
  if (hand->tool == NULL)
    return;
  gboolean touches = hand->tool->step != NULL;
  g_autoptr (BwProject) project = g_object_ref (hand->hold.project);
  put_down (hand);
  if (touches)
    bw_project_commit (project);
}

void
bw_hand_revert (BwHand *hand)
{
  if (hand->tool == NULL)
    return;
  gboolean touches = hand->tool->step != NULL;
  g_autoptr (BwProject) project = g_object_ref (hand->hold.project);
  put_down (hand);
  if (touches)
    bw_project_revert (project);
}

static void
obey (BwHand *hand, BwToolReply reply)
{
  if (reply == BW_TOOL_REVERTS)
    bw_hand_revert (hand);
  else if (reply == BW_TOOL_COMMITS)
    commit (hand);
}

void
bw_hand_begin (BwHand *hand, const BwTool *tool, const BwBandLayout *layout, BwBandPoint at)
{
  commit (hand);
  BwProject *project = bw_session_get_project (hand->session);
  hand->tool = tool;
  hand->before = bw_drawing_copy (bw_project_get_drawing (project));
  hand->hold = (BwToolHold){
    .session = hand->session,
    .project = g_object_ref (project),
    .layout = *layout,
    .from = at,
    .last = at,
    .at = at,
    .before = hand->before,
    .colour = (guint8)bw_session_get_colour (hand->session),
  };
  if (tool->step != NULL)
    bw_project_begin (project, _ (tool->step));
  obey (hand, tool->begin (&hand->hold));
}

/* A move of no length is no news: on an edge between two beads it could only add noise. */
static gboolean
move (BwHand *hand, BwBandPoint at)
{
  gboolean moved = at.u != hand->hold.at.u || at.v != hand->hold.at.v;
  hand->hold.last = hand->hold.at;
  hand->hold.at = at;
  return moved;
}

void
bw_hand_update (BwHand *hand, BwBandPoint at)
{
  if (hand->tool != NULL && move (hand, at))
    obey (hand, hand->tool->update (&hand->hold));
}

void
bw_hand_end (BwHand *hand, BwBandPoint at)
{
  if (hand->tool == NULL)
    return;
  if (move (hand, at))
    obey (hand, hand->tool->update (&hand->hold));
  if (hand->tool == NULL)
    return;
  if (hand->tool->end (&hand->hold) == BW_TOOL_REVERTS)
    bw_hand_revert (hand);
  else
    commit (hand);
}

const BwTool *
bw_tool_get (BwToolKind kind)
{
  static const BwTool *const tools[]
      = { &bw_tool_bead, &bw_tool_pick, &bw_tool_line, &bw_tool_rectangle, &bw_tool_flood };
  for (gsize i = 0; i < G_N_ELEMENTS (tools); i++)
    if (tools[i]->kind == kind)
      return tools[i];
  return &bw_tool_bead;
}

BwBeadAt
bw_tool_brick (const BwToolHold *hold, BwBandPoint point)
{
  point.v = CLAMP (point.v, 0, hold->layout.columns - 0.5);
  return bw_band_brick (point);
}

void
bw_tool_set_bead (BwToolHold *hold, int long_row, int column)
{
  int row = bw_band_layout_row (&hold->layout, long_row);
  if (row != 0)
    bw_project_set_bead (hold->project, "", FALSE, row, column, hold->colour);
}

void
bw_tool_draw_bead (const BwToolHold *hold, BwDrawing *drawing, int long_row, int column)
{
  int row = bw_band_layout_row (&hold->layout, long_row);
  if (row != 0)
    bw_drawing_set (drawing, row, column, hold->colour);
}

void
bw_tool_show (BwToolHold *hold, const BwDrawing *drawing)
{
  g_autoptr (GError) error = NULL;
  if (!bw_project_set_drawing (hold->project, "", FALSE, drawing, &error))
    g_critical ("%s", error->message);
}
