/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The photographer's table: four soft lamps that stand still with the eye, the room round them, a
 * backdrop behind the piece and, under one that stands, the table top. All in the piece's axes, mm.
 */
#pragma once

#include "preview/fine/beam.h"
#include "preview/picture/still.h"
#include "preview/scene/camera.h"

#define BW_STUDIO_LAMPS 4

/* A soft box: a rectangle that shines to one side, dimmer towards its rim. */
typedef struct {
  BwVec3 middle, normal; /* towards the piece */
  BwVec3 across, up;     /* half its width and height */
  double area;           /* mm² */
  double light[3];       /* in its middle */
} BwLamp;

typedef struct {
  BwLamp lamp[BW_STUDIO_LAMPS];
  int n_lamps;
  BwVec3 right, up, back; /* the eye's axes; back: towards the eye */
  double sky[3], horizon[3], ground[3];
  double wall;             /* how much lighter the room is on the side of the eye */
  double high[3], low[3];  /* the backdrop, in its upper and lower part */
  double table_like[3];    /* how light the table looks */
  gboolean table;          /* there is one */
  double table_z;          /* its height */
  double table_reach;      /* how far it reaches from the foot */
  BwVec3 foot;             /* the place on it under the piece's middle */
  double table_keeps[3];   /* share it scatters back */
  double falls_on_foot[3]; /* light there if nothing stood on it, over pi */
} BwStudio;

/* For the scene in its present stance. */
void bw_studio_init (BwStudio *studio, const BwScene *scene, const BwEye *eye,
                     const BwStill *still);
/* White all round, of strength 1, and nothing else: what neither takes nor adds light cannot be
 * seen in it. */
void bw_studio_init_white (BwStudio *studio);

/* The room and the backdrop in a direction. */
void bw_studio_around (const BwStudio *studio, BwVec3 way, double light[3]);
/* The lamp a ray meets within `most`: its number, and the way there; −1 for none. */
int bw_studio_meet (const BwStudio *studio, BwVec3 from, BwVec3 way, double most, double *there);
/* How strongly a lamp shines from a point of it, 0..1 in each of light[]. */
double bw_lamp_shine (const BwLamp *lamp, BwVec3 at);
/* A point of it by lot, all alike. */
BwVec3 bw_lamp_point (const BwLamp *lamp, BwLot *lot);
/* Density of that choice seen from a point, per unit of solid angle. */
double bw_lamp_density (const BwLamp *lamp, BwVec3 from, BwVec3 at);
