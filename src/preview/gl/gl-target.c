/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "preview/gl/gl-target.h"

void
bw_gl_target_drop (BwGlTarget *target)
{
  glDeleteFramebuffers (1, &target->framebuffer);
  glDeleteRenderbuffers (1, &target->colour);
  glDeleteRenderbuffers (1, &target->depth);
  *target = (BwGlTarget){ 0 };
}

static GLuint
storage (GLenum format, GLenum point, int width, int height)
{
  GLuint buffer;
  glGenRenderbuffers (1, &buffer);
  glBindRenderbuffer (GL_RENDERBUFFER, buffer);
  glRenderbufferStorage (GL_RENDERBUFFER, format, width, height);
  glFramebufferRenderbuffer (GL_FRAMEBUFFER, point, GL_RENDERBUFFER, buffer);
  return buffer;
}

gboolean
bw_gl_target_bind (BwGlTarget *target, int width, int height)
{
  if (target->framebuffer && target->width == width && target->height == height) {
    glBindFramebuffer (GL_FRAMEBUFFER, target->framebuffer);
    return TRUE;
  }
  bw_gl_target_drop (target);
  target->width = width;
  target->height = height;
  glGenFramebuffers (1, &target->framebuffer);
  glBindFramebuffer (GL_FRAMEBUFFER, target->framebuffer);
  target->colour = storage (GL_RGBA8, GL_COLOR_ATTACHMENT0, width, height);
  target->depth = storage (GL_DEPTH_COMPONENT24, GL_DEPTH_ATTACHMENT, width, height);
  if (glCheckFramebufferStatus (GL_FRAMEBUFFER) == GL_FRAMEBUFFER_COMPLETE)
    return TRUE;
  bw_gl_target_drop (target);
  return FALSE;
}
