/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "preview/fine/surface.h"

double
bw_surface_mirrors (const BwSurface *surface, double cosine)
{
  if (surface->gloss <= 0 && surface->always <= 0)
    return 0;
  return MIN (surface->always + bw_glass_schlick (cosine, surface->gloss), 1);
}

/* Metal tints what it mirrors, less and less towards its rim; a thin film changes hue with the
 * angle. */
static void
tint (const BwSurface *surface, BwBeam *beam, double cosine)
{
  static const double phase[3] = { 0.25, 0.58, 0.92 };
  double rim = bw_glass_schlick (cosine, 0);
  for (int i = 0; i < 3; i++) {
    double hue = 0.5 + 0.5 * cos (2 * G_PI * (phase[i] + 1.15 * cosine));
    beam->keeps[i] *= surface->metal[i] + (1 - surface->metal[i]) * rim;
    beam->keeps[i] *= 1 - 0.6 * surface->film * (1 - hue);
  }
}

void
bw_surface_mirror (const BwSurface *surface, BwBeam *beam, BwVec3 at, BwVec3 normal, BwVec3 face)
{
  double cosine = MAX (-bw_vec3_dot (beam->way, normal), 0);
  BwVec3 facet = bw_glass_facet (normal, surface->rough, &beam->lot);
  BwVec3 way = bw_glass_mirror (beam->way, facet);
  /* What would go into the surface meets it again and comes out. */
  double depth = bw_vec3_dot (way, face);
  if (depth < 0)
    way = bw_vec3_sub (way, bw_vec3_scale (face, 2 * depth));
  tint (surface, beam, cosine);
  bw_beam_leave (beam, at, face, way);
  beam->density = 0;
}
