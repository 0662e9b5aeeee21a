/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Beads on the GPU: one instance each, drawn far to near so that their soft edges lie on what is
 * behind them; very many on a real GPU in no order and with hard edges. */
#pragma once

#include "preview/gl/gl-frame.h"

typedef struct _BwGlBeads BwGlBeads;

BwGlBeads *bw_gl_beads_new (GError **error);
void bw_gl_beads_free (BwGlBeads *beads);
void bw_gl_beads_set_scene (BwGlBeads *beads, const BwScene *scene);
/* Whether they are drawn in no order, until the next scene; what a test chooses. */
void bw_gl_beads_lie_loose (BwGlBeads *beads, gboolean loose);
/* Uploads the colours of these n beads and, unless they are a good part of all, nothing else. */
void bw_gl_beads_update (BwGlBeads *beads, const BwScene *scene, const int *bead, int n);
/* How many beads were uploaded so far: what a test counts. */
guint64 bw_gl_beads_uploaded (const BwGlBeads *beads);
/* plain: simply lit, as long as the picture moves; the same outlines for less. */
void bw_gl_beads_draw (BwGlBeads *beads, const BwScene *scene, const BwEye *eye, guint layers,
                       gboolean plain);
/* Lights one bead up; where it is hidden its ring still shows faintly. halo: width of the ring in
 * pixels. */
void bw_gl_beads_draw_hover (BwGlBeads *beads, const BwScene *scene, int hover, float halo);
