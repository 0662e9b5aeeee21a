/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stone's polyhedron against Qhull (C. B. Barber, D. P. Dobkin, H. Huhdanpaa, "The Quickhull
 * Algorithm for Convex Hulls", ACM Transactions on Mathematical Software 22(4), 1996, 469–483).
 *
 * Qhull is given half-spaces only, each laid through three points of the drawn outline; it finds
 * the corners by itself, and from them volume and centre. Nothing the core has solved goes in. */
#include "stones.h"

#include <libqhull_r/qhull_ra.h>

#define N_STONES 2500
#define PLANES_MAX BW_STONE_MAX_FACES
#define POINTS_MAX (4 * BW_STONE_MAX_VERTICES)

typedef struct {
  double plane[PLANES_MAX][4]; /* outward normal, offset: n·x + offset ≤ 0 inside */
  int n_planes;
  BwVec3 inside;
} HalfSpaces;

typedef struct {
  int n;
  double point[POINTS_MAX][3];
} Corners;

/* The plane through three points, turned so that `inside` is inside. */
static void
add_plane (HalfSpaces *spaces, BwVec3 a, BwVec3 b, BwVec3 c)
{
  BwVec3 n = bw_vec3_cross (bw_vec3_sub (b, a), bw_vec3_sub (c, a));
  n = bw_vec3_scale (n, 1 / bw_vec3_length (n));
  double offset = -bw_vec3_dot (n, a);
  double sign = bw_vec3_dot (n, spaces->inside) + offset > 0 ? -1 : 1;
  double *plane = spaces->plane[spaces->n_planes++];
  plane[0] = sign * n.x;
  plane[1] = sign * n.y;
  plane[2] = sign * n.z;
  plane[3] = sign * offset;
}

/* Corner i of the drawn outline, at height z of the tapered prism. */
static BwVec3
prism_corner (const DrawnStone *drawn, int i, double z)
{
  double scale = 1 + drawn->taper_per_mm * (z - drawn->measures.at_mm);
  BwVec2 c = drawn->corner[(i + drawn->measures.faces) % drawn->measures.faces];
  return bw_vec3 (c.x * scale, c.y * scale, z);
}

static void
lay_half_spaces (HalfSpaces *spaces, const DrawnStone *drawn)
{
  const BwStoneMeasures *m = &drawn->measures;
  gboolean flat = m->base == BW_BASE_FLAT;
  double high = m->shoulder_mm;
  double low = flat ? 0 : m->has_base_shoulder ? m->base_shoulder_mm : m->length_mm - high;
  BwVec3 tip = { m->apex_offset_mm[0], m->apex_offset_mm[1], m->length_mm };
  BwVec3 base = { m->base_apex_offset_mm[0], m->base_apex_offset_mm[1], 0 };
  spaces->n_planes = 0;
  spaces->inside = bw_vec3 (0, 0, (low + high) / 2);
  for (int i = 0; i < m->faces; i++) {
    BwVec3 a = prism_corner (drawn, i - 1, high), b = prism_corner (drawn, i, high);
    BwVec3 c = prism_corner (drawn, i, low);
    add_plane (spaces, a, b, c);
    add_plane (spaces, a, b, tip);
    if (!flat)
      add_plane (spaces, prism_corner (drawn, i - 1, low), c, base);
  }
  if (flat)
    add_plane (spaces, base, bw_vec3 (1, 0, 0), bw_vec3 (0, 1, 0));
}

/* Long memory, then short: nothing may be left. */
static void
close_qhull (qhT *qh)
{
  int long_left, long_bytes;
  qh_freeqhull (qh, !qh_ALL);
  qh_memfreeshort (qh, &long_left, &long_bytes);
  assert_int_equal (long_left, 0);
}

/* Each facet of the dual hull is a corner of the intersection. */
static void
intersect (const HalfSpaces *spaces, Corners *corners)
{
  qhT qh_value, *qh = &qh_value;
  double planes[PLANES_MAX][4];
  memcpy (planes, spaces->plane, sizeof planes);
  g_autofree char *command = g_strdup_printf ("qhull H%.17g,%.17g,%.17g", spaces->inside.x,
                                              spaces->inside.y, spaces->inside.z);
  qh_zero (qh, stderr);
  assert_int_equal (
      qh_new_qhull (qh, 4, spaces->n_planes, &planes[0][0], False, command, NULL, stderr), 0);
  facetT *facet;
  corners->n = 0;
  FORALLfacets
  {
    assert_true (corners->n < POINTS_MAX && facet->offset < 0);
    for (int k = 0; k < 3; k++)
      corners->point[corners->n][k] = facet->normal[k] / -facet->offset + qh->feasible_point[k];
    corners->n++;
  }
  close_qhull (qh);
}

typedef struct {
  double volume; /* as Qhull totals it */
  double area;
  BwVec3 centroid; /* over Qhull's triangles */
} Hull;

static BwVec3
point_of (const coordT *p)
{
  return bw_vec3 (p[0], p[1], p[2]);
}

