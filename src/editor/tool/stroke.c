/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pointer events come as few as the display likes; a stroke must not care. It is a line across the
 * brick tiling, walked column by column.
 *
 * At every corner of the tiling three bricks meet and each touches the two others along an edge, so
 * leaving out a brick that is only grazed never breaks the chain. */
#include "editor/tool/stroke.h"

#include <math.h>
#include <stdlib.h>

/* Far below a thousandth of a pixel at the greatest zoom, far above rounding. */
#define GRAZE 1e-7

/* The bricks of one column between two places of the line. */
static void
visit_column (int column, double u_from, double u_to, BwStrokeVisit visit, gpointer data)
{
  double low = MIN (u_from, u_to) + GRAZE, high = MAX (u_from, u_to) - GRAZE;
  if (low > high)
    low = high = (u_from + u_to) / 2;

  int first = bw_band_brick ((BwBandPoint){ low, column - 0.5 }).row;
  int last = bw_band_brick ((BwBandPoint){ high, column - 0.5 }).row;
  if (u_to >= u_from)
    for (int row = first; row <= last; row += 2)
      visit (row, column, data);
  else
    for (int row = last; row >= first; row -= 2)
      visit (row, column, data);
}

/* u where the line meets height v, kept between its ends. */
static double
u_at (BwBandPoint from, BwBandPoint to, double v)
{
  double t = (v - from.v) / (to.v - from.v);
  return from.u + CLAMP (t, 0, 1) * (to.u - from.u);
}

void
bw_stroke_visit (BwBandPoint from, BwBandPoint to, int columns, BwStrokeVisit visit, gpointer data)
{
  double low = MIN (from.v, to.v) + GRAZE, high = MAX (from.v, to.v) - GRAZE;
  if (low > high) {
    int column = (int)floor ((from.v + to.v) / 2) + 1;
    if (column >= 1 && column <= columns)
      visit_column (column, from.u, to.u, visit, data);
    return;
  }

  int first = (int)floor (CLAMP (low, -1, columns)) + 1;
  int last = (int)floor (CLAMP (high, -1, columns)) + 1;
  int step = to.v > from.v ? 1 : -1;
  for (int i = 0; i <= last - first; i++) {
    int column = step > 0 ? first + i : last - i;
    if (column < 1 || column > columns)
      continue;
    double enters = step > 0 ? column - 1 : column, leaves = step > 0 ? column : column - 1;
    visit_column (column, u_at (from, to, enters), u_at (from, to, leaves), visit, data);
  }
}

/* The lattice is a hexagonal one in disguise: besides column r, count q = (row − 1 − column)/2
 * along one slant and s = −q − r along the other. Rounding all three and mending the one that was
 * rounded most gives the hexagon a point lies in, and points one step apart lie in neighbouring
 * hexagons. */
static BwBeadAt
hexagon_at (double q, double r)
{
  double s = -q - r, q_round = round (q), r_round = round (r), s_round = round (s);
  double q_off = fabs (q_round - q), r_off = fabs (r_round - r), s_off = fabs (s_round - s);

  if (q_off > r_off && q_off > s_off)
    q_round = -r_round - s_round;
  else if (r_off > s_off)
    r_round = -q_round - s_round;
  return (BwBeadAt){ (int)(2 * q_round + r_round) + 1, (int)r_round };
}

void
bw_stroke_line (BwBeadAt from, BwBeadAt to, BwStrokeVisit visit, gpointer data)
{
  int up = abs (to.column - from.column), along = abs (to.row - from.row);
  int steps = along <= up ? up : up + (along - up) / 2;
  double q = (from.row - 1 - from.column) / 2.0, r = from.column;
  double q_step = steps ? ((to.row - 1 - to.column) / 2.0 - q) / steps : 0;
  double r_step = steps ? (to.column - r) / steps : 0;

  for (int i = 0; i <= steps; i++) {
    /* The nudge takes the points off the hexagons' edges, where rounding could tear the chain. */
    BwBeadAt bead = hexagon_at (q + i * q_step + GRAZE, r + i * r_step + 2 * GRAZE);
    visit (bead.row, bead.column, data);
  }
}
