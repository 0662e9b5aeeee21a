/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The piece's own cloths as triangles with a smooth normal: the wound bed, the twisted cord, the
 * metal ring. */
#pragma once

#include "preview/fine/rays.h"
#include "preview/scene/scene.h"

typedef struct {
  GArray *at, *normal; /* of float[3], a corner each */
  GArray *shown;       /* of float, 0..1 */
  GArray *triangles;   /* of guint32[3] */
} BwSkin;

/* Only what is seen of it: its outer wall and its rims. */
void bw_skin_init_bed (BwSkin *skin, const BwScene *scene);
/* twisted: two strands wound round each other, else smooth. */
void bw_skin_init_tube (BwSkin *skin, const BwSceneTube *tube, gboolean twisted);
void bw_skin_clear (BwSkin *skin);

void bw_skin_add (const BwSkin *skin, BwRays *rays, guint shape);
/* Normal and share shown where a ray met it. */
BwVec3 bw_skin_normal (const BwSkin *skin, const BwRayHit *hit);
double bw_skin_shown (const BwSkin *skin, const BwRayHit *hit);
