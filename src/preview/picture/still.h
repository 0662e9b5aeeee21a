/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A picture to keep: the piece as a camera sees it, on a ground. */
#pragma once

#include "preview/picture/ground.h"

typedef struct {
  BwCamera camera;
  guint layers;
  BwLight light;
  BwGround ground;
  int width, height; /* 16..8192 */
} BwStill;

/* The scene in the stance it has; its on_dark becomes what the ground asks for. Owned by the
 * caller; NULL with *error set where bw_offscreen_render() fails. */
cairo_surface_t *bw_still_new (BwScene *scene, const BwStill *still, GError **error);
