/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The faint shadow under a piece that stands: where it touches what it stands on, the wider one
 * round that, and the light a clear stone gathers in it. Plain numbers, for whoever paints it. */
#pragma once

#include "preview/scene/camera.h"

/* A soft ellipse whose axes are the picture's: strength in the middle, nothing at its rim. */
typedef struct {
  double x, y;            /* middle, pixels, origin top left */
  double across, upright; /* half its width and height, pixels */
  double strength;        /* 0..1 */
  double core;            /* share of the way out to which it is strong all over, 0..1 */
  gboolean glows;         /* light instead of shadow */
  double rgb[3];          /* its colour then, sRGB */
} BwShadow;

#define BW_SHADOWS_MAX 3

/* Both shadows, the wider one first, then the glow; how many there are: none while the piece hangs,
 * or is seen from below, and no glow of a stone that lets no light through. */
int bw_shadows (const BwScene *scene, const BwEye *eye, BwCamera camera, guint layers, int width,
                int height, BwShadow shadow[BW_SHADOWS_MAX]);
