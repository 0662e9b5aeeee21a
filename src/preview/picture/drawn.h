/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The drawn projection, kept between two paintings: where only beads changed, what lies on top of
 * one another there is painted again and nothing else. */
#pragma once

#include "preview/picture/projection.h"

typedef struct _BwDrawn BwDrawn;

BwDrawn *bw_drawn_new (void);
void bw_drawn_free (BwDrawn *drawn);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwDrawn, bw_drawn_free)

/* The scene is another, or stands in another way: nothing of the picture holds. */
void bw_drawn_spoil (BwDrawn *drawn);
/* So many beads of the scene, by their indices, have another colour. */
void bw_drawn_spoil_beads (BwDrawn *drawn, const int *beads, int n);

/* Paints on cr, over what is there, so many of its units wide and high; each has `scale` pixels.
 * Another camera, layer, light or size than last time is seen here and need not be told. */
void bw_drawn_paint (BwDrawn *drawn, cairo_t *cr, const BwScene *scene, BwCamera camera,
                     guint layers, BwLight light, int hover, int width, int height, int scale);

/* How many beads were painted by all the paintings so far. */
guint64 bw_drawn_beads_painted (const BwDrawn *drawn);
