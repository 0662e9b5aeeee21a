/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rings of different columns carry their beads round the corners at slightly different beads, so a
 * face's edge runs askew across the unrolled band. The marks are kept for each column for itself.
 */
#include "editor/cloth/band-faces.h"

#include "core/base/lattice.h"
#include <math.h>

/* The image of u nearest to `near`. */
static double
nearest_image (double u, double near, int around)
{
  return u + around * round ((near - u) / around);
}

/* The first image of `corner` after u. */
static double
next_image (double corner, double u, int around)
{
  return corner - around * floor ((corner - u) / around);
}

/* Ties the cyclic places of one column to each other and to the column below, so that lines drawn
 * from column to column never jump a whole turn. */
static void
place_faces (BwBandFaces *faces, int column, const double *middle, const double *corner)
{
  int n = faces->faces, around = faces->around;
  BwBandFace *here = faces->face + (column - 1) * n;

  for (int f = 0; f < n; f++) {
    double near = column > 1 ? here[f - n].middle : middle[f];
    here[f].middle = nearest_image (middle[f], near, around);
    here[f].right = next_image (corner[f], here[f].middle, around);
    here[f].left = next_image (corner[(f + n - 1) % n], here[f].middle, around) - around;
  }
}

/* Where the needle sews it, half a pitch to a row. */
static void
place_bail (BwBandFaces *faces, const BwBailBase *base)
{
  faces->has_bail = base != NULL;
  if (!base)
    return;
  faces->bail_left = (base->first_row - 1) / 2;
  faces->bail_right = (base->last_row - 1) / 2;
  faces->bail_bottom = base->bottom;
  faces->bail_top = base->top;
}

/* A column is a column of the axis too: the band stands upright on the stone. */
static double
height_of (const BwDesign *design, double z_mm)
{
  return (z_mm - design->band.bottom_mm) / design->gauge.column_mm;
}

static void
place_stone (BwBandFaces *faces, const BwDesign *design, const BwStone *stone)
{
  faces->foot = height_of (design, 0);
  faces->heel = height_of (design, stone->base_shoulder_mm);
  faces->shoulder = height_of (design, stone->shoulder_mm);
  faces->tip = height_of (design, stone->length_mm);
}

void
bw_band_faces_init (BwBandFaces *faces, const BwDesign *design, const BwStone *stone,
                    const BwBailBase *base)
{
  int around = bw_lattice_beads_around (design->band.rows);
  *faces = (BwBandFaces){ .columns = design->band.columns, .around = around };
  place_stone (faces, design, stone);
  if (around < 3)
    return;

  faces->faces = stone->faces;
  faces->face = g_new0 (BwBandFace, (gsize)faces->columns * faces->faces);
  for (int column = 1; column <= faces->columns; column++) {
    double middle[BW_FACES_MAX], corner[BW_FACES_MAX];
    bw_places_faces (design, stone, column, around, middle, corner);
    place_faces (faces, column, middle, corner);
  }
  place_bail (faces, base);
}

void
bw_band_faces_clear (BwBandFaces *faces)
{
  g_clear_pointer (&faces->face, g_free);
  faces->faces = 0;
}

const BwBandFace *
bw_band_faces_get (const BwBandFaces *faces, int column, int face)
{
  return &faces->face[(column - 1) * faces->faces + face];
}

double
bw_band_faces_next (const BwBandFaces *faces, int column, double u, int dir)
{
  const double hair = 0.01;
  double best = faces->around;
  for (int f = 0; f < faces->faces; f++) {
    double ahead = (bw_band_faces_get (faces, column, f)->middle - u) * dir;
    ahead -= faces->around * floor (ahead / faces->around);
    if (ahead > hair && ahead < best)
      best = ahead;
  }
  return u + dir * best;
}
