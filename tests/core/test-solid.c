/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Mass properties of bodies that others have published and of bodies with closed forms.
 *
 * Cube, tetrahedron and icosahedron are the example bodies that B. Mirtich published with "Fast and
 * Accurate Computation of Polyhedral Mass Properties", Journal of Graphics Tools 1(2), 1996, 31–50;
 * volumes and centres are those his program gives for them. */
#include "stones.h"

#include "core/stone/solid.h"

#define CORNERS_MAX 12
#define INDICES_MAX 64

typedef struct {
  BwVec3 vertex[CORNERS_MAX];
  int index[INDICES_MAX];
  int size[20];
  int n_vertices, n_polygons;
} Body;

static BwSolidMass
mass_of (const Body *body)
{
  BwSolid solid = { body->vertex, body->index, body->size, body->n_polygons };
  return bw_solid_mass (&solid);
}

static Body
cube (double side)
{
  Body body = { .index = { 0, 2, 3, 1, 4, 5, 7, 6, 0, 1, 5, 4, 2, 6, 7, 3, 0, 4, 6, 2, 1, 3, 7, 5 },
                .size = { 4, 4, 4, 4, 4, 4 },
                .n_vertices = 8,
                .n_polygons = 6 };
  for (int i = 0; i < 8; i++)
    body.vertex[i]
        = bw_vec3 (side * ((i & 1) - 0.5), side * (((i >> 1) & 1) - 0.5), side * ((i >> 2) - 0.5));
  return body;
}

static Body
tetrahedron (void)
{
  return (Body){ .vertex = { { 0, 0, 0 }, { 5, 0, 0 }, { 0, 4, 0 }, { 0, 0, 3 } },
                 .index = { 0, 2, 1, 0, 1, 3, 0, 3, 2, 1, 2, 3 },
                 .size = { 3, 3, 3, 3 },
                 .n_vertices = 4,
                 .n_polygons = 4 };
}

/* Two poles and two rings of five. */
static Body
icosahedron (void)
{
  Body body = { .n_vertices = 12, .n_polygons = 20 };
  double z = 1 / sqrt (5), r = 2 / sqrt (5);
  body.vertex[0] = bw_vec3 (0, 0, 1);
  body.vertex[11] = bw_vec3 (0, 0, -1);
  int *index = body.index;
  for (int i = 0; i < 5; i++) {
    double up = 2 * G_PI * i / 5, down = up + G_PI / 5;
    int a = 1 + i, b = 1 + (i + 1) % 5, c = 6 + i, d = 6 + (i + 1) % 5;
    body.vertex[a] = bw_vec3 (r * cos (up), r * sin (up), z);
    body.vertex[c] = bw_vec3 (r * cos (down), r * sin (down), -z);
    const int faces[12] = { 0, a, b, a, c, b, b, c, d, 11, d, c };
    for (int j = 0; j < 12; j++)
      *index++ = faces[j];
  }
  for (int f = 0; f < 20; f++)
    body.size[f] = 3;
  return body;
}

static void
shift (Body *body, BwVec3 by)
{
  for (int i = 0; i < body->n_vertices; i++)
    body->vertex[i] = bw_vec3_add (body->vertex[i], by);
}

static void
assert_centre (BwVec3 found, BwVec3 expected, double tolerance)
{
  assert_near (found.x, expected.x, tolerance);
  assert_near (found.y, expected.y, tolerance);
  assert_near (found.z, expected.z, tolerance);
}

static void
the_published_cube_holds_8000 (void **state)
{
  Body body = cube (20);
  BwSolidMass mass = mass_of (&body);
  assert_true (mass.has_centroid);
  assert_near (mass.volume, 8000, 1e-14);
  assert_near (mass.area, 2400, 1e-14);
  assert_centre (mass.centroid, bw_vec3 (0, 0, 0), 1e-13);
}

static void
the_published_tetrahedron_holds_10 (void **state)
{
  Body body = tetrahedron ();
  BwSolidMass mass = mass_of (&body);
  assert_near (mass.volume, 10, 1e-14);
  assert_centre (mass.centroid, bw_vec3 (1.25, 1, 0.75), 1e-14);
}

