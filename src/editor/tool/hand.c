/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One press, drag and release is one step of undo, whatever the tool; that rule lives here once
 * instead of in every tool. */
#include "config.h"

#include "editor/tool/hand.h"

#include <glib/gi18n-lib.h>

struct _BwHand {
  BwSession *session;
  const BwTool *tool; /* NULL when nothing is under way */
  BwToolHold hold;
  BwRegion *selected;
  guint held;
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
  g_clear_pointer (&hand->hold.paint, bw_paint_free);
  g_clear_pointer (&hand->selected, bw_region_free);
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
bw_hand_commit (BwHand *hand)
{
  commit (hand);
}

/* Also what was selected is as it was, unless the band has another size now. */
static void
reselect (BwHand *hand, BwRegion *selected)
{
  const BwDrawing *drawing = bw_project_get_drawing (bw_session_get_project (hand->session));
  if (selected != NULL
      && (bw_region_columns (selected) != bw_drawing_columns (drawing)
          || bw_region_rows (selected) != bw_drawing_rows (drawing)))
    g_clear_pointer (&selected, bw_region_free);
  bw_session_take_selection (hand->session, selected);
}

static gboolean
selects (const BwTool *tool)
{
  return tool->kind == BW_TOOL_SELECT || tool->kind == BW_TOOL_SELECT_COLOUR
         || tool->kind == BW_TOOL_MOVE;
}

void
bw_hand_revert (BwHand *hand)
{
  if (hand->tool == NULL)
    return;
  const BwTool *tool = hand->tool;
  g_autoptr (BwProject) project = g_object_ref (hand->hold.project);
  g_autoptr (BwRegion) selected = g_steal_pointer (&hand->selected);
  put_down (hand);
  if (tool->step != NULL)
    bw_project_revert (project);
  if (selects (tool) && project == bw_session_get_project (hand->session))
    reselect (hand, g_steal_pointer (&selected));
}

/* What was laid shows; then the tool's answer is followed. Showing reaches others, who may have
 * taken the tool out of the hand. */
static void
obey (BwHand *hand, BwToolReply reply)
{
  if (hand->hold.paint != NULL && reply != BW_TOOL_REVERTS)
    bw_paint_show (hand->hold.paint);
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
  if (tool->step != NULL) /* from here on nothing is only shown: the colour in hand is the tray's */
    bw_project_begin (project, _ (tool->step));
  const BwRegion *selected = bw_session_get_selection (hand->session);
  BwPaint *paint = bw_paint_new (hand->session);
  hand->tool = tool;
  hand->selected = selected ? bw_region_copy (selected) : NULL;
  hand->hold = (BwToolHold){
    .session = hand->session,
    .project = g_object_ref (project),
    .layout = *layout,
    .from = at,
    .last = at,
    .at = at,
    .before = bw_paint_before (paint),
    .colour = (guint8)bw_session_get_colour (hand->session),
    .ground = bw_drawing_ground (bw_paint_before (paint)),
    .held = hand->held,
    .paint = paint,
    .selected = hand->selected,
  };
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
  BwToolReply reply = hand->tool->end (&hand->hold);
  obey (hand, reply == BW_TOOL_REVERTS ? reply : BW_TOOL_COMMITS);
}

void
bw_hand_set_held (BwHand *hand, guint held)
{
  if (hand->held == held)
    return;
  hand->held = hand->hold.held = held;
  if (hand->tool == NULL || !hand->tool->spans)
    return;
  hand->hold.last = hand->hold.at;
  obey (hand, hand->tool->update (&hand->hold));
}

char *
bw_hand_words (BwHand *hand)
{
  return hand->tool != NULL && hand->tool->words != NULL ? hand->tool->words (&hand->hold) : NULL;
}
