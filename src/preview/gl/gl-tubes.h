/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Round tubes on the GPU: the hanging cord and the metal ring. */
#pragma once

#include "preview/gl/gl-frame.h"

typedef struct _BwGlTubes BwGlTubes;

BwGlTubes *bw_gl_tubes_new (void);
void bw_gl_tubes_free (BwGlTubes *tubes);
/* Uploads both tubes of the scene. */
void bw_gl_tubes_set_scene (BwGlTubes *tubes, const BwScene *scene);
/* What is wholly there; to be drawn before the stone, so that it shows through it. */
void bw_gl_tubes_draw_solid (BwGlTubes *tubes, guint layers);
/* The ends that fade out; to be drawn over all the rest. */
void bw_gl_tubes_draw_faded (BwGlTubes *tubes, guint layers);
