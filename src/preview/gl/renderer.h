/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Draws a scene with OpenGL 3.3 core or OpenGL ES 3.0: one camera-facing quad per bead, the
 * fragment shader meets a holed, rounded cylinder and writes depth. Everything on the GPU is
 * rebuilt from plain data; all calls want the context current. */
#pragma once

#include "preview/scene/scene.h"

typedef struct _BwRenderer BwRenderer;

/* NULL with an error when shaders do not compile or the context is too old. */
BwRenderer *bw_renderer_new (GError **error);
void bw_renderer_free (BwRenderer *renderer);

/* Uploads the scene; call again when its geometry changed. The scene is not kept. */
void bw_renderer_set_scene (BwRenderer *renderer, const BwScene *scene);
/* As bw_gl_beads_lie_loose(). */
void bw_renderer_lie_loose (BwRenderer *renderer, gboolean loose);
/* Uploads the colours of these n beads alone. */
void bw_renderer_update_beads (BwRenderer *renderer, const BwScene *scene, const int *bead, int n);
/* How many beads were uploaded so far: what a test counts. */
guint64 bw_renderer_uploaded (const BwRenderer *renderer);

/* Uploads what bw_scene_follow_bail() has changed. */
void bw_renderer_follow_bail (BwRenderer *renderer, const BwScene *scene);

/* Uploads the cord alone, after another stance was taken. */
void bw_renderer_update_cord (BwRenderer *renderer, const BwScene *scene);

/* Pixels of the framebuffer for one pixel as the eye knows it (a screen's scale, an oversized
 * picture): widths of lines and rims follow it. 1 at first. */
void bw_renderer_set_scale (BwRenderer *renderer, float scale);
/* While the picture moves: outlines stay true, light is simpler and the stone coarser. FALSE at
 * first.
 */
void bw_renderer_set_plain (BwRenderer *renderer, gboolean plain);
/* How far the ring round a bead pointed at reaches beyond it, in pixels of the framebuffer. */
float bw_renderer_halo (float scale, int width, int height);

/* Draws into the bound framebuffer. background: RGBA, premultiplied. hover: bead to light up, −1.
 */
void bw_renderer_draw (BwRenderer *renderer, const BwScene *scene, BwCamera camera, guint layers,
                       BwLight light, int hover, int width, int height, const float background[4]);
