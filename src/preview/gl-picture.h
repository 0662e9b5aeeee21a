/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The picture kept between frames, so that a painted bead or a moving pointer costs a few pixels
 * and not a frame. Wants the context current, always the same one. */
#pragma once

#include "preview/renderer.h"

/* What a picture shows. */
typedef struct {
  BwCamera camera;
  guint layers;
  BwLight light;
  int hover;         /* bead pointed at, −1 */
  int width, height; /* of the framebuffer */
  float scale;       /* as of bw_renderer_set_scale() */
} BwGlShot;

typedef struct _BwGlPicture BwGlPicture;

BwGlPicture *bw_gl_picture_new (void);
void bw_gl_picture_free (BwGlPicture *picture);

/* All of it, or these beads alone, look otherwise now. */
void bw_gl_picture_spoil (BwGlPicture *picture);
void bw_gl_picture_spoil_beads (BwGlPicture *picture, int first, int n);

/* Brings the picture up to date, drawing no more than must be, and copies it into the bound
 * framebuffer. moving: more pictures will follow at once; where the processor draws and takes long,
 * this one may then be coarse. FALSE when it was: a fine one is wanted when all is at rest. */
gboolean bw_gl_picture_draw (BwGlPicture *picture, BwRenderer *renderer, const BwScene *scene,
                             const BwGlShot *shot, gboolean moving);

/* Pixels drawn (not copied) by the last call, for the curious and the tests. */
gint64 bw_gl_picture_last_pixels (const BwGlPicture *picture);
