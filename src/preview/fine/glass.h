/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Light at a surface: mirrored, bent, scattered. Directions are unit vectors that go with the ray;
 * normals point against it. ratio: index of what the ray comes through over that of what it meets.
 */
#pragma once

#include "preview/fine/lot.h"

static inline BwVec3
bw_glass_unit (BwVec3 v)
{
  return bw_vec3_scale (v, 1 / MAX (bw_vec3_length (v), 1e-30));
}

static inline BwVec3
bw_glass_mirror (BwVec3 way, BwVec3 normal)
{
  return bw_vec3_sub (way, bw_vec3_scale (normal, 2 * bw_vec3_dot (way, normal)));
}

/* Share of unpolarised light that is mirrored (Fresnel's equations); cosine: of the angle to the
 * normal. 1 where it is mirrored totally. */
static inline double
bw_glass_fresnel (double cosine, double ratio)
{
  double inner = 1 - ratio * ratio * (1 - cosine * cosine);
  if (inner <= 0)
    return 1;
  inner = sqrt (inner);
  double across = (ratio * cosine - inner) / (ratio * cosine + inner);
  double along = (cosine - ratio * inner) / (cosine + ratio * inner);
  return (across * across + along * along) / 2;
}

/* Snell's law; FALSE where no light goes on. */
static inline gboolean
bw_glass_bend (BwVec3 way, BwVec3 normal, double ratio, BwVec3 *bent)
{
  double cosine = -bw_vec3_dot (way, normal);
  double inner = 1 - ratio * ratio * (1 - cosine * cosine);
  if (inner <= 0)
    return FALSE;
  *bent = bw_glass_unit (bw_vec3_add (bw_vec3_scale (way, ratio),
                                      bw_vec3_scale (normal, ratio * cosine - sqrt (inner))));
  return TRUE;
}

/* Schlick's form of Fresnel's equations, for what is told by its share straight on. */
static inline double
bw_glass_schlick (double cosine, double straight)
{
  double away = CLAMP (1 - cosine, 0, 1), square = away * away;
  return straight + (1 - straight) * square * square * away;
}

/* Two directions across a third. */
static inline void
bw_glass_across (BwVec3 n, BwVec3 *a, BwVec3 *b)
{
  BwVec3 helper = fabs (n.x) < 0.7 ? bw_vec3 (1, 0, 0) : bw_vec3 (0, 1, 0);
  *a = bw_glass_unit (bw_vec3_cross (helper, n));
  *b = bw_vec3_cross (n, *a);
}

static inline BwVec3
bw_glass_about (BwVec3 n, double cosine, double angle)
{
  BwVec3 a, b;
  double sine = sqrt (MAX (1 - cosine * cosine, 0));
  bw_glass_across (n, &a, &b);
  return bw_vec3_add (
      bw_vec3_scale (n, cosine),
      bw_vec3_add (bw_vec3_scale (a, sine * cos (angle)), bw_vec3_scale (b, sine * sin (angle))));
}

/* As a dull surface scatters: density cosine over pi. */
static inline BwVec3
bw_glass_scatter (BwVec3 n, BwLot *lot)
{
  double u = bw_lot_next (lot), v = bw_lot_next (lot);
  return bw_glass_about (n, sqrt (1 - u), 2 * G_PI * v);
}

/* The normal of a facet of a rough surface (Trowbridge and Reitz; Walter and others 2007); rough: 0
 * polished … 1. */
static inline BwVec3
bw_glass_facet (BwVec3 n, double rough, BwLot *lot)
{
  if (rough <= 0)
    return n;
  double u = bw_lot_next (lot), v = bw_lot_next (lot);
  return bw_glass_about (n, sqrt ((1 - u) / (1 + (rough * rough - 1) * u)), 2 * G_PI * v);
}
