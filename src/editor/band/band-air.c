/* SPDX-License-Identifier: GPL-3.0-or-later */
/* While a piece is in the air whatever is laid shows at once, so that the maker sees what laying it
 * down would leave; what is selected goes with it. */
#include "editor/band/band-air.h"

static void
show (BwBandAir *air)
{
  const BwDrawing *before = bw_paint_before (air->paint);
  bw_piece_lay (air->piece, air->paint, bw_drawing_ground (before));
  bw_paint_show (air->paint);
  if (air->piece != NULL)
    bw_session_take_selection (
        air->view->session,
        bw_piece_region (air->piece, bw_drawing_columns (before), bw_drawing_rows (before)));
}

static void
forget (BwBandAir *air)
{
  g_clear_pointer (&air->piece, bw_piece_free);
  g_clear_pointer (&air->paint, bw_paint_free);
  air->held = FALSE;
}

void
bw_band_air_take (BwBandAir *air, BwPiece *piece, const char *label)
{
  air->piece = piece;
  bw_project_begin (air->view->project, label);
  air->paint = bw_paint_new (air->view->session);
  show (air);
}

void
bw_band_air_lay_down (BwBandAir *air)
{
  if (air->piece == NULL)
    return;
  forget (air);
  bw_project_commit (air->view->project);
}

void
bw_band_air_drop (BwBandAir *air)
{
  if (air->piece == NULL)
    return;
  forget (air);
  bw_project_revert (air->view->project);
  bw_session_take_selection (air->view->session, NULL);
}

void
bw_band_air_walk (BwBandAir *air, int along, int up)
{
  bw_piece_walk (air->piece, along, up);
  show (air);
}

gboolean
bw_band_air_do (BwBandAir *air, BwPieceDeed deed)
{
  gboolean beside = bw_piece_do (air->piece, deed);
  show (air);
  return beside;
}

gboolean
bw_band_air_hold (BwBandAir *air, BwBandPoint at)
{
  const BwRegion *region = bw_session_get_selection (air->view->session);
  BwBeadAt bead;
  if (region == NULL || !bw_band_layout_bead (&air->view->layout, at, &bead)
      || !bw_region_has (region, bead.row, bead.column))
    return FALSE;
  air->held = TRUE;
  air->from = bw_band_brick (at);
  bw_piece_place (air->piece, &air->row, &air->column);
  return TRUE;
}

void
bw_band_air_pull (BwBandAir *air, BwBandPoint at)
{
  BwBeadAt to = bw_band_brick (at);
  if (air->piece == NULL || !air->held)
    return;
  bw_piece_put (air->piece, air->row + to.row - air->from.row,
                air->column + to.column - air->from.column);
  show (air);
}
