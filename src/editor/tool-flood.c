/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Flooding: the bead under the pointer and all of its colour that hang together with it take the
 * colour in hand. Beads hang together where they touch, also across the join. */
#include "config.h"

#include "core/lattice.h"
#include "tool.h"

#include <glib/gi18n-lib.h>

typedef struct {
  const BwToolHold *hold;
  BwDrawing *drawing;
  GArray *open; /* of BwBeadAt: beads set whose neighbours are still to be looked at */
  guint8 from;
} Flood;

static void
reach (Flood *flood, int long_row, int column)
{
  int row = bw_band_layout_row (&flood->hold->layout, long_row);
  if (row == 0 || column < 1 || column > flood->hold->layout.columns
      || bw_drawing_get (flood->drawing, row, column) != flood->from)
    return;
  BwBeadAt bead = { row, column };
  bw_drawing_set (flood->drawing, row, column, flood->hold->colour);
  g_array_append_val (flood->open, bead);
}

static void
run (Flood *flood)
{
  static const int neighbours[6][2]
      = { { 2, 0 }, { -2, 0 }, { 1, 1 }, { 1, -1 }, { -1, 1 }, { -1, -1 } };
  while (flood->open->len > 0) {
    BwBeadAt bead = g_array_index (flood->open, BwBeadAt, flood->open->len - 1);
    g_array_set_size (flood->open, flood->open->len - 1);
    for (int i = 0; i < 6; i++)
      reach (flood, bead.row + neighbours[i][0], bead.column + neighbours[i][1]);
  }
}

static BwToolReply
pour (BwToolHold *hold)
{
  BwBeadAt bead;
  if (!bw_band_layout_bead (&hold->layout, hold->at, &bead))
    return BW_TOOL_GOES_ON;

  g_autoptr (BwDrawing) drawing = bw_drawing_copy (hold->before);
  g_autoptr (GArray) open = g_array_new (FALSE, FALSE, sizeof (BwBeadAt));
  Flood flood = { hold, drawing, open, bw_drawing_get (drawing, bead.row, bead.column) };
  if (flood.from == hold->colour)
    return BW_TOOL_GOES_ON;
  reach (&flood, bead.row, bead.column);
  run (&flood);
  bw_tool_show (hold, drawing);
  return BW_TOOL_GOES_ON;
}

/* One press floods once; moving on before letting go changes nothing. */
static BwToolReply
hold_still (BwToolHold *hold)
{
  return BW_TOOL_GOES_ON;
}

static BwToolReply
let_go (BwToolHold *hold)
{
  return BW_TOOL_COMMITS;
}

const BwTool bw_tool_flood = {
  .kind = BW_TOOL_FLOOD,
  .step = N_ ("Flood"),
  .cursor = "crosshair",
  .begin = pour,
  .update = hold_still,
  .end = let_go,
};
