/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bead has an image in every turn; the one meant is the one nearest to where the keys have been.
 */
#include "editor/band/band-cursor.h"

#include <math.h>

void
bw_band_cursor_keep_on (BwBandCursor *cursor, const BwBandLayout *layout)
{
  BwBeadAt at = cursor->at;
  if (at.row > layout->rows || at.column > layout->columns || at.row < 1)
    cursor->at = (BwBeadAt){ 1, 2 };
}

BwBandPoint
bw_band_cursor_point (const BwBandCursor *cursor, const BwBandLayout *layout, double near)
{
  int n = bw_band_layout_around (layout);
  BwBandPoint point = bw_band_middle (cursor->at.row, cursor->at.column);
  point.u += n * round ((near - point.u) / n);
  return point;
}

BwBandPoint
bw_band_cursor_lead (BwBandCursor *cursor, const BwBandLayout *layout)
{
  BwBandPoint point = bw_band_cursor_point (cursor, layout, cursor->u);
  cursor->u = point.u;
  return point;
}

void
bw_band_cursor_anchor (BwBandCursor *cursor, const BwBandLayout *layout)
{
  if (cursor->extending)
    return;
  BwBandPoint from = bw_band_cursor_point (cursor, layout, layout->roll);
  cursor->anchor = bw_band_brick (from);
  cursor->u = from.u;
  cursor->extending = TRUE;
}

BwShapeBox
bw_band_cursor_box (const BwBandCursor *cursor, const BwBandLayout *layout)
{
  return bw_shape_box (cursor->anchor,
                       bw_band_brick (bw_band_cursor_point (cursor, layout, cursor->u)),
                       bw_band_layout_around (layout));
}
