/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What all shaders know of one picture: eye, light, sizes. The layout of the block in frame.glsl.
 */
#pragma once

#include "preview/scene/camera.h"

/* std140: matrices and four-vectors only, so C and GLSL agree without padding. */
typedef struct {
  float view[16];
  float projection[16];
  float screen[4];
  float sky[4], horizon[4], ground[4];
  float key_dir[4], key_across[4], key_up[4], key[4];
  float rim_dir[4], rim[4];
  float bead[4];
  float spans[4];
  float cord[4];
  float keeps[4];
  float index[4];
  float look[4];
  float behind[4];
} BwGlFrame;

void bw_gl_frame_init (BwGlFrame *frame, const BwEye *eye, const BwScene *scene, BwLight light,
                       int width, int height);

/* The colour of the bed's waxed cord, linear. */
extern const float bw_cord_colour[3];
