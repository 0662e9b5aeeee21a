/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "preview/gl/gl-target.h"

void
bw_gl_target_drop (BwGlTarget *target)
{
  glDeleteFramebuffers (1, &target->framebuffer);
  glDeleteTextures (1, &target->colour);
  glDeleteRenderbuffers (1, &target->depth);
  *target = (BwGlTarget){ 0 };
}

static GLuint
colour_of (int width, int height)
{
  const GLint settings[][2] = { { GL_TEXTURE_MIN_FILTER, GL_LINEAR },
                                { GL_TEXTURE_MAG_FILTER, GL_LINEAR },
                                { GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE },
                                { GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE } };
  GLuint texture;
  glGenTextures (1, &texture);
  glBindTexture (GL_TEXTURE_2D, texture);
  glTexImage2D (GL_TEXTURE_2D, 0, GL_RGBA8, width, height, 0, GL_RGBA, GL_UNSIGNED_BYTE, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (settings); i++)
    glTexParameteri (GL_TEXTURE_2D, (GLenum)settings[i][0], settings[i][1]);
  glFramebufferTexture2D (GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, texture, 0);
  return texture;
}

static GLuint
depth_of (int width, int height)
{
  GLuint buffer;
  glGenRenderbuffers (1, &buffer);
  glBindRenderbuffer (GL_RENDERBUFFER, buffer);
  glRenderbufferStorage (GL_RENDERBUFFER, GL_DEPTH_COMPONENT24, width, height);
  glFramebufferRenderbuffer (GL_FRAMEBUFFER, GL_DEPTH_ATTACHMENT, GL_RENDERBUFFER, buffer);
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
  target->colour = colour_of (width, height);
  target->depth = depth_of (width, height);
  if (glCheckFramebufferStatus (GL_FRAMEBUFFER) == GL_FRAMEBUFFER_COMPLETE)
    return TRUE;
  bw_gl_target_drop (target);
  return FALSE;
}
