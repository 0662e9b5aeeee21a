/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Volume, surface and centre of mass of any closed polyhedron. */
#pragma once

#include "core/base/vec.h"
#include <glib.h>

/* Borrowed arrays. The polygons lie one after another in `index`, polygon f taking size[f] of them,
 * counter-clockwise seen from outside; every polygon is plane. */
typedef struct {
  const BwVec3 *vertex;
  const int *index;
  const int *size;
  int n_polygons;
} BwSolid;

typedef struct {
  double volume;
  double area;
  gboolean has_centroid; /* FALSE when the volume is 0: centroid is a vertex then */
  BwVec3 centroid;       /* of the volume */
} BwSolidMass;

/* Exact for every closed polyhedron, convex or not: the divergence theorem turns the volume
 * integrals into sums over the faces (B. Mirtich, "Fast and Accurate Computation of Polyhedral Mass
 * Properties", Journal of Graphics Tools 1(2), 1996, 31–50), here as tetrahedra over each face's
 * fan of triangles. */
BwSolidMass bw_solid_mass (const BwSolid *solid);
