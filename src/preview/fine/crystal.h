/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Light inside the stone: from face to face by the planes themselves, coloured by the way it goes,
 * until it leaves or is taken up by the cord wound round it. */
#pragma once

#include "preview/fine/beam.h"
#include "preview/scene/scene.h"

typedef struct {
  int n;
  double normal[BW_STONE_MAX_FACES][3], distance[BW_STONE_MAX_FACES];
  BwCauchy bending;
  double index;     /* at the line d */
  double takes[3];  /* absorbed per mm, natural logarithm */
  double low, high; /* of the stone */
  double zoning, milk, veils;
  double bed_low, bed_high; /* where cord lies on it; equal: nowhere */
  double cord[3];           /* what the cord scatters back */
  double turn, groove;      /* its width, and how much darker it is between its turns, 0..1 */
  double swell;             /* of faces without lines, which are cut; 0: true planes */
  BwStriae striae;          /* how lines run on the prism */
  BwStoneLook look;
  BwNature nature;
  double needles[3];    /* what its needles scatter back */
  double veil_shift[3]; /* of the noise its veils lie in */
} BwCrystal;

void bw_crystal_init (BwCrystal *crystal, const BwScene *scene, gboolean worn);

/* The face a ray inside meets, and the way there. */
int bw_crystal_ahead (const BwCrystal *crystal, BwVec3 from, BwVec3 way, double *there);
/* The normal of a face as light finds it at a point: with lines on the prism. */
BwVec3 bw_crystal_grain (const BwCrystal *crystal, BwVec3 face, BwVec3 at);
/* The same with what only the lot tells: a frosted end. Faces against `way`, which meets it from
 * outside, as face does. */
BwVec3 bw_crystal_facet (const BwCrystal *crystal, BwVec3 face, BwVec3 at, BwVec3 way, BwLot *lot);
/* Its index for a beam. */
double bw_crystal_index (const BwCrystal *crystal, const BwBeam *beam);

/* Follows a beam that has just entered until it leaves; FALSE where it ended. */
gboolean bw_crystal_follow (const BwCrystal *crystal, BwBeam *beam);
