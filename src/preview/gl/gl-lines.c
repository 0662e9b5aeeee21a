/* SPDX-License-Identifier: GPL-3.0-or-later */
/* OpenGL's own wide lines are not to be had everywhere and have hard sides; these are quads. */
#include "preview/gl/gl-lines.h"

#include "preview/gl/gl-program.h"

struct _BwGlLines {
  GLuint program, array, buffer;
  GLint width, colour, kind;
  int n_lines;
};

BwGlLines *
bw_gl_lines_new (GError **error)
{
  GLuint program = bw_gl_program_new ("line", "", error);
  if (!program)
    return NULL;
  BwGlLines *self = g_new0 (BwGlLines, 1);
  self->program = program;
  self->width = glGetUniformLocation (program, "u_width");
  self->colour = glGetUniformLocation (program, "u_colour");
  self->kind = glGetUniformLocation (program, "u_kind");
  glGenVertexArrays (1, &self->array);
  glGenBuffers (1, &self->buffer);
  glBindVertexArray (self->array);
  glBindBuffer (GL_ARRAY_BUFFER, self->buffer);
  bw_gl_attribute (program, "a_from", 3, sizeof (BwSceneLine), 0, 1);
  bw_gl_attribute (program, "a_to", 3, sizeof (BwSceneLine), offsetof (BwSceneLine, to), 1);
  bw_gl_attribute (program, "a_strength", 1, sizeof (BwSceneLine), offsetof (BwSceneLine, strength),
                   1);
  return self;
}

void
bw_gl_lines_free (BwGlLines *self)
{
  if (!self)
    return;
  glDeleteProgram (self->program);
  glDeleteVertexArrays (1, &self->array);
  glDeleteBuffers (1, &self->buffer);
  g_free (self);
}

void
bw_gl_lines_set (BwGlLines *self, const GArray *of)
{
  self->n_lines = (int)of->len;
  glBindBuffer (GL_ARRAY_BUFFER, self->buffer);
  glBufferData (GL_ARRAY_BUFFER, (GLsizeiptr)(sizeof (BwSceneLine) * of->len), of->data,
                GL_STATIC_DRAW);
}

void
bw_gl_lines_draw (BwGlLines *self, const BwGlPen *pen)
{
  bw_gl_lines_draw_first (self, pen, self->n_lines);
}

void
bw_gl_lines_draw_first (BwGlLines *self, const BwGlPen *pen, int n)
{
  if (!self || MIN (n, self->n_lines) <= 0)
    return;
  glUseProgram (self->program);
  glUniform2f (self->width, pen->least_pixels, pen->width_mm);
  glUniform4fv (self->colour, 1, pen->colour);
  glUniform2f (self->kind, pen->round ? 1.f : 0.f, pen->fades ? 1.f : 0.f);
  glBindVertexArray (self->array);
  glDrawArraysInstanced (GL_TRIANGLE_STRIP, 0, 4, MIN (n, self->n_lines));
}
