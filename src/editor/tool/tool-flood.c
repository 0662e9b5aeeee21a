/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Flooding: the bead under the pointer and all of its colour that hang together with it take the
 * colour in hand. One press floods once; moving on before letting go changes nothing. */
#include "config.h"

#include "editor/tool/flood.h"
#include "editor/tool/tool.h"

#include <glib/gi18n-lib.h>

static BwToolReply
pour (BwToolHold *hold)
{
  BwBeadAt bead;
  if (!bw_band_layout_bead (&hold->layout, hold->at, &bead)
      || bw_drawing_get (hold->before, bead.row, bead.column) == hold->colour)
    return BW_TOOL_GOES_ON;

  g_autoptr (BwRegion) region = bw_flood (hold->before, bead.row, bead.column);
  bw_paint_lay_region (hold->paint, region, hold->colour);
  return BW_TOOL_GOES_ON;
}

const BwTool bw_tool_flood = {
  .kind = BW_TOOL_FLOOD,
  .step = N_ ("Flood"),
  .cursor = "crosshair",
  .begin = pour,
  .update = bw_tool_hold_still,
  .end = bw_tool_let_go,
};
