/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shaders from the resource, compiled alike for OpenGL 3.3 core and OpenGL ES 3.0. */
#pragma once

#include <epoxy/gl.h>
#include <glib.h>

/* Links "NAME.vert" and "NAME.frag"; the shared parts (frame, studio, bead, finish), the
 * constants that C and GLSL share and `defines` (lines of GLSL, may be "") are put before them. 0
 * with an error that carries the driver's words. The uniform blocks Frame and Stone are bound to
 * the points below. */
GLuint bw_gl_program_new (const char *name, const char *defines, GError **error);

enum { BW_GL_FRAME_POINT, BW_GL_STONE_POINT };

/* Declares one float attribute of the buffer bound to GL_ARRAY_BUFFER. divisor 1: per instance. */
void bw_gl_attribute (GLuint program, const char *name, int size, gsize stride, gsize offset,
                      GLuint divisor);

/* How numbers are kept in a buffer: as floats, as shares of the greatest 16-bit number (−1..1 or
 * 0..1 for the shader), or as whole 16-bit numbers. */
typedef enum { BW_GL_FLOATS, BW_GL_SIGNED_SHARES, BW_GL_SHARES, BW_GL_WHOLE } BwGlNumbers;

/* The same for numbers of another kind; the shader sees floats. */
void bw_gl_attribute_of (GLuint program, const char *name, BwGlNumbers numbers, int size,
                         gsize stride, gsize offset, GLuint divisor);

/* TRUE when the current context is drawn by the processor. */
gboolean bw_gl_is_software (void);
