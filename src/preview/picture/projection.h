/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The drawn projection: the same scene in cairo, back to front, for machines without OpenGL. */
#pragma once

#include "preview/picture/painter.h"

/* hover: the bead with a ring round it, an index of the scene's beads; −1 for none. */
void bw_projection_draw (cairo_t *cr, const BwScene *scene, BwCamera camera, guint layers,
                         BwLight light, int hover, int width, int height);

/* The same by steps, for who keeps the picture. */

/* A bead, or a piece of cord or ring, as it falls on the paper. */
typedef struct {
  float depth; /* towards the viewer */
  int index;   /* of the bead; of a piece of tube when negative: −1 is piece 0 */
} BwDrawnPart;

/* Sets up everything but what is painted on, p->cr. The scene must outlive p. */
void bw_projection_begin (BwPainter *p, const BwScene *scene, BwCamera camera, guint layers,
                          BwLight light, int width, int height);
/* Beads, cord and ring of BwDrawnPart, far to near: those that lie behind the stone, or the others.
 */
GArray *bw_projection_parts (const BwPainter *p, gboolean hidden);
/* The picture with these parts and no others, on what is there. */
void bw_projection_paint (const BwPainter *p, const GArray *hidden, const GArray *shown);
