/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the painter's hands share: the picture in the making, and light on a surface. */
#pragma once

#include "preview/scene/camera.h"
#include <cairo.h>

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

static inline double
bw_painter_dot (const double a[3], const double b[3])
{
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/* Where the light stands, and its colour. */
void bw_painter_set_light (BwPainter *p, BwLight light);
/* A direction into the eye's space. */
void bw_painter_turn (const BwPainter *p, const float v[3], double seen[3]);
/* Light on a dull surface that looks along n, in the eye's space. */
double bw_painter_falling (const BwPainter *p, const double n[3]);
/* sRGB of a linear colour in so much light, with so much shine on it. */
void bw_painter_shade (const BwPainter *p, const float colour[3], double light, double shine,
                       double rgb[3]);
/* TRUE when the stone stands between the eye and the point. */
gboolean bw_painter_behind_stone (const BwPainter *p, const float at[3]);
