/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a BwCamera to matrices and rays; shared by GL, the drawn projection and picking. */
#pragma once

#include "preview/scene/scene.h"
#include <cglm/cglm.h>

/* In the piece's own axes, however the piece stands. */
typedef struct {
  mat4 view, projection;
  vec3 eye;    /* millimetres */
  float pixel; /* size of one pixel at a distance of 1 mm */
  float lift;  /* how far the middle of what is framed lies above the picture's, pixels */
} BwEye;

/* Perspective eye on the scene's centre; width and height in pixels set the aspect. At zoom 1 the
 * piece fills the picture, but for what scene->free_below keeps clear, and is whole however it is
 * turned and tipped; coming nearer moves the aim
 * from its centre to the band. The camera stands in the room, whose vertical is up the picture at
 * tip 0; the scene's stance tells how the piece stands in it. */
void bw_eye_init (BwEye *eye, BwCamera camera, const BwScene *scene, int width, int height);

/* The bead under a pixel (origin top left) by exact ray against each bead's rounded outer surface;
 * of stone, bed and beads only what `layers` (BwLayers) shows can hide or be found. −1 for none or
 * when something hides it. Index into scene->beads. */
int bw_eye_pick (const BwEye *eye, const BwScene *scene, guint layers, double x, double y,
                 int width, int height);

/* The ray through a pixel: from the eye, unit direction. */
void bw_eye_ray (const BwEye *eye, double x, double y, int width, int height, BwVec3 *from,
                 BwVec3 *direction);

/* Where a point of the piece falls, in pixels (origin top left); FALSE when behind the eye. */
gboolean bw_eye_project (const BwEye *eye, const float at[3], int width, int height, double *x,
                         double *y);
