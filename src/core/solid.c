/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Signed tetrahedra from the origin to the triangles of each face. */
#include "solid.h"

void
bw_solid_add_face (BwSolid *solid, const BwVec3 *corners, int n)
{
  for (int i = 1; i + 1 < n; i++) {
    BwVec3 a = corners[0], b = corners[i], c = corners[i + 1];
    double volume = bw_vec3_dot (a, bw_vec3_cross (b, c)) / 6;
    BwVec3 sum = bw_vec3_add (a, bw_vec3_add (b, c));
    solid->volume_mm3 += volume;
    solid->moment = bw_vec3_add (solid->moment, bw_vec3_scale (sum, volume / 4));
  }
}

BwVec3
bw_solid_centroid (const BwSolid *solid)
{
  if (solid->volume_mm3 == 0)
    return bw_vec3 (0, 0, 0);
  return bw_vec3_scale (solid->moment, 1 / solid->volume_mm3);
}
