/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The piece as it is shown on paper. */
#pragma once

#include "preview/scene/scene.h"
#include <cairo.h>

typedef enum {
  BW_PORTRAIT_HANGING, /* at rest, whole, with its cord; without a bail as it stands */
  BW_PORTRAIT_JOIN,    /* straight at the join, or at the bail that covers it */
  BW_N_PORTRAITS,
} BwPortrait;

/* A square picture on a clear ground, side pixels (16..8192) wide. Owned by the caller; NULL with
 * *error set where bw_offscreen_render() fails. */
cairo_surface_t *bw_portrait_new (BwProject *project, BwPortrait from, int side, GError **error);

/* Side of a picture for the printed sheets: some 300 pixels to the inch there. */
#define BW_PORTRAIT_SIDE 900