static void
measure_hull (const Corners *corners, BwVec3 inside, Hull *hull)
{
  qhT qh_value, *qh = &qh_value;
  Corners copy = *corners;
  qh_zero (qh, stderr);
  assert_int_equal (
      qh_new_qhull (qh, 3, copy.n, &copy.point[0][0], False, (char[]){ "qhull Qt" }, NULL, stderr),
      0);
  qh_getarea (qh, qh->facet_list);
  double sum = 0;
  BwVec3 moment = { 0, 0, 0 };
  facetT *facet;
  FORALLfacets
  {
    vertexT **at = (vertexT **)&facet->vertices->e[0].p;
    BwVec3 a = bw_vec3_sub (point_of (at[0]->point), inside);
    BwVec3 b = bw_vec3_sub (point_of (at[1]->point), inside);
    BwVec3 c = bw_vec3_sub (point_of (at[2]->point), inside);
    /* Seen from inside a convex body every triangle counts as positive. */
    double part = fabs (bw_vec3_dot (a, bw_vec3_cross (b, c))) / 6;
    sum += part;
    moment = bw_vec3_add (moment, bw_vec3_scale (bw_vec3_add (a, bw_vec3_add (b, c)), part / 4));
  }
  hull->volume = qh->totvol;
  hull->area = qh->totarea;
  hull->centroid = bw_vec3_add (inside, bw_vec3_scale (moment, 1 / sum));
  assert_near (sum, hull->volume, 1e-9);
  close_qhull (qh);
}

static double
nearest (const Corners *corners, BwVec3 to)
{
  double best = G_MAXDOUBLE;
  for (int i = 0; i < corners->n; i++)
    best = MIN (best, bw_vec3_length (bw_vec3_sub (point_of (corners->point[i]), to)));
  return best;
}

static double
nearest_vertex (const BwStone *stone, const double *to)
{
  double best = G_MAXDOUBLE;
  for (int v = 0; v < stone->n_vertices; v++)
    best = MIN (best, bw_vec3_length (bw_vec3_sub (stone->vertex[v], point_of (to))));
  return best;
}

static void
the_half_spaces_meet_in_the_stones_vertices_and_no_others (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (2001);
  for (int k = 0; k < N_STONES; k++) {
    DrawnStone drawn;
    HalfSpaces spaces;
    Corners corners;
    draw_stone (&drawn, rand);
    lay_half_spaces (&spaces, &drawn);
    intersect (&spaces, &corners);
    BwStone stone = solved (&drawn.measures);
    for (int v = 0; v < stone.n_vertices; v++)
      assert_near (nearest (&corners, stone.vertex[v]), 0, 1e-6);
    for (int i = 0; i < corners.n; i++)
      assert_near (nearest_vertex (&stone, corners.point[i]), 0, 1e-6);
  }
}

static void
volume_and_centre_are_those_of_the_intersection (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (2002);
  for (int k = 0; k < N_STONES; k++) {
    DrawnStone drawn;
    HalfSpaces spaces;
    Corners corners;
    Hull hull;
    draw_stone (&drawn, rand);
    lay_half_spaces (&spaces, &drawn);
    intersect (&spaces, &corners);
    measure_hull (&corners, spaces.inside, &hull);
    BwStone stone = solved (&drawn.measures);
    assert_near (stone.volume_mm3, hull.volume, 1e-8);
    assert_near (stone.centroid.x, hull.centroid.x, 1e-7);
    assert_near (stone.centroid.y, hull.centroid.y, 1e-7);
    assert_near (stone.centroid.z, hull.centroid.z, 1e-7);
  }
}

/* Quartz of inradius 5 and prism length 20, cell a = 4.9133, c = 5.4053 Å (Handbook of Mineralogy,
 * vol. II, 1995): closed forms give V = 1915.406868 mm³ and an area of 919.433578 mm². */
static void
qhull_itself_gives_the_closed_forms_of_a_quartz_point (void **state)
{
  DrawnStone drawn = { .measures = { .faces = 6,
                                     .length_mm = 20 + 5 * 5.4053 / 4.9133 / cos (G_PI / 6),
                                     .shoulder_mm = 20,
                                     .at_mm = 10 } };
  HalfSpaces spaces;
  Corners corners;
  Hull hull;
  for (int i = 0; i < 6; i++) {
    double azimuth = 2 * G_PI * (i + 0.5) / 6, radius = 5 / cos (G_PI / 6);
    drawn.corner[i] = bw_vec2 (radius * cos (azimuth), radius * sin (azimuth));
  }
  lay_half_spaces (&spaces, &drawn);
  intersect (&spaces, &corners);
  measure_hull (&corners, spaces.inside, &hull);
  assert_int_equal (corners.n, 13);
  assert_near (hull.volume, 1915.406868, 1e-9);
  assert_near (hull.area, 919.433578, 1e-9);
  assert_near (hull.centroid.z, 11.109275, 1e-7);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_half_spaces_meet_in_the_stones_vertices_and_no_others),
    cmocka_unit_test (volume_and_centre_are_those_of_the_intersection),
    cmocka_unit_test (qhull_itself_gives_the_closed_forms_of_a_quartz_point),
  };
  return cmocka_run_group_tests_name ("qhull", tests, NULL, NULL);
}
