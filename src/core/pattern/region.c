/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A byte a bead, as the drawing keeps its colours: simple, and quick enough for a band of 10⁵. */
#include "core/pattern/region.h"

#include "core/base/lattice.h"

#include <string.h>

struct _BwRegion {
  int columns, rows, count;
  guint8 *in; /* rows × columns/2 */
};

BwRegion *
bw_region_new (int columns, int rows)
{
  g_return_val_if_fail (columns >= 2 && columns % 2 == 0 && rows >= 1, NULL);
  BwRegion *region = g_new0 (BwRegion, 1);
  region->columns = columns;
  region->rows = rows;
  region->in = g_new0 (guint8, (gsize)rows * (gsize)columns / 2);
  return region;
}

static gsize
size_of (const BwRegion *region)
{
  return (gsize)region->rows * (gsize)region->columns / 2;
}

BwRegion *
bw_region_copy (const BwRegion *region)
{
  BwRegion *copy = bw_region_new (region->columns, region->rows);
  memcpy (copy->in, region->in, size_of (region));
  copy->count = region->count;
  return copy;
}

void
bw_region_free (BwRegion *region)
{
  g_free (region->in);
  g_free (region);
}

int
bw_region_columns (const BwRegion *region)
{
  return region->columns;
}

int
bw_region_rows (const BwRegion *region)
{
  return region->rows;
}

int
bw_region_count (const BwRegion *region)
{
  return region->count;
}

/* The byte of a bead, NULL where there is none. */
static guint8 *
at (const BwRegion *region, int row, int column)
{
  int ring = region->rows + region->rows % 2;
  row = bw_lattice_wrap (row, ring);
  if (row > region->rows || column < 1 || column > region->columns || !bw_lattice_has (row, column))
    return NULL;
  return region->in + (gsize)(row - 1) * (gsize)(region->columns / 2) + bw_lattice_index (column);
}

gboolean
bw_region_has (const BwRegion *region, int row, int column)
{
  const guint8 *in = at (region, row, column);
  return in != NULL && *in;
}

static void
put (BwRegion *region, int row, int column, guint8 to)
{
  guint8 *in = at (region, row, column);
  if (in == NULL)
    return;
  region->count += to - *in;
  *in = to;
}

void
bw_region_add (BwRegion *region, int row, int column)
{
  put (region, row, column, 1);
}

void
bw_region_remove (BwRegion *region, int row, int column)
{
  put (region, row, column, 0);
}

void
bw_region_add_box (BwRegion *region, int first_row, int last_row, int first_column, int last_column)
{
  last_row = MIN (last_row, first_row + region->rows + region->rows % 2 - 1);
  for (int row = first_row; row <= last_row; row++)
    for (int column = MAX (first_column, 1); column <= MIN (last_column, region->columns); column++)
      bw_region_add (region, row, column);
}

void
bw_region_each (const BwRegion *region, BwRegionVisit visit, gpointer data)
{
  const guint8 *in = region->in;
  for (int row = 1; row <= region->rows; row++)
    for (int j = 0; j < region->columns / 2; j++, in++)
      if (*in)
        visit (row, bw_lattice_column (row, j), data);
}

void
bw_region_add_colour (BwRegion *region, const BwDrawing *drawing, guint8 colour)
{
  for (int row = 1; row <= region->rows; row++) {
    const guint8 *cells = bw_drawing_row (drawing, row);
    for (int j = 0; j < region->columns / 2; j++)
      if (cells[j] == colour)
        bw_region_add (region, row, bw_lattice_column (row, j));
  }
}

static void
add_to (int row, int column, gpointer data)
{
  bw_region_add (data, row, column);
}

void
bw_region_join (BwRegion *region, const BwRegion *other)
{
  bw_region_each (other, add_to, region);
}

gboolean
bw_region_equal (const BwRegion *a, const BwRegion *b)
{
  return a->columns == b->columns && a->rows == b->rows && memcmp (a->in, b->in, size_of (a)) == 0;
}

static gboolean
row_is_empty (const BwRegion *region, int row)
{
  gsize width = (gsize)region->columns / 2;
  return row > region->rows || memchr (region->in + (gsize)(row - 1) * width, 1, width) == NULL;
}

/* The longest run of empty rows round the ring; start is its first row. */
static int
longest_gap (const BwRegion *region, int *start)
{
  int ring = region->rows + region->rows % 2, run = 0, best = 0;
  *start = 1;
  for (int i = 0; i < 2 * ring; i++) {
    run = row_is_empty (region, bw_lattice_wrap (i + 1, ring)) ? MIN (run + 1, ring) : 0;
    if (run > best) {
      best = run;
      *start = bw_lattice_wrap (i - run + 2, ring);
    }
  }
  return best;
}

gboolean
bw_region_bounds (const BwRegion *region, int *first_row, int *last_row, int *first_column,
                  int *last_column)
{
  int ring = region->rows + region->rows % 2, start;
  if (region->count == 0)
    return FALSE;
  int gap = longest_gap (region, &start);
  *first_row = gap == 0 ? 1 : bw_lattice_wrap (start + gap, ring);
  *last_row = *first_row + ring - gap - 1;
  *first_column = region->columns;
  *last_column = 1;
  for (int row = 1; row <= region->rows; row++)
    for (int j = 0; j < region->columns / 2; j++)
      if (region->in[(gsize)(row - 1) * (gsize)(region->columns / 2) + (gsize)j]) {
        *first_column = MIN (*first_column, bw_lattice_column (row, j));
        *last_column = MAX (*last_column, bw_lattice_column (row, j));
      }
  return TRUE;
}
