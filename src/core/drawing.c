/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The drawing's bytes. The store is at least as large as the band has ever been; the visible part
 * is its lower left corner, so that nothing drawn is lost when the band is made smaller. */
#include "drawing.h"

#include "lattice.h"
#include <string.h>

struct _BwDrawing {
  gatomicrefcount references;
  int columns, rows;  /* visible */
  int stride, height; /* of the store: beads in a row, rows */
  guint8 *cell;
};

static guint8 *
cell_at (const BwDrawing *drawing, int row, int j)
{
  return drawing->cell + (gsize)(row - 1) * (gsize)drawing->stride + j;
}

BwDrawing *
bw_drawing_new (int columns, int rows, guint8 ground)
{
  BwDrawing *drawing = g_new0 (BwDrawing, 1);
  gsize size = (gsize)rows * (gsize)(columns / 2);
  g_atomic_ref_count_init (&drawing->references);
  drawing->columns = columns;
  drawing->rows = drawing->height = rows;
  drawing->stride = columns / 2;
  drawing->cell = g_malloc (size);
  memset (drawing->cell, ground, size);
  return drawing;
}

BwDrawing *
bw_drawing_copy (const BwDrawing *drawing)
{
  BwDrawing *copy = g_memdup2 (drawing, sizeof *drawing);
  g_atomic_ref_count_init (&copy->references);
  copy->cell = g_memdup2 (drawing->cell, (gsize)drawing->stride * (gsize)drawing->height);
  return copy;
}

BwDrawing *
bw_drawing_ref (BwDrawing *drawing)
{
  g_atomic_ref_count_inc (&drawing->references);
  return drawing;
}

void
bw_drawing_unref (BwDrawing *drawing)
{
  if (!g_atomic_ref_count_dec (&drawing->references))
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
is_inside (const BwDrawing *drawing, int row, int column)
{
  return row >= 1 && row <= drawing->rows && column >= 1 && column <= drawing->columns
         && bw_lattice_has (row, column);
}

guint8
bw_drawing_get (const BwDrawing *drawing, int row, int column)
{
  g_return_val_if_fail (is_inside (drawing, row, column), 0);
  return *cell_at (drawing, row, bw_lattice_index (column));
}

void
bw_drawing_set (BwDrawing *drawing, int row, int column, guint8 colour)
{
  g_return_if_fail (is_inside (drawing, row, column));
  *cell_at (drawing, row, bw_lattice_index (column)) = colour;
}

const guint8 *
bw_drawing_row (const BwDrawing *drawing, int row)
{
  g_return_val_if_fail (row >= 1 && row <= drawing->rows, NULL);
  return cell_at (drawing, row, 0);
}

/* A larger store with the old one in its corner. */
static void
grow (BwDrawing *drawing, int stride, int height, guint8 ground)
{
  guint8 *cell = g_malloc ((gsize)stride * (gsize)height);
  memset (cell, ground, (gsize)stride * (gsize)height);
  for (int row = 1; row <= drawing->height; row++)
    memcpy (cell + (gsize)(row - 1) * (gsize)stride, cell_at (drawing, row, 0),
            (gsize)drawing->stride);
  g_free (drawing->cell);
  drawing->cell = cell;
  drawing->stride = stride;
  drawing->height = height;
}

void
bw_drawing_resize (BwDrawing *drawing, int columns, int rows, guint8 ground)
{
  if (columns / 2 > drawing->stride || rows > drawing->height)
    grow (drawing, MAX (columns / 2, drawing->stride), MAX (rows, drawing->height), ground);
  drawing->columns = columns;
  drawing->rows = rows;
}

gboolean
bw_drawing_equal (const BwDrawing *a, const BwDrawing *b)
{
  if (a->columns != b->columns || a->rows != b->rows)
    return FALSE;
  for (int row = 1; row <= a->rows; row++)
    if (memcmp (cell_at (a, row, 0), cell_at (b, row, 0), (gsize)a->columns / 2))
      return FALSE;
  return TRUE;
}

void
bw_drawing_count (const BwDrawing *drawing, guint64 counts[256])
{
  for (int row = 1; row <= drawing->rows; row++) {
    const guint8 *cell = cell_at (drawing, row, 0);
    for (int j = 0; j < drawing->columns / 2; j++)
      counts[cell[j]]++;
  }
}
