/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines of even width with soft sides: the stone's edges, the thread. */
#pragma once

#include "preview/gl/gl-frame.h"

typedef struct _BwGlLines BwGlLines;

typedef struct {
  float least_pixels; /* never thinner than this on the screen */
  float width_mm;
  float colour[4]; /* linear, not premultiplied */
  gboolean round;  /* lit as a thread */
  gboolean fades;  /* out to its sides: a gleam */
} BwGlPen;

BwGlLines *bw_gl_lines_new (GError **error);
void bw_gl_lines_free (BwGlLines *lines);
/* of: BwSceneLine. */
void bw_gl_lines_set (BwGlLines *lines, const GArray *of);
void bw_gl_lines_draw (BwGlLines *lines, const BwGlPen *pen);
/* The first n of them alone. lines may be NULL. */
void bw_gl_lines_draw_first (BwGlLines *lines, const BwGlPen *pen, int n);
