/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "preview/fine/skin.h"

#define ROUND 28    /* corners round a tube */
#define FINE 0.3    /* length of its pieces, in radii */
#define TWIST 5.2   /* of both strands, radii for one turn (common practice, no source) */
#define GROOVE 0.17 /* depth between two strands, in radii */

static GArray *
threes (gsize size)
{
  return g_array_new (FALSE, FALSE, (guint)(3 * size));
}

static void
skin_init (BwSkin *skin)
{
  *skin = (BwSkin){ threes (sizeof (float)), threes (sizeof (float)),
                    g_array_new (FALSE, FALSE, sizeof (float)), threes (sizeof (guint32)) };
}

void
bw_skin_clear (BwSkin *skin)
{
  g_clear_pointer (&skin->at, g_array_unref);
  g_clear_pointer (&skin->normal, g_array_unref);
  g_clear_pointer (&skin->shown, g_array_unref);
  g_clear_pointer (&skin->triangles, g_array_unref);
}

static guint32
add_corner (BwSkin *skin, const float at[3], const float normal[3], float shown)
{
  g_array_append_vals (skin->at, at, 1);
  g_array_append_vals (skin->normal, normal, 1);
  g_array_append_val (skin->shown, shown);
  return skin->at->len - 1;
}

static void
add_triangle (BwSkin *skin, guint32 a, guint32 b, guint32 c)
{
  const guint32 corners[3] = { a, b, c };
  g_array_append_vals (skin->triangles, corners, 1);
}

void
bw_skin_init_bed (BwSkin *skin, const BwScene *scene)
{
  skin_init (skin);
  for (guint i = 0; i + 2 < scene->bed->len; i += 3) {
    const BwSceneVertex *corner = &g_array_index (scene->bed, BwSceneVertex, i);
    const float *n = corner->normal;
    if (n[2] == 0 && n[0] * corner->at[0] + n[1] * corner->at[1] < 0)
      continue;
    guint32 first = skin->at->len;
    for (int k = 0; k < 3; k++)
      add_corner (skin, corner[k].at, corner[k].normal, 1);
    add_triangle (skin, first, first + 1, first + 2);
  }
}

/* --- Tubes -------------------------------------------------------------------------------------
 */

/* 1 on a strand's back, 0 in the groove. */
static double
strand (double along, double angle, double radius)
{
  return sqrt (fabs (sin (angle - G_PI * 2 * along / (TWIST * radius))));
}

static void
add_ring (BwSkin *skin, const BwSceneTube *tube, const BwSceneStation *station, gboolean twisted)
{
  const float *t = station->tangent, *b = tube->binormal;
  const float n[3]
      = { b[1] * t[2] - b[2] * t[1], b[2] * t[0] - b[0] * t[2], b[0] * t[1] - b[1] * t[0] };
  for (int i = 0; i < ROUND; i++) {
    double angle = 2 * G_PI * i / ROUND, back = 1;
    float at[3], normal[3];
    if (twisted)
      back = 1 - GROOVE * (1 - strand ((double)station->along, angle, (double)tube->radius));
    for (int k = 0; k < 3; k++) {
      normal[k] = (float)(cos (angle) * (double)n[k] + sin (angle) * (double)b[k]);
      at[k] = station->at[k] + tube->radius * (float)back * normal[k];
    }
    add_corner (skin, at, normal, station->shown);
  }
}

static BwSceneStation
between (const BwSceneStation *a, const BwSceneStation *b, float share)
{
  BwSceneStation station = { .along = a->along + share * (b->along - a->along),
                             .shown = a->shown + share * (b->shown - a->shown) };
  float size = 0;
  for (int k = 0; k < 3; k++) {
    station.at[k] = a->at[k] + share * (b->at[k] - a->at[k]);
    station.tangent[k] = a->tangent[k] + share * (b->tangent[k] - a->tangent[k]);
    size += station.tangent[k] * station.tangent[k];
  }
  for (int k = 0; k < 3; k++)
    station.tangent[k] /= MAX (sqrtf (size), 1e-6f);
  return station;
}

