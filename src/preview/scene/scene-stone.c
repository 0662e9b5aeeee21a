/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stone as triangles, edges and planes, and how it colours the light. */
#include "preview/scene/scene-parts.h"

#include "core/base/stir.h"

#define VEILS_MOST                                                                                 \
  0.22 /* scattered per mm in the veils a look may add (common practice, no source) */

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

/* How much of an edge, told by shares of its length, a chip takes away; from ≥ to: nothing. */
static void
chipped_away (const BwChip *chip, BwVec3 from, BwVec3 along, double span[2])
{
  double size = bw_vec3_dot (along, along);
  BwVec3 off = bw_vec3_sub (chip->at, from);
  double middle = bw_vec3_dot (off, along) / size;
  BwVec3 aside = bw_vec3_sub (off, bw_vec3_scale (along, middle));
  double half = chip->radius * chip->radius - bw_vec3_dot (aside, aside);
  half = half > 0 ? sqrt (half / size) : 0;
  span[0] = middle - half;
  span[1] = middle + half;
}

/* The first piece of an edge from `start` on that no chip takes away; FALSE where there is none. */
static gboolean
whole_piece (const BwNature *nature, BwVec3 from, BwVec3 along, double start, double piece[2])
{
  gboolean moved = TRUE;
  piece[0] = start;
  piece[1] = 1;
  while (moved) {
    moved = FALSE;
    for (int i = 0; i < nature->n_chips; i++) {
      double span[2];
      chipped_away (&nature->chip[i], from, along, span);
      if (span[0] <= piece[0] && span[1] > piece[0]) {
        piece[0] = span[1];
        moved = TRUE;
      }
    }
  }
  for (int i = 0; i < nature->n_chips; i++) {
    double span[2];
    chipped_away (&nature->chip[i], from, along, span);
    if (span[1] > span[0] && span[0] > piece[0])
      piece[1] = MIN (piece[1], span[0]);
  }
  return piece[0] < 1;
}

static void
add_edge (BwScene *scene, BwVec3 from, BwVec3 to)
{
  BwVec3 along = bw_vec3_sub (to, from);
  double piece[2] = { 0, 0 };
  BwSceneLine line = { .strength = sharpness (scene, from, to) };
  while (whole_piece (&scene->nature, from, along, piece[1], piece)) {
    put (line.from, bw_vec3_add (from, bw_vec3_scale (along, piece[0])));
    put (line.to, bw_vec3_add (from, bw_vec3_scale (along, piece[1])));
    g_array_append_val (scene->stone_edges, line);
    if (piece[1] >= 1)
      return;
  }
}

static void
add_edges (BwScene *scene, const BwStone *stone)
{
  int n = bw_stone_edges (stone, NULL, 0);
  g_autofree int (*edges)[2] = g_malloc_n ((gsize)n, sizeof *edges);
  bw_stone_edges (stone, edges, n);
  for (int i = 0; i < n; i++)
    add_edge (scene, stone->vertex[edges[i][0]], stone->vertex[edges[i][1]]);
}

void
bw_scene_add_stone (BwScene *scene, const BwStone *stone, const char *mineral)
{
  for (int f = 0; f < stone->n_polygons; f++)
    add_polygon (scene, stone, f);
  add_edges (scene, stone);
  bw_mineral_keeps (mineral, scene->stone_keeps);
  bw_mineral_optics (mineral, &scene->stone_optics);
  scene->stone_striae = bw_mineral_striae (mineral);
  scene->stone_optics.veils += VEILS_MOST * scene->look.veils;
}

void
bw_scene_veil_shift (const BwScene *scene, float shift[3])
{
  guint64 state = bw_stir ((guint64)scene->look.seed << 8);
  for (int i = 0; i < 3; i++)
    shift[i] = scene->look.seed ? (float)bw_stir_next (&state) : 0;
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
