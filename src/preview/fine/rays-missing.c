/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stands in for rays.c where the program is built without the ray library: there are no rays, so
 * that nothing but bw_rays_new() can be reached. */
#include "config.h"

#include "preview/fine/rays.h"

#include <gio/gio.h>
#include <glib/gi18n-lib.h>

BwRays *
bw_rays_new (GError **error)
{
  g_set_error_literal (
      error, G_IO_ERROR, G_IO_ERROR_NOT_SUPPORTED,
      _ ("The fine picture wants the library Embree; this Bandwright was built without it."));
  return NULL;
}

void
bw_rays_free (BwRays *rays)
{
}

void
bw_rays_add_mesh (BwRays *rays, guint shape, const float (*corners)[3], guint n_corners,
                  const guint32 (*triangles)[3], guint n_triangles)
{
}

void
bw_rays_add_rods (BwRays *rays, guint shape, const float (*ends)[4], guint n_rods)
{
}

void
bw_rays_add_copy (BwRays *rays, guint shape, const BwRays *of, const float placed[12])
{
}

gboolean
bw_rays_close (BwRays *rays, GError **error)
{
  return FALSE;
}

gboolean
bw_rays_nearest (const BwRays *rays, BwVec3 from, BwVec3 direction, double most, BwRayHit *hit)
{
  return FALSE;
}

gboolean
bw_rays_blocked (const BwRays *rays, BwVec3 from, BwVec3 direction, double most)
{
  return FALSE;
}