static void
join_rings (BwSkin *skin, guint32 first)
{
  for (guint32 i = 0; i < ROUND; i++) {
    guint32 a = first + i, b = first + (i + 1) % ROUND;
    add_triangle (skin, a, b, a + ROUND);
    add_triangle (skin, b, b + ROUND, a + ROUND);
  }
}

static BwVec3
corner_of (const BwSkin *skin, guint32 i)
{
  const float *at = &g_array_index (skin->at, float, 3 * i);
  return bw_vec3 ((double)at[0], (double)at[1], (double)at[2]);
}

/* The mean of what meets in a corner: grooves shade as they lie. */
static void
smooth_normals (BwSkin *skin)
{
  if (skin->normal->len == 0)
    return;
  memset (skin->normal->data, 0, skin->normal->len * 3 * sizeof (float));
  for (guint i = 0; i < skin->triangles->len; i++) {
    const guint32 *corner = &g_array_index (skin->triangles, guint32, 3 * i);
    BwVec3 a = corner_of (skin, corner[0]);
    BwVec3 n = bw_vec3_cross (bw_vec3_sub (corner_of (skin, corner[1]), a),
                              bw_vec3_sub (corner_of (skin, corner[2]), a));
    for (int k = 0; k < 3; k++) {
      float *sum = &g_array_index (skin->normal, float, 3 * corner[k]);
      sum[0] += (float)n.x;
      sum[1] += (float)n.y;
      sum[2] += (float)n.z;
    }
  }
}

void
bw_skin_init_tube (BwSkin *skin, const BwSceneTube *tube, gboolean twisted)
{
  skin_init (skin);
  for (guint i = 0; i + 1 < tube->stations->len; i++) {
    const BwSceneStation *station = &g_array_index (tube->stations, BwSceneStation, i);
    float way = fabsf (station[1].along - station[0].along) / ((float)FINE * tube->radius);
    int pieces = CLAMP ((int)ceilf (way), 1, 400);
    gboolean last = i + 2 == tube->stations->len;
    for (int k = 0; k < pieces + last; k++) {
      BwSceneStation here = between (&station[0], &station[1], (float)k / (float)pieces);
      add_ring (skin, tube, &here, twisted);
    }
  }
  for (guint32 i = 0; i + ROUND < skin->at->len; i += ROUND)
    join_rings (skin, i);
  if (twisted)
    smooth_normals (skin);
}

void
bw_skin_add (const BwSkin *skin, BwRays *rays, guint shape)
{
  if (skin->triangles->len)
    bw_rays_add_mesh (rays, shape, (const float (*)[3]) (const void *)skin->at->data, skin->at->len,
                      (const guint32 (*)[3]) (const void *)skin->triangles->data,
                      skin->triangles->len);
}

/* A weighted sum of what the three corners hold. */
static double
mixed (const BwSkin *skin, const GArray *of, const BwRayHit *hit, guint parts, guint part)
{
  const guint32 *corner = &g_array_index (skin->triangles, guint32, 3 * hit->element);
  const double weight[3] = { 1 - hit->u - hit->v, hit->u, hit->v };
  double sum = 0;
  for (int k = 0; k < 3; k++)
    sum += weight[k] * (double)g_array_index (of, float, parts *corner[k] + part);
  return sum;
}

BwVec3
bw_skin_normal (const BwSkin *skin, const BwRayHit *hit)
{
  BwVec3 n = bw_vec3 (mixed (skin, skin->normal, hit, 3, 0), mixed (skin, skin->normal, hit, 3, 1),
                      mixed (skin, skin->normal, hit, 3, 2));
  double size = bw_vec3_length (n);
  return size > 1e-12 ? bw_vec3_scale (n, 1 / size) : hit->face;
}

double
bw_skin_shown (const BwSkin *skin, const BwRayHit *hit)
{
  return mixed (skin, skin->shown, hit, 1, 0);
}
