/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The loop of a bail on its stone: where it stands in space, and what passes through it.
 *
 * A flap's, a ring's and an upright strip's loop stand on the bead-centre curve at the middle of
 * the band, at the bail's azimuth, and arch outward. A loop over the tip arches upward: its base is
 * the straight way b = |P1 − P0| between two points of the bead-centre curve of column W, under the
 * azimuths of the band rows its feet stand over, at the height of the upper edge z_e = bottom + W
 * w. Its first bead lies half a pitch over the edge, as a row does over the one before it. Of the
 * rise r(1 − cos φ) over the edge half a bead at the crest is lost, and what of the stone stands
 * above the edge, s = max(0, length − z_e), for the cord runs across it between tip and crest:
 * opening d = r(1 − cos φ) − D/2 − s. */
#pragma once

#include "core/design/design.h"

/* A loop in space. Its directions are unit vectors at right angles: along × columns = out. */
typedef struct {
  BwVec3 middle;  /* of its base */
  BwVec3 out;     /* from there to the crest */
  BwVec3 along;   /* the way its rows go at the crest */
  BwVec3 columns; /* towards the higher column */
  /* Of a loop over the tip alone, else 0. How far its feet are turned against the edge they stand
   * on, the greater of both, degrees: 0 where the edge crosses the loop's plane squarely. And the
   * least room between the inside of its arc and the stone in the loop's plane above the edge, but
   * for the tip; negative where the stone stands in its way, infinite where it has no corner. */
  double twist_deg, beside_mm;
} BwBailFrame;

/* Solves the loop of any style but BW_BAIL_NONE. The design must be valid. Faults as of
 * bw_loop_solve(). frame may be NULL. */
gboolean bw_bail_loop_init (BwLoop *loop, BwBailFrame *frame, const BwDesign *design,
                            const BwStone *stone, BwFault *fault);

/* Makes a loop over the tip that can be woven: straight across, as wide as a third of the band,
 * with the least rows that let the cord through. style becomes BW_BAIL_OVER. */
void bw_bail_reach_over (BwDesign *design, const BwStone *stone);
