/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The join. Two ends interlock when the row count is even; by how much they miss or overlap is the
 * fit's gap; whether a repeating drawing runs on is a question of divisibility. */
#include "core/band/join.h"

#include "core/base/lattice.h"
#include "core/base/limits.h"
#include <string.h>

static gboolean
same_row (const BwDrawing *drawing, int a, int b)
{
  gsize beads = (gsize)bw_drawing_columns (drawing) / 2;
  return memcmp (bw_drawing_row (drawing, a + 1), bw_drawing_row (drawing, b + 1), beads) == 0;
}

/* border[i]: how many rows at the beginning of the first i + 1 rows are also the last ones of them,
 * short of all of them. Each comparison either lengthens a border or gives one up, so their number
 * is linear (Knuth, Morris & Pratt, SIAM Journal on Computing 6(2), 1977, 323–350). */
static int *
borders (const BwDrawing *drawing, int rows)
{
  int *border = g_new0 (int, rows);
  int length = 0;
  for (int i = 1; i < rows; i++) {
    while (length > 0 && !same_row (drawing, i, length))
      length = border[length - 1];
    if (same_row (drawing, i, length))
      length++;
    border[i] = length;
  }
  return border;
}

int
bw_join_repeat (const BwDrawing *drawing)
{
  int rows = bw_drawing_rows (drawing);
  g_autofree int *border = borders (drawing, rows);
  /* rows less a border is a repeat; longer borders give shorter repeats. */
  for (int length = border[rows - 1]; length > 0; length = border[length - 1]) {
    int repeat = rows - length;
    if (repeat > rows / 2)
      return 0;
    if (repeat % 2 == 0)
      return repeat;
  }
  return 0;
}

static void
measure (BwJoin *join, const BwFit *fit, double pitch_mm)
{
  if (!join->interlocks)
    return;
  join->gap_mm = MAX (fit->gap_max_mm, 0);
  join->overlap_mm = MAX (-fit->gap_min_mm, 0);
  join->gap_beads = join->gap_mm / pitch_mm;
  join->overlap_beads = join->overlap_mm / pitch_mm;
}

static void
find_nearest_counts (BwJoin *join)
{
  int left = join->rows % join->repeat_rows;
  join->repeat_closes = left == 0;
  join->repeat_below = join->rows - left;
  join->repeat_above = left == 0 ? join->rows : join->repeat_below + join->repeat_rows;
  if (join->repeat_above > BW_ROWS_MAX)
    join->repeat_above = 0;
}

/* The beads of the first repeat that differ from those one repeat back, beyond the join. */
static void
list_broken (BwJoin *join, const BwDrawing *drawing)
{
  for (int row = 1; row <= join->repeat_rows; row++)
    for (int j = 0; j < bw_drawing_columns (drawing) / 2; j++) {
      BwBeadAt at = { row, bw_lattice_column (row, j) };
      int back = join->rows + row - join->repeat_rows;
      if (bw_drawing_row (drawing, row)[j] != bw_drawing_row (drawing, back)[j])
        g_array_append_val (join->broken, at);
    }
}

void
bw_join_init (BwJoin *join, const BwFit *fit, const BwDesign *design, const BwDrawing *drawing)
{
  *join = (BwJoin){ .rows = bw_drawing_rows (drawing) };
  join->interlocks = join->rows % 2 == 0;
  join->broken = g_array_new (FALSE, FALSE, sizeof (BwBeadAt));
  join->repeat_rows = bw_join_repeat (drawing);
  measure (join, fit, design->pitch.mm);
  if (join->repeat_rows == 0)
    return;
  find_nearest_counts (join);
  if (join->interlocks && !join->repeat_closes)
    list_broken (join, drawing);
}

void
bw_join_clear (BwJoin *join)
{
  g_clear_pointer (&join->broken, g_array_unref);
}
