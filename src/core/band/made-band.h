/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A design's band as motifs are laid on it. */
#pragma once

#include "core/band/places.h"
#include "core/pattern/made.h"

/* The faces as they lie under the middle of the columns first..last, which may reach beyond the
 * band. stone: of the design's measures. */
void bw_made_band_init (BwMadeBand *band, const BwDesign *design, const BwStone *stone,
                        int first_column, int last_column);

/* What a motif laid before is on this design's band; as bw_made_renew(). */
gboolean bw_made_band_renew (const BwMade *made, const BwDesign *design, const BwStone *stone,
                             BwMade *renewed, BwFault *fault);
