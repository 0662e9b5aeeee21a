/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the painter's hands share: the picture in the making, and light on a surface. */
#pragma once

#include "preview/scene/camera.h"
#include "preview/picture/projection.h"

typedef struct {
  cairo_t *cr;
  const BwScene *scene;
  BwEye eye;
  guint layers;
  int width, height;
  double key[3];   /* to the light, in the eye's space */
  double light[3]; /* its colour */
  double around;   /* light from everywhere */
} BwPainter;

/* A direction into the eye's space. */
void bw_painter_turn (const BwPainter *p, const float v[3], double seen[3]);
/* Light on a dull surface that looks along n, in the eye's space. */
double bw_painter_falling (const BwPainter *p, const double n[3]);
/* sRGB of a linear colour in so much light, with so much shine on it. */
void bw_painter_shade (const BwPainter *p, const float colour[3], double light, double shine,
                       double rgb[3]);
/* TRUE when the stone stands between the eye and the point. */
gboolean bw_painter_behind_stone (const BwPainter *p, const float at[3]);

/* How many pieces cord and ring are painted in: cord first. Each lies between two stations. */
int bw_painter_n_tubes (const BwPainter *p);
/* The middle of a piece of tube. */
void bw_painter_tube_middle (const BwPainter *p, int piece, float at[3]);
void bw_painter_paint_tube (const BwPainter *p, int piece);
