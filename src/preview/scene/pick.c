/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which bead lies under the pointer, told by geometry and not by reading pixels back: it costs no
 * frame, works without OpenGL and is exact at any size.
 *
 * Every bead is tried: a sphere test throws all but a few out, and sixty thousand of those tests
 * are quicker than keeping a search structure in step with the scene. */
#include "preview/scene/camera.h"
#include "preview/scene/played.h"
#include "preview/scene/scene-bead.h"

typedef struct {
  BwVec3 from, along;
} Ray;

static BwVec3
wide (const float v[3])
{
  return bw_vec3 ((double)v[0], (double)v[1], (double)v[2]);
}

/* Distance along the ray at which it enters the sphere, or a negative number. */
static double
sphere_entry (const Ray *ray, const float at[3], double radius)
{
  BwVec3 to = bw_vec3_sub (wide (at), ray->from);
  double near = bw_vec3_dot (to, ray->along);
  double miss2 = bw_vec3_dot (to, to) - near * near;
  return miss2 < radius * radius ? near - sqrt (radius * radius - miss2) : -1;
}

/* The bead as the ray meets it: distance from its axis and height over its middle as functions of
 * the way along the ray. */
typedef struct {
  double a, b, c;    /* r² = a t² + 2 b t + c */
  double h, h_slope; /* z = h + h_slope t */
} Profile;

static Profile
profile_of (const Ray *ray, const BwSceneBead *bead)
{
  float hole[3];
  bw_bead_axis (bead, hole);
  BwVec3 axis = wide (hole), from = bw_vec3_sub (ray->from, wide (bead->at));
  double h = bw_vec3_dot (from, axis), slope = bw_vec3_dot (ray->along, axis);
  BwVec3 off = bw_vec3_sub (from, bw_vec3_scale (axis, h));
  BwVec3 way = bw_vec3_sub (ray->along, bw_vec3_scale (axis, slope));
  return (Profile){ bw_vec3_dot (way, way), bw_vec3_dot (off, way), bw_vec3_dot (off, off), h,
                    slope };
}

/* Signed distance from the rounded cylinder, its hole filled. */
static double
outside (const BwScene *scene, const Profile *p, double t)
{
  double q = (double)scene->bead_rounding;
  double r = sqrt (MAX (p->a * t * t + 2 * p->b * t + p->c, 0)) - (double)scene->bead_radius + q;
  double z = fabs (p->h + p->h_slope * t) - (double)scene->bead_half_length + q;
  return hypot (MAX (r, 0), MAX (z, 0)) + MIN (MAX (r, z), 0) - q;
}

/* Walks the ray by the distance that is surely free; the shape is convex, so it cannot step over.
 */
static double
bead_entry (const BwScene *scene, const Ray *ray, const BwSceneBead *bead, double t, double reach)
{
  Profile profile = profile_of (ray, bead);
  double end = t + 2 * reach;
  for (int i = 0; i < 200 && t < end; i++) {
    double free_way = outside (scene, &profile, t);
    if (free_way < 1e-6)
      return t;
    t += free_way;
  }
  return -1;
}

/* Distance to the triangle, or a negative number (Möller and Trumbore, Fast, Minimum Storage
 * Ray/Triangle Intersection, Journal of Graphics Tools 2(1), 1997). */
static double
triangle_entry (const Ray *ray, const BwSceneVertex corner[3])
{
  BwVec3 origin = wide (corner[0].at);
  BwVec3 e1 = bw_vec3_sub (wide (corner[1].at), origin);
  BwVec3 e2 = bw_vec3_sub (wide (corner[2].at), origin);
  BwVec3 across = bw_vec3_cross (ray->along, e2);
  double det = bw_vec3_dot (e1, across);
  if (fabs (det) < 1e-12)
    return -1;
  BwVec3 s = bw_vec3_sub (ray->from, origin);
  double u = bw_vec3_dot (s, across) / det;
  BwVec3 q = bw_vec3_cross (s, e1);
  double v = bw_vec3_dot (ray->along, q) / det;
  return u >= 0 && v >= 0 && u + v <= 1 ? bw_vec3_dot (e2, q) / det : -1;
}

static gboolean
triangles_hide (const GArray *triangles, const Ray *ray, double before)
{
  for (guint i = 0; i + 2 < triangles->len; i += 3) {
    double t = triangle_entry (ray, &g_array_index (triangles, BwSceneVertex, i));
    if (t > 0 && t < before)
      return TRUE;
  }
  return FALSE;
}

static int
nearest_bead (const BwScene *scene, const Ray *ray, guint layers, double *distance)
{
  double reach = hypot ((double)scene->bead_radius, (double)scene->bead_half_length);
  int found = -1;
  *distance = G_MAXDOUBLE;
  for (guint i = 0; i < scene->beads->len; i++) {
    const BwSceneBead *bead = &g_array_index (scene->beads, BwSceneBead, i);
    double t = sphere_entry (ray, bead->at, reach);
    if (t < 0 || t >= *distance || !bw_played_has (scene, (int)i)
        || !(layers & ((int)i >= scene->n_band ? BW_LAYER_BAIL : BW_LAYER_BAND)))
      continue;
    t = bead_entry (scene, ray, bead, t, reach);
    if (t < 0 || t >= *distance)
      continue;
    *distance = t;
    found = (int)i;
  }
  return found;
}

int
bw_eye_pick (const BwEye *eye, const BwScene *scene, guint layers, double x, double y, int width,
             int height)
{
  Ray ray;
  double distance;
  bw_eye_ray (eye, x, y, width, height, &ray.from, &ray.along);
  int found = nearest_bead (scene, &ray, layers, &distance);
  if (found < 0)
    return -1;
  gboolean hidden = ((layers & BW_LAYER_STONE) && triangles_hide (scene->stone, &ray, distance))
                    || ((layers & BW_LAYER_BED) && triangles_hide (scene->bed, &ray, distance));
  return hidden ? -1 : found;
}
