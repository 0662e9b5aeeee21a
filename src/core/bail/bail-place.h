/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where on the band a bail stands: between an azimuth of the stone and the beads it is sewn to.
 *
 * Rows here are band rows as real numbers, counted on round the ring: row 1 lies at the join, at
 * seam_deg, and 2n + 1 is row 1 again (n beads around). Between the join and the bail lies the same
 * share of the rows as of the bead-centre curve at the band's middle: `ring` is everywhere that
 * curve, as bw_mid_ring_init() has it for this design. Nothing of the bail bears on it, so it holds
 * while a bail is moved. */
#pragma once

#include "core/design/design.h"
#include "core/band/ring.h"

/* The band row under an azimuth, 1 ≤ row < 2n + 1. The design must be valid. */
double bw_bail_row (const BwDesign *design, const BwRing *ring, double at_deg);

/* The azimuth over a band row, the inverse: 0 ≤ azimuth < 360, but seam_deg itself at the join. */
double bw_bail_azimuth (const BwDesign *design, const BwRing *ring, double row);

/* The row nearest to `row` that the middle of the bail can have. A flap's first row is woven into
 * the beads of one band row, and only every second row has its beads in the columns that meet the
 * flap's. A strip of its own can stand over any row. */
double bw_bail_nearest_row (const BwDesign *design, double row);

/* From one such row to the next: 2 for a flap, 1 for a strip of its own. */
int bw_bail_row_step (const BwBail *bail);

/* Sets at_deg so that the bail stands at the place nearest to `row`; hundredths of a degree, the
 * join exactly. */
void bw_bail_stand (BwDesign *design, const BwRing *ring, double row);

/* What the base of a bail takes of the band. */
typedef struct {
  double first_row, last_row; /* first < last; through the join first may be < 1 or last > 2n */
  double bottom, top;         /* edges in columns from the band's lower edge, 0..W */
  int margin;                 /* flap: band columns left free on either side */
  int column[2];              /* a strip: band columns of its first and its second foot */
  double foot_row[2];         /* a strip: band rows under the middles of its feet */
  int sense[2]; /* a strip: +1 where its columns run as the band's rows do, else −1 */
} BwBailBase;

/* The base as the needle sews it. A flap lies between the middles of the band beads under its first
 * row and over its last (one row further on when its parity is wrong), an upright strip stands over
 * its middle row, m column widths across, its columns against the band's rows. A loop over the tip
 * stands on the beads of the upper edge, from the middle of its first foot to that of its second:
 * base_beads along the edge, half round at most, for farther is the same loop from the other side.
 * Its rows go the way the band's do; what was outside on the band is outside on the loop, so that
 * its columns run against the band's rows at the first foot and with them at the second. Not to be
 * called with BW_BAIL_NONE. */
void bw_bail_base_init (BwBailBase *base, const BwDesign *design, const BwRing *ring);

/* Under which azimuths, degrees, a bail stands on the band: at_deg itself, or those of both feet of
 * a loop over the tip. Returns how many, 0 without a bail. */
int bw_bail_azimuths (double at_deg[2], const BwDesign *design, const BwRing *ring);
