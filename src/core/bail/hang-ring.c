/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "core/bail/hang-ring.h"

#include "core/base/tolerance.h"

#include <math.h>

#define WIRE_MM 1.2
#define MOST_OF_OPENING 0.8
#define STEP_MM 0.5

gboolean
bw_hang_ring_init (BwHangRing *ring, const BwDesign *design, const BwLoop *loop)
{
  const BwBail *bail = &design->bail;
  *ring = (BwHangRing){ 0 };
  if (bail->style != BW_BAIL_RING || loop->opening_mm <= 0)
    return FALSE;
  double half = bail->columns * design->gauge.column_mm / 2;
  ring->wire_mm = fmin (WIRE_MM, MOST_OF_OPENING * loop->opening_mm);
  double deep = loop->opening_mm - ring->wire_mm;
  double beyond = design->bead.diameter_mm + bail->cord_mm + bail->clearance_mm;
  /* ρ − √(ρ² − h²) ≤ deep, where ρ ≥ h; ρ + √(ρ² − h²) ≥ beyond. */
  double within = deep >= half ? half : (deep * deep + half * half) / (2 * deep);
  double around = beyond <= half ? half : (beyond * beyond + half * half) / (2 * beyond);
  double inner = 2 * fmax (within, around);
  ring->inner_mm = STEP_MM * ceil (inner / STEP_MM - BW_ROUNDING_WHOLE);
  double radius = ring->inner_mm / 2;
  ring->passes_mm = radius + sqrt (fmax (0, radius * radius - half * half))
                    - design->bead.diameter_mm - bail->clearance_mm;
  return TRUE;
}
