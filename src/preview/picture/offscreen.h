/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The picture without a display: EGL surfaceless GL when there is one, else the drawn projection.
 */
#pragma once

#include "preview/scene/scene.h"
#include <cairo.h>

/* A cairo ARGB32 surface of width × height pixels, transparent background, owned by the caller.
 * Uses GL when a context can be had, else bw_projection_draw(). width and height 16..8192, else a
 * BW_FAULT_RANGE. used_gl may be NULL. */
cairo_surface_t *bw_offscreen_render (const BwScene *scene, BwCamera camera, guint layers,
                                      BwLight light, int width, int height, gboolean *used_gl,
                                      GError **error);
