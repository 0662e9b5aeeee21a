/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Beads that lie off the band's edges are kept in the piece, so that moving it back shows them
 * again. */
#include "editor/tool/piece.h"

#include "core/base/lattice.h"

struct _BwPiece {
  BwClip *clip;
  BwRegion *hole; /* NULL for a piece that comes from elsewhere */
  gboolean copy;
  int row, column;
};

BwPiece *
bw_piece_new (BwClip *clip, int row, int column)
{
  BwPiece *piece = g_new0 (BwPiece, 1);
  piece->clip = clip;
  bw_piece_put (piece, row, column);
  return piece;
}

BwPiece *
bw_piece_lift (const BwDrawing *drawing, const BwRegion *region)
{
  int row, column;
  BwClip *clip = bw_clip_lift (drawing, region, &row, &column);
  if (clip == NULL)
    return NULL;
  BwPiece *piece = bw_piece_new (clip, row, column);
  piece->hole = bw_region_copy (region);
  return piece;
}

void
bw_piece_free (BwPiece *piece)
{
  bw_clip_free (piece->clip);
  g_clear_pointer (&piece->hole, bw_region_free);
  g_free (piece);
}

void
bw_piece_set_copy (BwPiece *piece, gboolean copy)
{
  piece->copy = copy;
}

gboolean
bw_piece_put (BwPiece *piece, int row, int column)
{
  piece->row = bw_clip_land (piece->clip, row, column);
  piece->column = column;
  return piece->row != row;
}

void
bw_piece_walk (BwPiece *piece, int along, int up)
{
  bw_piece_put (piece, piece->row + 2 * along, piece->column + up);
}

void
bw_piece_place (const BwPiece *piece, int *row, int *column)
{
  *row = piece->row;
  *column = piece->column;
}

gboolean
bw_piece_do (BwPiece *piece, BwPieceDeed deed)
{
  switch (deed) {
  case BW_PIECE_FLIP_ROUND:
    bw_clip_flip_round (piece->clip);
    break;
  case BW_PIECE_FLIP_UP:
    bw_clip_flip_up (piece->clip);
    break;
  case BW_PIECE_TURN:
  default:
    bw_clip_turn (piece->clip);
    break;
  }
  return bw_piece_put (piece, piece->row, piece->column);
}

typedef struct {
  BwPaint *paint;
  BwRegion *region;
  int ring;
} Lay;

static void
lay_bead (int long_row, int column, guint8 colour, gpointer data)
{
  Lay *lay = data;
  bw_paint_lay (lay->paint, bw_lattice_wrap (long_row, lay->ring), column, colour);
}

void
bw_piece_lay (const BwPiece *piece, BwPaint *paint, guint8 ground)
{
  int rows = bw_drawing_rows (bw_paint_before (paint));
  Lay lay = { .paint = paint, .ring = rows + rows % 2 };
  bw_paint_restart (paint);
  if (piece->hole != NULL && !piece->copy)
    bw_paint_lay_region (paint, piece->hole, ground);
  bw_clip_each (piece->clip, piece->row, piece->column, lay_bead, &lay);
}

static void
add_bead (int long_row, int column, guint8 colour, gpointer data)
{
  bw_region_add (data, long_row, column);
}

BwRegion *
bw_piece_region (const BwPiece *piece, int columns, int rows)
{
  BwRegion *region = bw_region_new (columns, rows);
  bw_clip_each (piece->clip, piece->row, piece->column, add_bead, region);
  return region;
}
