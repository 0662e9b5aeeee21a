/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What straight, square and rectangular mean where every other row lies half a bead on. */
#include "editor/tool/shape.h"

#include "core/base/lattice.h"

#include <math.h>
#include <stdlib.h>

BwShapeBox
bw_shape_box (BwBeadAt a, BwBeadAt b, int around)
{
  BwShapeBox box = {
    .first_row = MIN (a.row, b.row),
    .last_row = MAX (a.row, b.row),
    .first_column = MIN (a.column, b.column),
    .last_column = MAX (a.column, b.column),
  };
  if (box.last_row == box.first_row && box.last_column > box.first_column)
    box.last_row++;
  box.last_row = MIN (box.last_row, box.first_row + 2 * around - 1);
  return box;
}

/* The first and last bead of a column within the rows of a box; last < first for none. */
static int
first_of (BwShapeBox box, int column)
{
  return box.first_row + !bw_lattice_has (box.first_row, column);
}

static int
last_of (BwShapeBox box, int column)
{
  return box.last_row - !bw_lattice_has (box.last_row, column);
}

void
bw_shape_fill (BwShapeBox box, BwStrokeVisit visit, gpointer data)
{
  for (int column = box.first_column; column <= box.last_column; column++)
    for (int row = first_of (box, column); row <= last_of (box, column); row += 2)
      visit (row, column, data);
}

void
bw_shape_frame (BwShapeBox box, BwStrokeVisit visit, gpointer data)
{
  for (int column = box.first_column; column <= box.last_column; column++) {
    int first = first_of (box, column), last = last_of (box, column);
    int step = column == box.first_column || column == box.last_column ? 2 : MAX (last - first, 2);
    for (int row = first; row <= last; row += step)
      visit (row, column, data);
  }
}

/* `to` with its row mended so that the lattice has a bead there. */
static BwBeadAt
on_lattice (BwBeadAt to)
{
  if (!bw_lattice_has (to.row, to.column))
    to.row += to.row % 2 ? 1 : -1;
  return to;
}

BwBeadAt
bw_shape_straighten (BwBeadAt from, BwBeadAt to, double pitch_mm, double column_mm)
{
  int along = to.row - from.row, up = to.column - from.column;
  double x = along * pitch_mm / 2, y = up * column_mm;
  double slant = atan2 (column_mm, pitch_mm / 2), angle = atan2 (fabs (y), fabs (x));

  if (angle < slant / 2)
    return (BwBeadAt){ from.row + along / 2 * 2, from.column };
  if (angle > (slant + G_PI_2) / 2)
    return on_lattice ((BwBeadAt){ from.row, to.column });
  return (BwBeadAt){ from.row + (along < 0 ? -abs (up) : abs (up)), to.column };
}

BwBeadAt
bw_shape_square (BwBeadAt from, BwBeadAt to, double pitch_mm, double column_mm)
{
  int along = to.row - from.row, up = to.column - from.column;
  double wide = (abs (along) + 2) * pitch_mm / 2, tall = (abs (up) + 1) * column_mm;

  if (wide > tall) {
    int rows = MAX (0, (int)lround (2 * tall / pitch_mm) - 2);
    to.row = from.row + (along < 0 ? -rows : rows);
  } else {
    int columns = MAX (0, (int)lround (wide / column_mm) - 1);
    to.column = from.column + (up < 0 ? -columns : columns);
  }
  return on_lattice (to);
}
