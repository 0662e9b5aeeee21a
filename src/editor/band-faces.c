/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rings of different columns carry their beads round the corners at slightly different beads, so a
 * face's edge runs askew across the unrolled band. The marks are kept for each column for itself.
 */
#include "band-faces.h"

#include "core/lattice.h"
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

/* Where the bead centres of a column pass an azimuth, in pitches from row 1: between two beads the
 * angle is taken as linear. */
static double
pitches_at_azimuth (const BwPlaces *places, int column, double azimuth)
{
  int first = bw_lattice_has (1, column) ? 1 : 2;
  for (int row = first; row <= places->rows; row += 2) {
    const BwPlace *here = bw_places_get (places, row, column);
    int next_row = row + 2 <= places->rows ? row + 2 : first;
    const BwPlace *next = bw_places_get (places, next_row, column);
    double angle = atan2 (here->at.y, here->at.x);
    double turn = fmod (atan2 (next->at.y, next->at.x) - angle + 4 * G_PI, 2 * G_PI);
    double part = fmod (azimuth - angle + 4 * G_PI, 2 * G_PI);
    if (part >= 2 * G_PI - 1e-9)
      part = 0;
    if (part < turn)
      return bw_lattice_pitches (row) + part / turn;
  }
  return 0;
}

/* The flap leaves the band over m columns and base_beads beads; the upright strip stands m columns
 * wide across the stone over base_beads columns. */
static void
place_bail (BwBandFaces *faces, const BwDesign *design, const BwPlaces *places)
{
  const BwBail *bail = &design->bail;
  faces->has_bail = bail->style != BW_BAIL_NONE;
  if (!faces->has_bail)
    return;

  gboolean upright = bail->style == BW_BAIL_UPRIGHT;
  double across = upright ? bail->columns * design->gauge.column_mm / design->gauge.pitch_mm
                          : bail->base_beads;
  double up = upright ? bail->base_beads : bail->columns;
  int middle = faces->columns / 2;
  double at = pitches_at_azimuth (places, middle + middle % 2, bw_radians (bail->at_deg));
  faces->bail_left = at - across / 2;
  faces->bail_right = at + across / 2;
  faces->bail_bottom = (faces->columns - up) / 2;
  faces->bail_top = (faces->columns + up) / 2;
}

void
bw_band_faces_init (BwBandFaces *faces, const BwDesign *design, const BwStone *stone,
                    const BwPlaces *places)
{
  int around = bw_lattice_beads_around (design->band.rows);
  *faces = (BwBandFaces){ .columns = design->band.columns, .around = around };
  if (around < 3)
    return;

  faces->faces = stone->faces;
  faces->face = g_new0 (BwBandFace, (gsize)faces->columns * faces->faces);
  for (int column = 1; column <= faces->columns; column++) {
    double middle[BW_FACES_MAX], corner[BW_FACES_MAX];
    bw_places_faces (design, stone, column, around, middle, corner);
    place_faces (faces, column, middle, corner);
  }
  place_bail (faces, design, places);
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
