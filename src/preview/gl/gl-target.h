/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A framebuffer with a texture of colours and a depth of its own. All zero: none yet. Belongs to
 * the context that was current when it was bound first. */
#pragma once

#include <epoxy/gl.h>
#include <glib.h>

typedef struct {
  GLuint framebuffer, colour, depth;
  int width, height; /* pixels */
} BwGlTarget;

/* Binds a framebuffer of this size; what it held is lost when the size is another. FALSE when the
 * driver gives none: there is no target then, and which framebuffer is bound is open. */
gboolean bw_gl_target_bind (BwGlTarget *target, int width, int height);
void bw_gl_target_drop (BwGlTarget *target);
