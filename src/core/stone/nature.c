/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "core/stone/nature.h"

#include "core/base/stir.h"
#include "core/base/tolerance.h"

#define CLEAR_MM 0.25 /* of its faces a needle ends */

typedef struct {
  const BwStone *stone;
  double least; /* from the axis to the nearest prism face */
  guint64 state;
} Lots;

static Lots
lots_of (const BwStone *stone, int seed, guint64 kind)
{
  Lots lots = { stone, stone->h_mm[0], bw_stir ((guint64)seed << 8 | kind) };
  for (int i = 1; i < stone->faces; i++)
    lots.least = MIN (lots.least, stone->h_mm[i]);
  return lots;
}

static double
between (Lots *lots, double low, double high)
{
  return low + (high - low) * bw_stir_next (&lots->state);
}

/* --- Needles -----------------------------------------------------------------------------------
 */

/* How far from a point inside the stone reaches along a direction, CLEAR_MM less. */
static double
reach (const BwStone *stone, BwVec3 from, BwVec3 way)
{
  double least = INFINITY;
  for (int f = 0; f < stone->n_polygons; f++) {
    BwVec3 normal;
    double distance;
    bw_stone_plane (stone, f, &normal, &distance);
    double speed = bw_vec3_dot (normal, way);
    if (speed > BW_ROUNDING_MM)
      least = MIN (least, (distance - CLEAR_MM - bw_vec3_dot (normal, from)) / speed);
  }
  return MAX (least, 0);
}

/* Most grow upwards, some across. */
static BwVec3
needle_way (Lots *lots)
{
  double rise = between (lots, -1, 1), turn = between (lots, 0, 2 * G_PI);
  rise = rise < 0 ? -sqrt (-rise) : sqrt (rise);
  double flat = sqrt (MAX (1 - rise * rise, 0));
  return bw_vec3 (flat * cos (turn), flat * sin (turn), rise);
}

static BwNeedle
draw_needle (Lots *lots)
{
  const BwStone *stone = lots->stone;
  double low = stone->base_shoulder_mm, high = stone->shoulder_mm;
  double z = low + (high - low) * between (lots, 0.08, 0.92), turn = between (lots, 0, 2 * G_PI);
  double off = 0.7 * lots->least * bw_stone_prism_scale (stone, z) * sqrt (between (lots, 0, 1));
  BwVec3 middle = bw_vec3 (off * cos (turn), off * sin (turn), z), way = needle_way (lots);
  double half = lots->least * between (lots, 0.4, 1.5);
  double ahead = MIN (reach (stone, middle, way), half);
  double back = MIN (reach (stone, middle, bw_vec3_scale (way, -1)), half);
  return (BwNeedle){ bw_vec3_sub (middle, bw_vec3_scale (way, back)),
                     bw_vec3_add (middle, bw_vec3_scale (way, ahead)), between (lots, 0.04, 0.11) };
}

/* --- Chips -------------------------------------------------------------------------------------
 */

/* Edges with their lengths summed up, so that a length drawn by lot finds its edge. */
typedef struct {
  int n;
  int (*edge)[2];
  double total;
} Edges;

static double
length_of (const BwStone *stone, const int edge[2])
{
  return bw_vec3_length (bw_vec3_sub (stone->vertex[edge[1]], stone->vertex[edge[0]]));
}

static Edges
edges_of (const BwStone *stone)
{
  Edges edges = { .n = bw_stone_edges (stone, NULL, 0) };
  edges.edge = g_malloc_n ((gsize)edges.n, sizeof *edges.edge);
  bw_stone_edges (stone, edges.edge, edges.n);
  for (int i = 0; i < edges.n; i++)
    edges.total += length_of (stone, edges.edge[i]);
  return edges;
}

/* The mean of the normals of the faces that meet in a point of an edge. */
static BwVec3
out_at (const BwStone *stone, BwVec3 at)
{
  BwVec3 sum = bw_vec3 (0, 0, 0);
  for (int f = 0; f < stone->n_polygons; f++) {
    BwVec3 normal;
    double distance;
    bw_stone_plane (stone, f, &normal, &distance);
    if (fabs (bw_vec3_dot (normal, at) - distance) < 1e-6)
      sum = bw_vec3_add (sum, normal);
  }
  return bw_vec3_scale (sum, 1 / MAX (bw_vec3_length (sum), 1e-9));
}

static BwChip
draw_chip (Lots *lots, const Edges *edges)
{
  const BwStone *stone = lots->stone;
  double along = between (lots, 0, edges->total), share = 0;
  int i = 0;
  while (i < edges->n - 1 && along > length_of (stone, edges->edge[i]))
    along -= length_of (stone, edges->edge[i++]);
  const BwVec3 from = stone->vertex[edges->edge[i][0]], to = stone->vertex[edges->edge[i][1]];
  share = CLAMP (along / MAX (length_of (stone, edges->edge[i]), 1e-9), 0.02, 0.98);
  BwVec3 at = bw_vec3_add (from, bw_vec3_scale (bw_vec3_sub (to, from), share));
  double size = between (lots, 0, 1);
  return (BwChip){ at, out_at (stone, at), lots->least * (0.05 + 0.13 * size * size) };
}

void
bw_nature_init (BwNature *nature, const BwStone *stone, const BwStoneLook *look)
{
  Lots needles = lots_of (stone, look->seed, 1), chips = lots_of (stone, look->seed, 2);
  *nature = (BwNature){ .n_needles = (int)ceil (look->needles * BW_NEEDLES_MAX),
                        .n_chips = (int)ceil (look->chips * BW_CHIPS_MAX) };
  for (int i = 0; i < nature->n_needles; i++)
    nature->needle[i] = draw_needle (&needles);
  if (nature->n_chips == 0)
    return;
  Edges edges = edges_of (stone);
  for (int i = 0; i < nature->n_chips; i++)
    nature->chip[i] = draw_chip (&chips, &edges);
  g_free (edges.edge);
}
