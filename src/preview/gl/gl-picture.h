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
 * framebuffer. Where the processor draws, or very many beads are drawn, a moving picture is plain
 * and only one at rest is smooth; elsewhere every picture is. One that is better already stays so.
 * FALSE when a better one is to be had. */
gboolean bw_gl_picture_draw (BwGlPicture *picture, BwRenderer *renderer, const BwScene *scene,
                             const BwGlShot *shot, BwGlPace pace);

/* What bw_gl_picture_refine() did. */
typedef enum {
  BW_GL_REFINED_NOTHING, /* at this pace nothing is to be bettered, or something has changed first
                          */
  BW_GL_REFINED_STRIP,   /* and more strips are to follow */
  BW_GL_REFINED_PICTURE, /* the better picture is whole: the next draw copies it */
} BwGlRefined;

/* Draws a strip of the picture last drawn as it is to be at that pace, some milliseconds' worth,
 * beside what is shown. Whatever changes the picture in between gives up what was begun. Wants the
 * scene as it was drawn; which framebuffer is bound afterwards is open. */
BwGlRefined bw_gl_picture_refine (BwGlPicture *picture, BwRenderer *renderer, const BwScene *scene,
                                  BwGlPace pace);

/* It is one that was drawn for moving. */
gboolean bw_gl_picture_is_plain (const BwGlPicture *picture);

/* Share of the picture that the last call drew and did not just copy. */
double bw_gl_picture_last_share (const BwGlPicture *picture);
