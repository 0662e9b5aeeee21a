/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A point's sections are smaller images of the shoulder's section, so the polyhedron can be written
 * down: one ring of corners where the prism begins, one where it ends, and a tip at each point. No
 * general clipper of half-spaces is needed. */
#include "core/stone/stone-polyhedron.h"

#include "core/stone/solid.h"

#define MM3_PER_CM3 1000.0
#define INDICES_MAX (10 * BW_FACES_MAX) /* four a prism face, three a face of either point */

/* Vertices: 0..N−1 the lower ring, N..2N−1 the upper ring, then the tip, then the lower tip. Vertex
 * i of a ring lies between faces i and i + 1. */
static int
lower (const BwStone *stone, int i)
{
  return (i + stone->faces) % stone->faces;
}

static int
upper (const BwStone *stone, int i)
{
  return stone->faces + lower (stone, i);
}

static void
place_ring (BwStone *stone, double z, BwVec3 *ring)
{
  double scale = bw_stone_prism_scale (stone, z);
  for (int i = 0; i < stone->faces; i++)
    ring[i] = bw_vec3 (stone->corner[i].x * scale, stone->corner[i].y * scale, z);
}

static void
place_vertices (BwStone *stone)
{
  int n = stone->faces;
  place_ring (stone, stone->base_shoulder_mm, stone->vertex);
  place_ring (stone, stone->shoulder_mm, stone->vertex + n);
  stone->vertex[2 * n] = bw_vec3 (stone->apex.x, stone->apex.y, stone->length_mm);
  stone->n_vertices = 2 * n + 1;
  if (stone->base == BW_BASE_POINT)
    stone->vertex[stone->n_vertices++] = bw_vec3 (stone->base_apex.x, stone->base_apex.y, 0);
  stone->n_polygons = stone->base == BW_BASE_POINT ? 3 * n : 2 * n + 1;
}

void
bw_stone_build_polyhedron (BwStone *stone, double density_g_cm3)
{
  place_vertices (stone);
  int index[INDICES_MAX], size[BW_STONE_MAX_FACES], used = 0;
  for (int f = 0; f < stone->n_polygons; f++) {
    size[f] = bw_stone_polygon (stone, f, index + used, NULL, NULL);
    used += size[f];
  }
  BwSolid solid = { stone->vertex, index, size, stone->n_polygons };
  BwSolidMass mass = bw_solid_mass (&solid);
  stone->volume_mm3 = mass.volume;
  stone->centroid = mass.centroid;
  stone->mass_g = mass.volume * density_g_cm3 / MM3_PER_CM3;
}

static BwFaceKind
kind_of (const BwStone *stone, int f, int *index)
{
  int n = stone->faces;
  *index = f % n;
  if (f < n)
    return BW_FACE_PRISM;
  if (f < 2 * n)
    return BW_FACE_POINT;
  return stone->base == BW_BASE_FLAT ? BW_FACE_BASE : BW_FACE_BASE_POINT;
}

static int
write_prism_face (const BwStone *stone, int i, int *vertices)
{
  vertices[0] = lower (stone, i - 1);
  vertices[1] = lower (stone, i);
  vertices[2] = upper (stone, i);
  vertices[3] = upper (stone, i - 1);
  return 4;
}

static int
write_triangle (int a, int b, int c, int *vertices)
{
  vertices[0] = a;
  vertices[1] = b;
  vertices[2] = c;
  return 3;
}

/* Seen from below, counter-clockwise is the other way round. */
static int
write_flat_base (const BwStone *stone, int *vertices)
{
  for (int i = 0; i < stone->faces; i++)
    vertices[i] = stone->faces - 1 - i;
  return stone->faces;
}

int
bw_stone_polygon (const BwStone *stone, int f, int vertices[BW_FACES_MAX], BwFaceKind *kind,
                  int *index)
{
  g_return_val_if_fail (f >= 0 && f < stone->n_polygons, 0);
  int i, tip = 2 * stone->faces;
  BwFaceKind is = kind_of (stone, f, &i);
  if (kind)
    *kind = is;
  if (index)
    *index = i;
  switch (is) {
  case BW_FACE_PRISM:
    return write_prism_face (stone, i, vertices);
  case BW_FACE_POINT:
    return write_triangle (upper (stone, i - 1), upper (stone, i), tip, vertices);
  case BW_FACE_BASE:
    return write_flat_base (stone, vertices);
  case BW_FACE_BASE_POINT:
    return write_triangle (lower (stone, i), lower (stone, i - 1), tip + 1, vertices);
  }
  return 0;
}

/* Each edge is run along twice, once either way, by the two polygons that share it. */
int
bw_stone_edges (const BwStone *stone, int (*edges)[2], int max)
{
  int n = 0;
  for (int f = 0; f < stone->n_polygons; f++) {
    int vertices[BW_FACES_MAX];
    int size = bw_stone_polygon (stone, f, vertices, NULL, NULL);
    for (int i = 0; i < size; i++) {
      int from = vertices[i], to = vertices[(i + 1) % size];
      if (from > to)
        continue;
      if (n < max) {
        edges[n][0] = from;
        edges[n][1] = to;
      }
      n++;
    }
  }
  return n;
}

/* The plane n_i·(x,y) + rise (z − z0) = h. */
static void
leaning_plane (const BwStone *stone, int i, double rise, double z0, double h, BwVec3 *normal,
               double *distance)
{
  BwVec2 n = bw_stone_normal (stone->faces, i);
  double length = sqrt (1 + rise * rise);
  *normal = bw_vec3 (n.x / length, n.y / length, rise / length);
  *distance = (h + rise * z0) / length;
}

/* Point face i: h falls from the shoulder's to that of the apex over the way to the apex. */
static void
point_plane (const BwStone *stone, int i, double shoulder, double tip, BwVec2 apex, BwVec3 *normal,
             double *distance)
{
  double h = stone->h_mm[i] * bw_stone_prism_scale (stone, shoulder);
  double out = bw_vec2_dot (apex, bw_stone_normal (stone->faces, i));
  leaning_plane (stone, i, (h - out) / (tip - shoulder), shoulder, h, normal, distance);
}

void
bw_stone_plane (const BwStone *stone, int f, BwVec3 *normal, double *distance)
{
  g_return_if_fail (f >= 0 && f < stone->n_polygons);
  int i;
  switch (kind_of (stone, f, &i)) {
  case BW_FACE_PRISM:
    leaning_plane (stone, i, -stone->h_mm[i] * stone->taper_per_mm, stone->at_mm, stone->h_mm[i],
                   normal, distance);
    break;
  case BW_FACE_POINT:
    point_plane (stone, i, stone->shoulder_mm, stone->length_mm, stone->apex, normal, distance);
    break;
  case BW_FACE_BASE:
    *normal = bw_vec3 (0, 0, -1);
    *distance = 0;
    break;
  case BW_FACE_BASE_POINT:
    point_plane (stone, i, stone->base_shoulder_mm, 0, stone->base_apex, normal, distance);
    break;
  }
}
