/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Replacing a colour: every bead of the colour pointed at takes the colour in hand, on the whole
 * band or, where something is selected, in the selection alone. No bead of another colour changes,
 * whatever the symmetry. */
#include "config.h"

#include "core/base/lattice.h"
#include "editor/tool/tool.h"

#include <glib/gi18n-lib.h>

typedef struct {
  BwToolHold *hold;
  guint8 from;
} Swap;

static void
swap_bead (int row, int column, gpointer data)
{
  Swap *swap = data;
  const BwRegion *selected = swap->hold->selected;
  if (selected == NULL || bw_region_has (selected, row, column))
    bw_paint_lay_over (swap->hold->paint, row, column, swap->from, swap->hold->colour);
}

static BwToolReply
swap_colour (BwToolHold *hold)
{
  BwBeadAt bead;
  if (!bw_band_layout_bead (&hold->layout, hold->at, &bead))
    return BW_TOOL_GOES_ON;

  Swap swap = { hold, bw_drawing_get (hold->before, bead.row, bead.column) };
  g_autoptr (BwRegion) region = bw_region_new (hold->layout.columns, hold->layout.rows);
  bw_region_add_colour (region, hold->before, swap.from);
  bw_region_each (region, swap_bead, &swap);
  return BW_TOOL_GOES_ON;
}

const BwTool bw_tool_swap = {
  .kind = BW_TOOL_SWAP,
  .step = N_ ("Recolour beads"),
  .cursor = "crosshair",
  .begin = swap_colour,
  .update = bw_tool_hold_still,
  .end = bw_tool_let_go,
};
