/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Volume and centre of mass of a closed polyhedron.
 *
 * Exact for flat faces: the divergence theorem over the fan of each face (B. Mirtich, "Fast and
 * Accurate Computation of Polyhedral Mass Properties", Journal of Graphics Tools 1(2), 1996, solves
 * the same integrals). */
#pragma once

#include "vec.h"

typedef struct {
  double volume_mm3;
  BwVec3 moment; /* ∫ x dV: divided by the volume it is the centroid */
} BwSolid;

/* Adds one face, n ≥ 3 corners counter-clockwise seen from outside. Start from a zeroed BwSolid. */
void bw_solid_add_face (BwSolid *solid, const BwVec3 *corners, int n);

/* Centre of volume; the origin when the volume is 0. */
BwVec3 bw_solid_centroid (const BwSolid *solid);
