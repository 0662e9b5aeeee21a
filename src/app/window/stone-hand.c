/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bead picked on the stone is a place on the unrolled band, and there the hand of the canvas goes
 * from place to place. Over the join it goes on to the nearest image of a row, so that a stroke
 * round the stone never runs back across the band. */
#include "config.h"

#include "app/window/stone-hand.h"
#include "core/base/lattice.h"
#include "editor/tool/hand.h"
#include "editor/tool/toolbox.h"

#include <glib/gi18n-lib.h>
#include <math.h>

struct _BwStoneHand {
  BwSession *session;
  BwHand *hand;
  gboolean on_bail;   /* a stroke on the bail is under way */
  BwProject *project; /* of that stroke */
  int long_row;       /* where the stroke on the band is */
};

BwStoneHand *
bw_stone_hand_new (BwSession *session)
{
  BwStoneHand *self = g_new0 (BwStoneHand, 1);
  self->session = g_object_ref (session);
  self->hand = bw_hand_new (session);
  return self;
}

/* --- On the band -------------------------------------------------------------------------------
 */

static BwBandLayout
layout_of (BwStoneHand *self)
{
  const BwDesign *design = bw_project_get_design (bw_session_get_project (self->session));
  return (BwBandLayout){ .columns = design->band.columns,
                         .rows = design->band.rows,
                         .pitch_mm = design->gauge.pitch_mm,
                         .column_mm = design->gauge.column_mm,
                         .width = 1,
                         .height = 1,
                         .zoom = 1 };
}

/* The image of a row nearest to where the stroke is. */
static BwBandPoint
point_near (BwStoneHand *self, const BwBandLayout *layout, const BwViewBead *bead)
{
  int period = 2 * bw_band_layout_around (layout);
  int turns = (int)lround ((double)(self->long_row - bead->row) / period);
  self->long_row = bead->row + turns * period;
  return bw_band_middle (self->long_row, bead->column);
}

static void
begin_on_band (BwStoneHand *self, const BwViewBead *bead)
{
  BwBandLayout layout = layout_of (self);
  BwBandPoint at = bw_band_middle (bead->row, bead->column);
  const BwTool *tool = bw_tool_at (self->session, &layout, at);
  self->long_row = bead->row;
  bw_hand_begin (self->hand, tool, &layout, at);
  if (tool->kind == BW_TOOL_PICK)
    bw_tool_pick_up (self->session, (BwBeadAt){ bead->row, bead->column });
}

/* --- On the bail -------------------------------------------------------------------------------
 */

static void
lay_on_bail (BwStoneHand *self, const BwViewBead *bead)
{
  guint8 colour = (guint8)bw_session_get_colour (self->session);
  if (bw_session_get_tool (self->session) == BW_TOOL_ERASE)
    colour = bw_drawing_ground (bw_project_get_bail_drawing (self->project));
  bw_project_set_bead (self->project, "", TRUE, bead->row, bead->column, colour);
}

static void
begin_on_bail (BwStoneHand *self, const BwViewBead *bead)
{
  BwProject *project = bw_session_get_project (self->session);
  if (bw_session_get_tool (self->session) == BW_TOOL_PICK) {
    const BwDrawing *bail = bw_project_get_bail_drawing (project);
    bw_session_set_colour (self->session, bw_drawing_get (bail, bead->row, bead->column));
    return;
  }
  self->project = g_object_ref (project);
  self->on_bail = TRUE;
  bw_project_begin (project, _ ("Colour the bail"));
  lay_on_bail (self, bead);
}

static void
end_on_bail (BwStoneHand *self, gboolean keep)
{
  if (!self->on_bail)
    return;
  self->on_bail = FALSE;
  if (keep)
    bw_project_commit (self->project);
  else
    bw_project_revert (self->project);
  g_clear_object (&self->project);
}

/* --- What the view asks ------------------------------------------------------------------------
 */

static void
begin (gpointer data, const BwViewBead *bead)
{
  BwStoneHand *self = data;
  bw_session_settle (self->session);
  if (bead->in_bail)
    begin_on_bail (self, bead);
  else
    begin_on_band (self, bead);
}

static void
go_on (gpointer data, const BwViewBead *bead, gboolean straight)
{
  BwStoneHand *self = data;
  BwBandLayout layout = layout_of (self);
  bw_hand_set_held (self->hand, straight ? BW_HELD_SHIFT : 0);
  if (self->on_bail && bead->in_bail)
    lay_on_bail (self, bead);
  else if (bw_hand_busy (self->hand) && !bead->in_bail)
    bw_hand_update (self->hand, point_near (self, &layout, bead));
}

static void
end (gpointer data, gboolean keep)
{
  BwStoneHand *self = data;
  end_on_bail (self, keep);
  if (keep)
    bw_hand_commit (self->hand);
  else
    bw_hand_revert (self->hand);
}

const BwStoneBrush bw_stone_hand_brush = { begin, go_on, end };

void
bw_stone_hand_free (BwStoneHand *self)
{
  end (self, FALSE);
  bw_hand_free (self->hand);
  g_object_unref (self->session);
  g_free (self);
}
