/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bead of glass or metal: a tube with rounded rims in its own axes (x away from what it lies on,
 * z along the hole, origin in its middle), and what light does on it and in it. */
#pragma once

#include "preview/fine/rays.h"
#include "preview/fine/surface.h"
#include "preview/scene/scene.h"

typedef struct {
  double radius, half, hole, rounding;
  BwRays *body; /* the tube by itself */
} BwBeadShape;

/* NULL body and an error where there are no rays. */
gboolean bw_bead_shape_init (BwBeadShape *shape, const BwScene *scene, GError **error);
void bw_bead_shape_clear (BwBeadShape *shape);

/* Unit normal out of the glass at a point of its surface, which may lie a little off it; *in_hole:
 * whether it is the wall of the hole. */
BwVec3 bw_bead_shape_normal (const BwBeadShape *shape, BwVec3 at, gboolean *in_hole);

/* How a finish takes light, in one colour (linear, 0..1). */
typedef struct {
  BwSurface skin;   /* what is met from outside */
  gboolean glass;   /* light goes in: then only the skin's gloss and roughness count */
  double rough;     /* of glass where light enters and leaves */
  gboolean lined;   /* the hole's wall is painted */
  gboolean silver;  /* with a mirror instead of a colour */
  double takes[3];  /* absorbed in the glass per mm, natural logarithm */
  double lining[3]; /* what the paint scatters back */
} BwBeadLook;

/* pure: nothing takes any light. */
void bw_bead_look_init (BwBeadLook *look, const BwBeadShape *shape, const float colour[3],
                        BwFinish finish, gboolean pure);

/* Follows a beam that has just entered, in the bead's own axes, until it leaves; FALSE where it
 * ended. */
gboolean bw_bead_follow (const BwBeadShape *shape, const BwBeadLook *look, BwBeam *beam);

#define BW_BEAD_INDEX 1.52 /* of common glass (from memory) */
