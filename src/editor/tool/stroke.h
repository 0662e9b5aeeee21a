/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A stroke between two points of the unrolled band: which beads it crosses. */
#pragma once

#include "editor/cloth/band-layout.h"

/* Called for each bead crossed, in the order of the stroke; long_row as in band-layout.h. */
typedef void (*BwStrokeVisit) (int long_row, int column, gpointer data);

/* Visits every bead of columns 1..columns whose brick the straight line from `from` to `to`
 * crosses. A line that only grazes a brick's corner does not cross it; the beads visited still form
 * a chain of neighbours. A line split anywhere on its way visits the same beads. A line of no
 * length visits the bead it stands on. */
void bw_stroke_visit (BwBandPoint from, BwBandPoint to, int columns, BwStrokeVisit visit,
                      gpointer data);

/* The thin line for a ruler's work: one chain of neighbours from bead to bead with no more beads
 * than it needs. Both ends included. */
void bw_stroke_line (BwBeadAt from, BwBeadAt to, BwStrokeVisit visit, gpointer data);
