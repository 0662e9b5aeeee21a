/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Light on a surface it does not go through: a gloss over a dull ground, or metal. */
#pragma once

#include "preview/fine/beam.h"

typedef struct {
  double dull[3];  /* share scattered by what lies under the gloss */
  double gloss;    /* share mirrored straight on; 0: none at any angle */
  double always;   /* and so much more at every angle */
  double rough;    /* of the gloss, 0: polished */
  double metal[3]; /* tint of what is mirrored straight on; 1 for all but metal */
  double film;     /* 0..1: how much a thin film tints it */
} BwSurface;

/* How much of the light is mirrored, where a beam meets it at this cosine, 0..1. */
double bw_surface_mirrors (const BwSurface *surface, double cosine);
/* Sends the beam on, mirrored: `face` is the true normal against it, `normal` the one light
 * finds. */
void bw_surface_mirror (const BwSurface *surface, BwBeam *beam, BwVec3 at, BwVec3 normal,
                        BwVec3 face);
