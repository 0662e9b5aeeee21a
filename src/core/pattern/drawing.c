/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The drawing keeps more than it shows: whoever makes a band narrower and wider again, or drags its
 * rows down and up, finds every bead as it was. */
#include "core/pattern/drawing.h"

#include "core/base/lattice.h"
#include "core/base/limits.h"

#include <string.h>

#define NEVER_SEEN 255 /* no tray has so many colours */

struct _BwDrawing {
  int columns, rows;         /* shown */
  int row_room, column_room; /* kept: rows, and beads a row */
  guint8 *cell;              /* row_room × column_room */
};

static guint8 *
row_of (const BwDrawing *drawing, int row)
{
  return drawing->cell + (gsize)(row - 1) * drawing->column_room;
}

static BwDrawing *
new_empty (int columns, int rows)
{
  BwDrawing *drawing = g_new0 (BwDrawing, 1);
  drawing->columns = columns;
  drawing->rows = rows;
  return drawing;
}

BwDrawing *
bw_drawing_new (int columns, int rows, guint8 ground)
{
  g_return_val_if_fail (columns >= 2 && columns % 2 == 0 && rows >= 1, NULL);
  BwDrawing *drawing = new_empty (columns, rows);
  gsize size = (gsize)rows * (columns / 2);
  drawing->row_room = rows;
  drawing->column_room = columns / 2;
  drawing->cell = g_malloc (size);
  memset (drawing->cell, ground, size);
  return drawing;
}

BwDrawing *
bw_drawing_copy (const BwDrawing *drawing)
{
  BwDrawing *copy = new_empty (drawing->columns, drawing->rows);
  copy->row_room = drawing->row_room;
  copy->column_room = drawing->column_room;
  copy->cell = g_memdup2 (drawing->cell, (gsize)drawing->row_room * drawing->column_room);
  return copy;
}

void
bw_drawing_free (BwDrawing *drawing)
{
  if (!drawing)
    return;
  g_free (drawing->cell);
  g_free (drawing);
}

int
bw_drawing_columns (const BwDrawing *drawing)
{
  return drawing->columns;
}

int
bw_drawing_rows (const BwDrawing *drawing)
{
  return drawing->rows;
}

static gboolean
shows (const BwDrawing *drawing, int row, int column)
{
  return row >= 1 && row <= drawing->rows && column >= 1 && column <= drawing->columns
         && bw_lattice_has (row, column);
}

guint8
bw_drawing_get (const BwDrawing *drawing, int row, int column)
{
  g_return_val_if_fail (shows (drawing, row, column), 0);
  return row_of (drawing, row)[bw_lattice_index (column)];
}

void
bw_drawing_set (BwDrawing *drawing, int row, int column, guint8 colour)
{
  g_return_if_fail (shows (drawing, row, column) && colour != NEVER_SEEN);
  row_of (drawing, row)[bw_lattice_index (column)] = colour;
}

const guint8 *
bw_drawing_row (const BwDrawing *drawing, int row)
{
  g_return_val_if_fail (row >= 1 && row <= drawing->rows, NULL);
  return row_of (drawing, row);
}

/* Room for at least so much; what is new there has never been seen. */
static void
make_room (BwDrawing *drawing, int rows, int beads)
{
  if (rows <= drawing->row_room && beads <= drawing->column_room)
    return;
  int row_room = MAX (rows, drawing->row_room), column_room = MAX (beads, drawing->column_room);
  gsize size = (gsize)row_room * column_room;
  guint8 *cell = g_malloc (size);
  memset (cell, NEVER_SEEN, size);
  for (int row = 1; row <= drawing->row_room; row++)
    memcpy (cell + (gsize)(row - 1) * column_room, row_of (drawing, row), drawing->column_room);
  g_free (drawing->cell);
  drawing->cell = cell;
  drawing->row_room = row_room;
  drawing->column_room = column_room;
}

static void
show_for_the_first_time (guint8 *cells, int n, guint8 ground)
{
  for (int j = 0; j < n; j++)
    if (cells[j] == NEVER_SEEN)
      cells[j] = ground;
}

void
bw_drawing_resize (BwDrawing *drawing, int columns, int rows, guint8 ground)
{
  g_return_if_fail (columns >= 2 && columns % 2 == 0 && rows >= 1);
  make_room (drawing, rows, columns / 2);
  drawing->columns = columns;
  drawing->rows = rows;
  for (int row = 1; row <= rows; row++)
    show_for_the_first_time (row_of (drawing, row), columns / 2, ground);
}

gboolean
bw_drawing_equal (const BwDrawing *a, const BwDrawing *b)
{
  if (a->columns != b->columns || a->rows != b->rows)
    return FALSE;
  for (int row = 1; row <= a->rows; row++)
    if (memcmp (row_of (a, row), row_of (b, row), a->columns / 2) != 0)
      return FALSE;
  return TRUE;
}

void
bw_drawing_count (const BwDrawing *drawing, guint64 counts[256])
{
  for (int row = 1; row <= drawing->rows; row++) {
    const guint8 *cells = row_of (drawing, row);
    for (int j = 0; j < drawing->columns / 2; j++)
      counts[cells[j]]++;
  }
}

guint8
bw_drawing_ground (const BwDrawing *drawing)
{
  guint64 counts[256] = { 0 };
  guint best = 0;

  bw_drawing_count (drawing, counts);
  for (guint i = 1; i < G_N_ELEMENTS (counts); i++)
    if (counts[i] > counts[best])
      best = i;
  return (guint8)best;
}
