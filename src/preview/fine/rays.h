/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a ray meets first among many shapes: the ray library Embree, 3 or 4, seen through a keyhole.
 * The library is opened when it is first wanted, so that a machine without it loses nothing but the
 * fine pictures; a program that was built without it says so as well. Millimetres. */
#pragma once

#include "core/base/vec.h"
#include <glib.h>

typedef struct _BwRays BwRays;

typedef struct {
  double way;    /* from where the ray began */
  BwVec3 face;   /* unit normal of what was met, in the axes of its own shapes */
  guint shape;   /* its number; of a copy the copy's */
  guint element; /* the triangle or rod of it, counted from 0 */
  double u, v;   /* weights of a triangle's second and third corner */
} BwRayHit;

/* NULL with an error that says what is missing. */
BwRays *bw_rays_new (GError **error);
void bw_rays_free (BwRays *rays);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwRays, bw_rays_free)

/* Adds shapes, each under a number of its own. corners: x, y, z of each; triangles: three corners
 * of each. */
void bw_rays_add_mesh (BwRays *rays, guint shape, const float (*corners)[3], guint n_corners,
                       const guint32 (*triangles)[3], guint n_triangles);
/* Round rods: x, y, z and radius of both ends of each. */
void bw_rays_add_rods (BwRays *rays, guint shape, const float (*ends)[4], guint n_rods);
/* All shapes of another set, which is closed and outlives this one, moved: the images of the three
 * axes, and of the origin. */
void bw_rays_add_copy (BwRays *rays, guint shape, const BwRays *of, const float placed[12]);
/* No shape can be added after it, and rays can be asked for; FALSE where memory does not do. */
gboolean bw_rays_close (BwRays *rays, GError **error);

/* The nearest shape within `most` along a unit direction. Any number of threads may ask. */
gboolean bw_rays_nearest (const BwRays *rays, BwVec3 from, BwVec3 direction, double most,
                          BwRayHit *hit);
/* Whether there is any. */
gboolean bw_rays_blocked (const BwRays *rays, BwVec3 from, BwVec3 direction, double most);
