/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Mass properties are summed as signed tetrahedra that share one of the solid's own vertices, not
 * the origin: far from the origin the terms would otherwise cancel away the digits that matter. */
#include "core/stone/solid.h"

typedef struct {
  BwVec3 origin;
  double volume6;  /* six times the volume */
  BwVec3 moment24; /* 24 times the first moment about origin */
  double area2;    /* twice the surface */
} Sums;

static void
add_triangle (Sums *sums, BwVec3 a, BwVec3 b, BwVec3 c)
{
  BwVec3 p = bw_vec3_sub (a, sums->origin), q = bw_vec3_sub (b, sums->origin),
         r = bw_vec3_sub (c, sums->origin);
  double volume6 = bw_vec3_dot (p, bw_vec3_cross (q, r));
  sums->volume6 += volume6;
  sums->moment24
      = bw_vec3_add (sums->moment24, bw_vec3_scale (bw_vec3_add (bw_vec3_add (p, q), r), volume6));
  sums->area2 += bw_vec3_length (bw_vec3_cross (bw_vec3_sub (b, a), bw_vec3_sub (c, a)));
}

static void
add_polygon (Sums *sums, const BwSolid *solid, const int *index, int size)
{
  for (int i = 1; i + 1 < size; i++)
    add_triangle (sums, solid->vertex[index[0]], solid->vertex[index[i]],
                  solid->vertex[index[i + 1]]);
}

BwSolidMass
bw_solid_mass (const BwSolid *solid)
{
  Sums sums = { .origin = solid->vertex[solid->index[0]] };
  const int *index = solid->index;
  for (int f = 0; f < solid->n_polygons; f++) {
    add_polygon (&sums, solid, index, solid->size[f]);
    index += solid->size[f];
  }
  BwSolidMass mass = { sums.volume6 / 6, sums.area2 / 2, fabs (sums.volume6) > 0, sums.origin };
  if (mass.has_centroid)
    mass.centroid
        = bw_vec3_add (sums.origin, bw_vec3_scale (sums.moment24, 1 / (4 * sums.volume6)));
  return mass;
}
