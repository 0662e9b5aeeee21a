/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The metal ring of a ring bail, which lies in the flap as one link of a chain in another.
 *
 * The flap is a tunnel ℓ = m w long and d high, its wall one bead D thick. A round ring of wire t
 * and inner radius ρ touches the inside of the wall at the tunnel's two mouths, √(ρ² − ℓ²/4) from
 * the ring's middle, and hangs deepest half way between them: ρ + t − √(ρ² − ℓ²/4) ≤ d. Beyond the
 * wall it leaves ρ + √(ρ² − ℓ²/4) − D for what hangs in it. Both hold from a least ρ on. */
#pragma once

#include "core/design/design.h"

typedef struct {
  double wire_mm;   /* 1.2 mm is common practice, no source; thinner where the loop is low */
  double inner_mm;  /* inner diameter, the least in half millimetres */
  double passes_mm; /* the thickest cord that moves in it, with the bail's clearance */
} BwHangRing;

/* FALSE where nothing passes the loop, or the bail has no ring. */
gboolean bw_hang_ring_init (BwHangRing *ring, const BwDesign *design, const BwLoop *loop);
