/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The drawing: which tray colour each bead has. A plain rectangle of bytes with more room than the
 * band shows, so that what no longer fits comes back when the band grows again.
 *
 * A cell holds a tray index (0..254). Reference counted; mutable only by its owner. */
#pragma once

#include <glib.h>

#define BW_TRAY_MAX 200 /* colours in a tray */

typedef struct _BwDrawing BwDrawing;

/* columns even ≥ 2, rows ≥ 1; every cell `ground`. */
BwDrawing *bw_drawing_new (int columns, int rows, guint8 ground);
BwDrawing *bw_drawing_copy (const BwDrawing *drawing);
void bw_drawing_free (BwDrawing *drawing);

int bw_drawing_columns (const BwDrawing *drawing);
int bw_drawing_rows (const BwDrawing *drawing);

/* The cell of (row, column), both from 1; the lattice must have a bead there. */
guint8 bw_drawing_get (const BwDrawing *drawing, int row, int column);
void bw_drawing_set (BwDrawing *drawing, int row, int column, guint8 colour);

/* The cells of one row, columns/2 bytes, lowest column first; borrowed. */
const guint8 *bw_drawing_row (const BwDrawing *drawing, int row);

/* Changes the visible size. Cells outside it are kept and come back; cells never seen are `ground`.
 * New columns and rows are added at the top and at the end. */
void bw_drawing_resize (BwDrawing *drawing, int columns, int rows, guint8 ground);

/* Equal in visible size and visible cells. */
gboolean bw_drawing_equal (const BwDrawing *a, const BwDrawing *b);

/* The colour most beads shown have, the lowest index of equals: what the drawing lies on. */
guint8 bw_drawing_ground (const BwDrawing *drawing);

/* counts[colour] += beads of that colour in the visible part. counts has 256 entries. */
void bw_drawing_count (const BwDrawing *drawing, guint64 counts[256]);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwDrawing, bw_drawing_free)
