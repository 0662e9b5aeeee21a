/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Points and directions in double precision: what the trade's arithmetic is written in.
 * (cglm is single precision; it serves the picture, not the numbers.) */
#pragma once

#include <math.h>

typedef struct {
  double x, y;
} BwVec2;

typedef struct {
  double x, y, z;
} BwVec3;

static inline BwVec2
bw_vec2 (double x, double y)
{
  return (BwVec2){ x, y };
}

static inline BwVec2
bw_vec2_add (BwVec2 a, BwVec2 b)
{
  return (BwVec2){ a.x + b.x, a.y + b.y };
}

static inline BwVec2
bw_vec2_sub (BwVec2 a, BwVec2 b)
{
  return (BwVec2){ a.x - b.x, a.y - b.y };
}

static inline BwVec2
bw_vec2_scale (BwVec2 a, double s)
{
  return (BwVec2){ a.x * s, a.y * s };
}

static inline double
bw_vec2_dot (BwVec2 a, BwVec2 b)
{
  return a.x * b.x + a.y * b.y;
}

/* z component of the cross product: positive when b lies counter-clockwise of a. */
static inline double
bw_vec2_cross (BwVec2 a, BwVec2 b)
{
  return a.x * b.y - a.y * b.x;
}

static inline double
bw_vec2_length (BwVec2 a)
{
  return sqrt (a.x * a.x + a.y * a.y);
}

/* Centroid of the area of a polygon whose corners run counter-clockwise; its first corner when it
 * has no area. */
static inline BwVec2
bw_vec2_centroid (const BwVec2 *corner, int n)
{
  BwVec2 moment = { 0, 0 };
  double twice = 0;
  for (int i = 1; i + 1 < n; i++) {
    BwVec2 a = bw_vec2_sub (corner[i], corner[0]), b = bw_vec2_sub (corner[i + 1], corner[0]);
    double cross = bw_vec2_cross (a, b);
    twice += cross;
    moment = bw_vec2_add (moment, bw_vec2_scale (bw_vec2_add (a, b), cross));
  }
  return twice > 0 ? bw_vec2_add (corner[0], bw_vec2_scale (moment, 1 / (3 * twice))) : corner[0];
}

static inline BwVec3
bw_vec3 (double x, double y, double z)
{
  return (BwVec3){ x, y, z };
}

static inline BwVec3
bw_vec3_add (BwVec3 a, BwVec3 b)
{
  return (BwVec3){ a.x + b.x, a.y + b.y, a.z + b.z };
}

static inline BwVec3
bw_vec3_sub (BwVec3 a, BwVec3 b)
{
  return (BwVec3){ a.x - b.x, a.y - b.y, a.z - b.z };
}

static inline BwVec3
bw_vec3_scale (BwVec3 a, double s)
{
  return (BwVec3){ a.x * s, a.y * s, a.z * s };
}

static inline double
bw_vec3_dot (BwVec3 a, BwVec3 b)
{
  return a.x * b.x + a.y * b.y + a.z * b.z;
}

static inline BwVec3
bw_vec3_cross (BwVec3 a, BwVec3 b)
{
  return (BwVec3){ a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x };
}

static inline double
bw_vec3_length (BwVec3 a)
{
  return sqrt (bw_vec3_dot (a, a));
}

static inline double
bw_radians (double degrees)
{
  return degrees * (3.14159265358979323846 / 180.0);
}

static inline double
bw_degrees (double radians)
{
  return radians * (180.0 / 3.14159265358979323846);
}
