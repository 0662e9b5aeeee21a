/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "preview/gl/gl-pane.h"

#include <string.h>

gboolean
bw_gl_pane_begin (BwGlPane *self, const BwGlFrame *frame, int width, int height)
{
  const int times = BW_GL_PANE_TIMES;
  const float nothing[4] = { 0, 0, 0, 0 };
  if (self->is_fresh && !memcmp (&self->shown, frame, sizeof *frame))
    return FALSE;
  glGetIntegerv (GL_DRAW_FRAMEBUFFER_BINDING, &self->over_target);
  self->scissored = glIsEnabled (GL_SCISSOR_TEST);
  if (!bw_gl_target_bind (&self->target, (width + times - 1) / times,
                          (height + times - 1) / times)) {
    glBindFramebuffer (GL_FRAMEBUFFER, (GLuint)self->over_target);
    return FALSE;
  }
  glDisable (GL_SCISSOR_TEST);
  glViewport (0, 0, self->target.width, self->target.height);
  glClearBufferfv (GL_COLOR, 0, nothing);
  self->shown = *frame;
  self->is_fresh = TRUE;
  return TRUE;
}

void
bw_gl_pane_end (BwGlPane *self, int width, int height)
{
  glBindFramebuffer (GL_FRAMEBUFFER, (GLuint)self->over_target);
  glViewport (0, 0, width, height);
  if (self->scissored)
    glEnable (GL_SCISSOR_TEST);
}

void
bw_gl_pane_spoil (BwGlPane *self)
{
  self->is_fresh = FALSE;
}

void
bw_gl_pane_drop (BwGlPane *self)
{
  bw_gl_target_drop (&self->target);
  self->is_fresh = FALSE;
}
