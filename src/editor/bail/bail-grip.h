/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a hand can take hold of on the bail outlined on the unrolled band, and what pulling at it
 * does: pure arithmetic, no widget. Whatever is pulled snaps to what can be woven. */
#pragma once

#include "editor/cloth/band-layout.h"
#include "core/bail/bail-place.h"

typedef enum {
  BW_BAIL_GRIP_NONE,
  BW_BAIL_GRIP_BODY, /* moves it round the stone */
  BW_BAIL_GRIP_LEFT,
  BW_BAIL_GRIP_RIGHT,
  BW_BAIL_GRIP_BOTTOM,
  BW_BAIL_GRIP_TOP,
} BwBailGrip;

/* Its outline, round what it takes of the band: u of the first image, v. */
typedef struct {
  double left, right, bottom, top;
} BwBailBox;

BwBailBox bw_bail_box (const BwBailBase *base);

/* The same box a whole number of turns on, its middle nearest to u. */
BwBailBox bw_bail_box_near (BwBailBox box, double u, int around);

/* What lies under a pixel. An edge can be taken from reach_px outside it to as much inside, as long
 * as half of the bail is left to move it by. */
BwBailGrip bw_bail_grip_at (const BwBandLayout *layout, BwBailBox box, double x, double y,
                            double reach_px);

/* design becomes `from` with a grip pulled `along` pitches to the right and `up` columns. The
 * outline stays about its middle, which is where the core keeps it. A pull that changes nothing
 * leaves every value as it was. from must be sound; so is the result. ring: that of from, as
 * bw_mid_ring_init() has it. */
void bw_bail_pull (BwDesign *design, const BwDesign *from, const BwRing *ring, BwBailGrip grip,
                   double along, double up);

/* What the keys change by steps. */
typedef enum { BW_BAIL_PLACE, BW_BAIL_COLUMNS, BW_BAIL_BASE } BwBailKnob;

/* One step is the next place it can stand at, two columns, or the next base of right parity. Stops
 * at what can be woven; FALSE when nothing changed. */
gboolean bw_bail_step (BwDesign *design, const BwRing *ring, BwBailKnob knob, int by);
