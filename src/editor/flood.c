/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Beads are marked when they are put on the list of those to look round, so each is listed once. */
#include "flood.h"

#include "core/lattice.h"

typedef struct {
  const BwDrawing *drawing;
  BwRegion *region;
  GArray *open; /* of Open: found, their neighbours not looked at yet */
  int rows, columns, ring;
  guint8 colour;
} Flood;

typedef struct {
  int row, column;
} Open;

static void
reach (Flood *flood, int row, int column)
{
  if (row < 1)
    row += flood->ring;
  else if (row > flood->ring)
    row -= flood->ring;
  if (row > flood->rows || column < 1 || column > flood->columns
      || bw_drawing_get (flood->drawing, row, column) != flood->colour
      || bw_region_has (flood->region, row, column))
    return;
  Open found = { row, column };
  bw_region_add (flood->region, row, column);
  g_array_append_val (flood->open, found);
}

BwRegion *
bw_flood (const BwDrawing *drawing, int row, int column)
{
  static const int neighbours[6][2]
      = { { 2, 0 }, { -2, 0 }, { 1, 1 }, { 1, -1 }, { -1, 1 }, { -1, -1 } };
  int rows = bw_drawing_rows (drawing), columns = bw_drawing_columns (drawing);
  g_autoptr (GArray) open = g_array_sized_new (FALSE, FALSE, sizeof (Open), 1024);
  Flood flood = {
    .drawing = drawing,
    .region = bw_region_new (columns, rows),
    .open = open,
    .rows = rows,
    .columns = columns,
    .ring = rows + rows % 2,
    .colour = bw_drawing_get (drawing, row, column),
  };

  reach (&flood, row, column);
  while (open->len > 0) {
    Open bead = g_array_index (open, Open, open->len - 1);
    g_array_set_size (open, open->len - 1);
    for (int i = 0; i < 6; i++)
      reach (&flood, bead.row + neighbours[i][0], bead.column + neighbours[i][1]);
  }
  return flood.region;
}
