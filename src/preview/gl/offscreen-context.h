/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An OpenGL context without window or display, and a picture read back from it. Belongs to the
 * thread that made it. */
#pragma once

#include "preview/scene/scene.h"
#include <cairo.h>

typedef struct _BwOffscreen BwOffscreen;

/* Desktop OpenGL 3.3 core first, then OpenGL ES 3.0 (ES alone when want_es). NULL with an error
 * when no context can be had; nothing of another context of this thread is kept current. */
BwOffscreen *bw_offscreen_new (gboolean want_es, GError **error);
void bw_offscreen_free (BwOffscreen *self);
/* Uploads the scene; it is not kept. */
void bw_offscreen_set_scene (BwOffscreen *self, const BwScene *scene);
void bw_offscreen_update_beads (BwOffscreen *self, const BwScene *scene, const int *bead, int n);
/* Draws the scene last set, waits for it and does not read it: what a frame costs. */
void bw_offscreen_draw (BwOffscreen *self, const BwScene *scene, BwCamera camera, guint layers,
                        BwLight light, int hover, int width, int height);
/* ARGB32 picture, transparent background, smoothed by drawing at twice the size when the driver's
 * limits and memory allow it. NULL with an error when the driver gives no framebuffer that large.
 */
cairo_surface_t *bw_offscreen_picture (BwOffscreen *self, const BwScene *scene, BwCamera camera,
                                       guint layers, BwLight light, int hover, int width,
                                       int height, GError **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwOffscreen, bw_offscreen_free)
