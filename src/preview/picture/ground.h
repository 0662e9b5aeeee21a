/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the piece stands on and before: a soft graded ground, with a pool of light behind the piece
 * and its shadow at its foot. The window paints the same with the toolkit's own means. */
#pragma once

#include "core/pattern/tint.h"
#include "preview/scene/shadow.h"
#include <cairo.h>

typedef enum {
  BW_GROUND_CLEAR, /* none: the picture can be laid on anything */
  BW_GROUND_PAPER,
  BW_GROUND_DARK,
} BwGround;

/* Two colours from top to bottom, and how much the pool of light adds in its middle, 0..1. */
typedef struct {
  BwTint high, low;
  gboolean dark; /* which value of the tints */
  double pool;
} BwGroundLook;

/* The pool's middle and size, in shares of the picture's width and height. */
#define BW_GROUND_POOL_X 0.5
#define BW_GROUND_POOL_Y 0.40
#define BW_GROUND_POOL_SIZE 0.62

/* Under the lamp a dark ground is a room at dusk. */
BwGroundLook bw_ground_look (gboolean dark, BwLight light);

/* Falling off softly from a core to nothing: how strong it is at this share of the way out. */
#define BW_GROUND_STOPS 5
void bw_ground_fall (double core, double at[BW_GROUND_STOPS], double share[BW_GROUND_STOPS]);

/* Ground and shadows over the whole of width × height; BW_GROUND_CLEAR paints nothing. */
void bw_ground_paint (cairo_t *cr, BwGround ground, BwLight light, const BwShadow *shadow,
                      int n_shadows, int width, int height);

/* "clear", "paper", "dark"; FALSE when it is none of them. */
gboolean bw_ground_parse (const char *word, BwGround *ground);
