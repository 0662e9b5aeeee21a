/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The picture kept between frames, so that a painted bead or a moving pointer costs a few pixels
 * and not a frame. Wants the context current, always the same one. */
#pragma once

#include "preview/gl/renderer.h"

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

/* How long a picture at rest may take to be drawn oversized where the processor draws, in
 * milliseconds; BW_GL_REST_MS at first. */
void bw_gl_picture_set_patience (BwGlPicture *picture, double ms);

/* All of it, or these beads alone, look otherwise now. */
void bw_gl_picture_spoil (BwGlPicture *picture);
void bw_gl_picture_spoil_beads (BwGlPicture *picture, const int *bead, int n);

/* How much time there is. */
typedef enum {
  BW_GL_MOVING,  /* more pictures will follow at once */
  BW_GL_STILL,   /* nothing moves just now */
  BW_GL_AT_REST, /* nothing has moved for a while */
} BwGlPace;

/* Brings the picture up to date, drawing no more than must be, and copies it into the bound
 * framebuffer. Where the processor draws, a moving picture may be coarse and only one at rest is
 * drawn oversized for smooth edges; elsewhere every picture is. FALSE when a better one is to be
 * had at the next pace. */
gboolean bw_gl_picture_draw (BwGlPicture *picture, BwRenderer *renderer, const BwScene *scene,
                             const BwGlShot *shot, BwGlPace pace);

/* Share of the picture that the last call drew and did not just copy. */
double bw_gl_picture_last_share (const BwGlPicture *picture);
