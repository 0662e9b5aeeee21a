/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every row of the result comes from one row of the drawing, or is plain; which one is all that the
 * three choices differ in. */
#include "core/band/refit.h"

#include "core/band/join.h"

#define PLAIN 0 /* no row of the drawing */

typedef struct {
  int own, rows; /* of the drawing, of the result */
  int woven;
  int repeat; /* 0: none */
  BwRefit how;
} Plan;

/* One repeat before, again and again, until there is such a row. */
static int
repeated_row (const Plan *plan, int row)
{
  if (row <= plan->own)
    return row;
  if (plan->repeat == 0)
    return row % 2 ? 1 : PLAIN;
  return row - (row - plan->own + plan->repeat - 1) / plan->repeat * plan->repeat;
}

/* Rows of one parity are spread among themselves: each new row is taken from the old one whose
 * place along the way is nearest. */
static int
spread_row (const Plan *plan, int row)
{
  int first = plan->woven + (row % 2 == (plan->woven + 1) % 2 ? 1 : 2);
  int n_new = (plan->rows - first) / 2 + 1;
  int n_old = first <= plan->own ? (plan->own - first) / 2 + 1 : 0;
  if (n_old == 0)
    return first > 2 ? first - 2 : PLAIN;
  int i = (row - first) / 2;
  return first + 2 * ((2 * i + 1) * n_old / (2 * n_new));
}

static int
source_row (const Plan *plan, int row)
{
  if (row <= plan->woven)
    return row;
  if (plan->how == BW_REFIT_STRETCH)
    return spread_row (plan, row);
  if (plan->how == BW_REFIT_REPEAT)
    return repeated_row (plan, row);
  return row <= plan->own ? row : PLAIN;
}

/* Without a repeat the whole drawing is one; an odd row more would not fall on the lattice. */
static Plan
plan_of (const BwDrawing *drawing, int rows, int woven, BwRefit how)
{
  int own = bw_drawing_rows (drawing), repeat = bw_join_repeat (drawing);
  return (Plan){ own, rows, CLAMP (woven, 0, own), repeat > 0 ? repeat : (own & ~1), how };
}

BwDrawing *
bw_refit (const BwDrawing *drawing, int rows, int woven, BwRefit how)
{
  g_return_val_if_fail (rows >= 1 && how < BW_N_REFITS, NULL);
  int columns = bw_drawing_columns (drawing);
  Plan plan = plan_of (drawing, rows, woven, how);
  BwDrawing *fitted = bw_drawing_new (columns, rows, bw_drawing_ground (drawing));
  for (int row = 1; row <= rows; row++) {
    int from = source_row (&plan, row);
    if (from == PLAIN)
      continue;
    for (int column = row % 2 ? 2 : 1; column <= columns; column += 2)
      bw_drawing_set (fitted, row, column, bw_drawing_get (drawing, from, column));
  }
  return fitted;
}
