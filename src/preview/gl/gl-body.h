/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stone and bed on the GPU: plain triangles, each with its own shader. */
#pragma once

#include "preview/gl/gl-frame.h"

typedef struct _BwGlBody BwGlBody;

BwGlBody *bw_gl_body_new (GError **error);
void bw_gl_body_free (BwGlBody *body);
/* Uploads; the stone's shader is made anew when the number of faces is another. */
void bw_gl_body_set_scene (BwGlBody *body, const BwScene *scene);
void bw_gl_body_draw_stone (BwGlBody *body, const BwScene *scene, const BwEye *eye, guint layers);
/* The stone while the picture moves: drawn small first, before anything else of the picture, then
 * laid into its true outline. */
void bw_gl_body_prepare_plain (BwGlBody *body, const BwScene *scene, const BwEye *eye,
                               const BwGlFrame *frame, guint layers, int width, int height);
void bw_gl_body_draw_stone_plain (BwGlBody *body, const BwScene *scene, const BwEye *eye,
                                  guint layers);
/* The bed's outer wall is drawn before the stone, which it hides; inner wall and rims after it, so
 * that they do not show through it twice. */
void bw_gl_body_draw_bed_wall (BwGlBody *body, guint layers);
void bw_gl_body_draw_bed_rest (BwGlBody *body, guint layers);
