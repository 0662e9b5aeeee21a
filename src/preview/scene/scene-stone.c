/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stone as triangles, edges and planes, and how it colours the light. */
#include "preview/scene/scene-parts.h"

static void
put (float to[3], BwVec3 from)
{
  to[0] = (float)from.x;
  to[1] = (float)from.y;
  to[2] = (float)from.z;
}

static void
add_corner (GArray *array, BwVec3 at, BwVec3 normal)
{
  BwSceneVertex vertex;
  put (vertex.at, at);
  put (vertex.normal, normal);
  g_array_append_val (array, vertex);
}

static void
add_polygon (BwScene *scene, const BwStone *stone, int f)
{
  int corner[BW_FACES_MAX];
  int n = bw_stone_polygon (stone, f, corner, NULL, NULL);
  BwVec3 normal;
  double distance;
  BwScenePlane plane;
  bw_stone_plane (stone, f, &normal, &distance);
  for (int i = 2; i < n; i++) {
    add_corner (scene->stone, stone->vertex[corner[0]], normal);
    add_corner (scene->stone, stone->vertex[corner[i - 1]], normal);
    add_corner (scene->stone, stone->vertex[corner[i]], normal);
  }
  put (plane.normal, normal);
  plane.distance = (float)distance;
  g_array_append_val (scene->stone_planes, plane);
}

/* How sharp the edge between two vertices is: 0 when its faces lie flat, 1 from an eighth of a turn
 * on. */
static float
sharpness (const BwScene *scene, BwVec3 a, BwVec3 b)
{
  const BwScenePlane *face[2] = { NULL, NULL };
  int n = 0;
  for (guint i = 0; i < scene->stone_planes->len && n < 2; i++) {
    const BwScenePlane *plane = &g_array_index (scene->stone_planes, BwScenePlane, i);
    BwVec3 normal
        = bw_vec3 ((double)plane->normal[0], (double)plane->normal[1], (double)plane->normal[2]);
    double off_a = bw_vec3_dot (normal, a) - (double)plane->distance;
    double off_b = bw_vec3_dot (normal, b) - (double)plane->distance;
    if (fabs (off_a) < 1e-3 && fabs (off_b) < 1e-3)
      face[n++] = plane;
  }
  if (n < 2)
    return 1;
  float along = 0;
  for (int k = 0; k < 3; k++)
    along += face[0]->normal[k] * face[1]->normal[k];
  return MIN (acosf (CLAMP (along, -1, 1)) / (float)(G_PI / 4), 1);
}

static void
add_edges (BwScene *scene, const BwStone *stone)
{
  int n = bw_stone_edges (stone, NULL, 0);
  g_autofree int (*edges)[2] = g_malloc_n ((gsize)n, sizeof *edges);
  bw_stone_edges (stone, edges, n);
  for (int i = 0; i < n; i++) {
    BwSceneLine line;
    put (line.from, stone->vertex[edges[i][0]]);
    put (line.to, stone->vertex[edges[i][1]]);
    line.strength = sharpness (scene, stone->vertex[edges[i][0]], stone->vertex[edges[i][1]]);
    g_array_append_val (scene->stone_edges, line);
  }
}

void
bw_scene_add_stone (BwScene *scene, const BwStone *stone, const char *mineral)
{
  for (int f = 0; f < stone->n_polygons; f++)
    add_polygon (scene, stone, f);
  add_edges (scene, stone);
  bw_mineral_keeps (mineral, scene->stone_keeps);
  bw_mineral_optics (mineral, &scene->stone_optics);
}

void
bw_scene_edge_light (const BwScene *scene, float light[3])
{
  static const float white[3] = { 0.93f, 0.97f, 1 };
  const float *keeps = scene->stone_keeps;
  float most = MAX (keeps[0], MAX (keeps[1], keeps[2]));
  for (int i = 0; i < 3; i++) {
    float own = keeps[i] / MAX (most, 1e-3f);
    light[i] = scene->on_dark ? 0.12f + 0.88f * own * own * white[i] : white[i];
    /* An edge gleams by what comes through the stone too: where nothing does, by its polish alone.
     */
    light[i] *= 0.2f + 0.8f * MIN (4 * most, 1);
  }
}
