/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The piece under the lamps, and what an eye sees of it along one ray. */
#pragma once

#include "preview/fine/bead.h"
#include "preview/fine/crystal.h"
#include "preview/fine/skin.h"
#include "preview/fine/studio.h"

typedef struct {
  const BwScene *scene; /* borrowed; stays as it is */
  BwStudio studio;
  BwCrystal crystal;
  BwBeadShape bead;
  BwSkin bed, cord, ring;
  double thread[3]; /* colour of the thread */
  BwRays *rays;
  gboolean pure; /* nothing takes any light */
} BwWorld;

/* What one look along one ray brings. */
typedef struct {
  double found[3];  /* light from the piece; 0 beside it */
  double cover;     /* 1 where the piece was met, 0 beside it */
  double ground[3]; /* beside it: how much lighter or darker the ground is than a bare one */
  double colour[3]; /* of what was met first, 0 for nothing */
  BwVec3 normal;    /* and where it faces */
} BwGlance;

/* pure: white surroundings, and nothing takes any light; its stone keeps its index. NULL with an
 * error where there are no rays or no memory. */
BwWorld *bw_world_new (const BwScene *scene, const BwEye *eye, const BwStill *still, gboolean pure,
                       GError **error);
void bw_world_free (BwWorld *world);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwWorld, bw_world_free)

/* Any number of threads may look. */
void bw_world_look (const BwWorld *world, BwVec3 from, BwVec3 way, BwLot lot, BwGlance *glance);
