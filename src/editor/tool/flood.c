/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A map of the beads still to be found, with a rim of none on either side, spares the flood every
 * question about the band's edges. Beads leave the map when they are put on the list of those to
 * look round, so each is listed once. */
#include "editor/tool/flood.h"

#include "core/base/lattice.h"

/* A bead: its row from 0, and its place in the row from 1. */
typedef struct {
  int row, place;
} Bead;

typedef struct {
  guint8 *todo; /* ring rows of `stride` */
  int ring, stride;
  Bead *open; /* found, their neighbours not looked at yet */
  int n_open;
  BwRegion *region;
} Flood;

static void
find_todo (Flood *flood, const BwDrawing *drawing, guint8 colour)
{
  for (int row = 0; row < bw_drawing_rows (drawing); row++) {
    const guint8 *cells = bw_drawing_row (drawing, row + 1);
    guint8 *todo = flood->todo + (gsize)row * (gsize)flood->stride;
    for (int place = 1; place < flood->stride - 1; place++)
      todo[place] = cells[place - 1] == colour;
  }
}

static inline void
reach (Flood *flood, int row, int place)
{
  guint8 *todo = flood->todo + (gsize)row * (gsize)flood->stride + place;
  if (!*todo)
    return;
  *todo = 0;
  flood->open[flood->n_open++] = (Bead){ row, place };
  bw_region_add (flood->region, row + 1, bw_lattice_column (row + 1, place - 1));
}

/* Rows step by one round the ring. The beads above and below in the rows beside have the same place
 * and, by the row's half-drop, the next or the one before. */
static void
look_round (Flood *flood, Bead bead)
{
  int last = flood->ring - 1;
  int before = bead.row > 0 ? bead.row - 1 : last, after = bead.row < last ? bead.row + 1 : 0;
  int other = bead.row % 2 == 0 ? bead.place + 1 : bead.place - 1;

  reach (flood, before > 0 ? before - 1 : last, bead.place);
  reach (flood, after < last ? after + 1 : 0, bead.place);
  reach (flood, before, bead.place);
  reach (flood, before, other);
  reach (flood, after, bead.place);
  reach (flood, after, other);
}

BwRegion *
bw_flood (const BwDrawing *drawing, int row, int column)
{
  int rows = bw_drawing_rows (drawing), columns = bw_drawing_columns (drawing);
  int ring = rows + rows % 2, stride = columns / 2 + 2;
  g_autofree guint8 *todo = g_new0 (guint8, (gsize)ring * (gsize)stride);
  g_autofree Bead *open = g_new (Bead, (gsize)rows * (gsize)columns / 2);
  Flood flood = { todo, ring, stride, open, 0, bw_region_new (columns, rows) };

  find_todo (&flood, drawing, bw_drawing_get (drawing, row, column));
  reach (&flood, row - 1, bw_lattice_index (column) + 1);
  while (flood.n_open > 0)
    look_round (&flood, open[--flood.n_open]);
  return flood.region;
}
