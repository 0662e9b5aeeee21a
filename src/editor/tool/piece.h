/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A piece of beadwork over the band: where it lies, and the hole it was lifted from. Laying it is
 * left to a paint, so that a drag, the arrow keys and a paste all mean the same. */
#pragma once

#include "editor/tool/clip.h"
#include "editor/tool/paint.h"

typedef struct _BwPiece BwPiece;

/* From a copy: the corner at (row, column), or beside it where the half-drop wants that. Takes
 * clip. */
BwPiece *bw_piece_new (BwClip *clip, int row, int column);
/* Lifted off the drawing; its place becomes ground unless the piece is a copy. NULL when the region
 * is empty. */
BwPiece *bw_piece_lift (const BwDrawing *drawing, const BwRegion *region);
void bw_piece_free (BwPiece *piece);

void bw_piece_set_copy (BwPiece *piece, gboolean copy);

/* Puts the corner at (row, column). TRUE when it had to go to the row beside. */
gboolean bw_piece_put (BwPiece *piece, int row, int column);
/* Moves it by beads round the stone and columns up; an odd number of columns takes it to and fro by
 * one row. */
void bw_piece_walk (BwPiece *piece, int along, int up);
void bw_piece_place (const BwPiece *piece, int *row, int *column);

typedef enum { BW_PIECE_FLIP_ROUND, BW_PIECE_FLIP_UP, BW_PIECE_TURN } BwPieceDeed;
/* In place. TRUE when it had to go to the row beside. */
gboolean bw_piece_do (BwPiece *piece, BwPieceDeed deed);

/* Lays ground in the hole and the piece where it lies, from the paint's beginning. */
void bw_piece_lay (const BwPiece *piece, BwPaint *paint, guint8 ground);
/* The beads of the band it lies on. Owned. */
BwRegion *bw_piece_region (const BwPiece *piece, int columns, int rows);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwPiece, bw_piece_free)
