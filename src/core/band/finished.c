/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Corners and bead centres seen along every degree of a half turn: the widest of these shadows
 * misses the greatest breadth by less than 1 − cos 0.5° of it, 4 in 100,000. */
#include "core/band/finished.h"

#include <math.h>

#define DIRECTIONS 180

/* How far points reach along a direction, both ways, with `more` round each. */
typedef struct {
  double least, most;
} Reach;

static void
reach_to (Reach *reach, BwVec2 along, double x, double y, double more)
{
  double at = along.x * x + along.y * y;
  reach->least = fmin (reach->least, at - more);
  reach->most = fmax (reach->most, at + more);
}

static double
breadth_along (const BwDesign *design, const BwStone *stone, const BwPlaces *places, BwVec2 along)
{
  Reach reach = { INFINITY, -INFINITY };
  for (int i = 0; i < stone->n_vertices; i++)
    reach_to (&reach, along, stone->vertex[i].x, stone->vertex[i].y, 0);
  for (int i = 0; i < places->rows * places->columns / 2; i++)
    reach_to (&reach, along, places->place[i].at.x, places->place[i].at.y,
              design->bead.diameter_mm / 2);
  return reach.most - reach.least;
}

BwFinished
bw_finished_size (const BwDesign *design, const BwStone *stone, const BwPlaces *places)
{
  BwFinished size = { .length_mm = design->stone.length_mm };
  for (int i = 0; i < DIRECTIONS; i++) {
    double angle = i * G_PI / DIRECTIONS;
    BwVec2 along = { cos (angle), sin (angle) };
    size.breadth_mm = fmax (size.breadth_mm, breadth_along (design, stone, places, along));
  }
  return size;
}
