/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The band's beads at their places. */
#include "preview/scene/scene-parts.h"

#include "core/base/lattice.h"
#include "preview/scene/scene-bead.h"

int
bw_scene_bead_index (const BwScene *scene, gboolean in_bail, int row, int column)
{
  int columns = in_bail ? scene->bail_columns : scene->band_columns;
  int n = in_bail ? (int)scene->beads->len - scene->n_band : scene->n_band;
  if (row < 1 || column < 1 || column > columns || !bw_lattice_has (row, column)
      || row > n / (columns / 2))
    return -1;
  return (in_bail ? scene->n_band : 0) + (row - 1) * (columns / 2) + bw_lattice_index (column);
}

BwBeadOf
bw_scene_bead_of (const BwScene *scene, int index)
{
  gboolean in_bail = index >= scene->n_band;
  int per_row = MAX ((in_bail ? scene->bail_columns : scene->band_columns) / 2, 1);
  int i = in_bail ? index - scene->n_band : index, row = i / per_row + 1;
  return (BwBeadOf){ in_bail, row, bw_lattice_column (row, i % per_row) };
}

void
bw_scene_add_band (BwScene *scene, const BwPlaces *places, const BwDesign *design)
{
  const float up[] = { 0, 0, 1 };
  int per_row = places->columns / 2;
  scene->n_band = places->rows * per_row;
  for (int row = 1; row <= places->rows; row++)
    for (int j = 0; j < per_row; j++) {
      BwPlace place = bw_places_get (places, row, bw_lattice_column (row, j));
      BwSceneBead bead = { .at = { (float)place.at.x, (float)place.at.y, (float)place.at.z } };
      bw_bead_lie (&bead, up, (const float[]){ (float)place.normal.x, (float)place.normal.y, 0 });
      g_array_append_val (scene->beads, bead);
    }
}