/* 2.536151 by his program; (5/12)(3 + √5) a³ with the edge a = 1/sin(2π/5) by the closed form. */
static void
the_published_icosahedron_holds_2_536151 (void **state)
{
  Body body = icosahedron ();
  BwSolidMass mass = mass_of (&body);
  double a = 1 / sin (2 * G_PI / 5);
  assert_near (mass.volume, 2.536151, 5e-7);
  assert_near (mass.volume, 5.0 / 12 * (3 + sqrt (5)) * a * a * a, 1e-14);
  assert_near (mass.area, 5 * sqrt (3) * a * a, 1e-14);
  assert_centre (mass.centroid, bw_vec3 (0, 0, 0), 1e-14);
}

static void
where_a_body_stands_changes_nothing_but_its_centre (void **state)
{
  const BwVec3 far = { 1e6, -2e6, 3e6 };
  Body near_body = tetrahedron (), body = near_body;
  shift (&body, far);
  BwSolidMass here = mass_of (&near_body), there = mass_of (&body);
  assert_near (there.volume, here.volume, 1e-12);
  assert_near (there.area, here.area, 1e-12);
  assert_centre (bw_vec3_sub (there.centroid, far), here.centroid, 1e-8);
}

static void
turned_inside_out_the_volume_is_negative (void **state)
{
  Body body = tetrahedron ();
  for (int f = 0; f < 4; f++) {
    int keep = body.index[3 * f];
    body.index[3 * f] = body.index[3 * f + 1];
    body.index[3 * f + 1] = keep;
  }
  assert_near (mass_of (&body).volume, -10, 1e-14);
}

/* An L: the square of side 2 without its upper right quarter, 1 high. */
static void
a_body_with_an_inward_corner_is_summed_as_well (void **state)
{
  static const double outline[6][2]
      = { { 0, 0 }, { 2, 0 }, { 2, 1 }, { 1, 1 }, { 1, 2 }, { 0, 2 } };
  Body body = { .n_vertices = 12, .n_polygons = 8, .size = { 6, 6, 4, 4, 4, 4, 4, 4 } };
  int *index = body.index;
  for (int i = 0; i < 6; i++) {
    body.vertex[i] = bw_vec3 (outline[i][0], outline[i][1], 0);
    body.vertex[6 + i] = bw_vec3 (outline[i][0], outline[i][1], 1);
    index[i] = 5 - i;
    index[6 + i] = 6 + i;
  }
  for (int i = 0; i < 6; i++) {
    int j = (i + 1) % 6, *side = index + 12 + 4 * i;
    side[0] = i, side[1] = j, side[2] = 6 + j, side[3] = 6 + i;
  }
  BwSolidMass mass = mass_of (&body);
  assert_near (mass.volume, 3, 1e-14);
  assert_centre (mass.centroid, bw_vec3 (5.0 / 6, 5.0 / 6, 0.5), 1e-14);
}

static void
a_body_without_a_volume_has_no_centre (void **state)
{
  Body body = cube (20);
  for (int i = 0; i < body.n_vertices; i++)
    body.vertex[i].z = 7;
  BwSolidMass mass = mass_of (&body);
  assert_near (mass.volume, 0, 0);
  assert_false (mass.has_centroid);
  assert_true (isfinite (mass.centroid.x + mass.centroid.y + mass.centroid.z));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_published_cube_holds_8000),
    cmocka_unit_test (the_published_tetrahedron_holds_10),
    cmocka_unit_test (the_published_icosahedron_holds_2_536151),
    cmocka_unit_test (where_a_body_stands_changes_nothing_but_its_centre),
    cmocka_unit_test (turned_inside_out_the_volume_is_negative),
    cmocka_unit_test (a_body_without_a_volume_has_no_centre),
    cmocka_unit_test (a_body_with_an_inward_corner_is_summed_as_well),
  };
  return cmocka_run_group_tests_name ("solid", tests, NULL, NULL);
}
