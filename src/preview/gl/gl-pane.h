/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A picture drawn small, to be laid on a large one: for what is dear by the pixel while it moves.
 */
#pragma once

#include "preview/gl/gl-frame.h"
#include "preview/gl/gl-target.h"

/* How much smaller it is drawn. */
#define BW_GL_PANE_TIMES 3

/* All zero: none yet. */
typedef struct {
  BwGlTarget target;
  BwGlFrame shown;   /* the frame that it holds */
  gboolean is_fresh; /* it holds one */
  GLint over_target; /* what was bound before */
  gboolean scissored;
} BwGlPane;

/* Binds the pane for a picture of this size and clears it; FALSE when it holds this very frame
 * already, or the driver gives none, and nothing is to be drawn. */
gboolean bw_gl_pane_begin (BwGlPane *pane, const BwGlFrame *frame, int width, int height);
/* What was bound is bound again. */
void bw_gl_pane_end (BwGlPane *pane, int width, int height);
/* What it shows is another thing now. */
void bw_gl_pane_spoil (BwGlPane *pane);
void bw_gl_pane_drop (BwGlPane *pane);
