/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "core/band/made-band.h"

void
bw_made_band_init (BwMadeBand *band, const BwDesign *design, const BwStone *stone, int first_column,
                   int last_column)
{
  int column = CLAMP ((first_column + last_column) / 2, 1, design->band.columns);
  *band = (BwMadeBand){ .columns = design->band.columns,
                        .rows = design->band.rows,
                        .n_faces = design->stone.faces };
  bw_places_faces (design, stone, column, MAX (1, design->band.rows / 2), band->middle,
                   band->corner);
}

gboolean
bw_made_band_renew (const BwMade *made, const BwDesign *design, const BwStone *stone,
                    BwMade *renewed, BwFault *fault)
{
  BwMadeBand band;
  bw_made_band_init (&band, design, stone, made->motif.first_column, made->motif.last_column);
  return bw_made_renew (made, &band, renewed, fault);
}
