/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The curve of the bead centres against the offset curves of GEOS, the geometry engine of the OGC
 * simple features (ISO 19125-1:2004, operation "buffer"), with 512 chords to the quarter circle:
 * its arcs are short by 4 parts in ten million.
 *
 * Steiner's formulas for a parallel body of a convex K: L(K_r) = L + 2πr, A(K_r) = A + Lr + πr²
 * (P. M. Gruber, Convex and Discrete Geometry, Springer 2007, §6). */
#include "stones.h"

#include "core/band/ring.h"
#include "core/stone/section.h"
#include <geos_c.h>

#define N_SECTIONS 600
#define CHORDS_PER_QUARTER 2048

static void
complain (const char *message, void *data)
{
  print_error ("GEOS: %s\n", message);
}

static int
open_geos (void **state)
{
  GEOSContextHandle_t geos = GEOS_init_r ();
  GEOSContext_setErrorMessageHandler_r (geos, complain, NULL);
  *state = geos;
  return geos ? 0 : -1;
}

static int
close_geos (void **state)
{
  GEOS_finish_r (*state);
  return 0;
}

static GEOSGeometry *
polygon_of (GEOSContextHandle_t geos, const BwSection *section)
{
  unsigned int n = (unsigned int)section->edges;
  GEOSCoordSequence *points = GEOSCoordSeq_create_r (geos, n + 1, 2);
  for (unsigned int i = 0; i <= n; i++)
    GEOSCoordSeq_setXY_r (geos, points, i, section->corner[i % n].x, section->corner[i % n].y);
  return GEOSGeom_createPolygon_r (geos, GEOSGeom_createLinearRing_r (geos, points), NULL, 0);
}

static GEOSGeometry *
offset_of (GEOSContextHandle_t geos, const GEOSGeometry *polygon, double distance)
{
  GEOSBufferParams *params = GEOSBufferParams_create_r (geos);
  GEOSBufferParams_setJoinStyle_r (geos, params, GEOSBUF_JOIN_ROUND);
  GEOSBufferParams_setQuadrantSegments_r (geos, params, CHORDS_PER_QUARTER);
  GEOSGeometry *offset = GEOSBufferWithParams_r (geos, polygon, params, distance);
  GEOSBufferParams_destroy_r (geos, params);
  assert_non_null (offset);
  return offset;
}

static double
length_of (GEOSContextHandle_t geos, const GEOSGeometry *geometry)
{
  double length = 0;
  assert_int_equal (GEOSLength_r (geos, geometry, &length), 1);
  return length;
}

static double
area_of (GEOSContextHandle_t geos, const GEOSGeometry *geometry)
{
  double area = 0;
  assert_int_equal (GEOSArea_r (geos, geometry, &area), 1);
  return area;
}

static double
distance_to (GEOSContextHandle_t geos, const GEOSGeometry *geometry, BwVec2 at)
{
  double distance = -1;
  GEOSGeometry *point = GEOSGeom_createPointFromXY_r (geos, at.x, at.y);
  assert_int_equal (GEOSDistance_r (geos, geometry, point, &distance), 1);
  GEOSGeom_destroy_r (geos, point);
  return distance;
}

/* A section anywhere on a random stone, not so near a tip that it is nothing. */
static void
draw_section (BwSection *section, GRand *rand)
{
  DrawnStone drawn;
  draw_stone (&drawn, rand);
  BwStone stone = solved (&drawn.measures);
  bw_section_init (section, &stone, g_rand_double_range (rand, 0.05, 0.95) * stone.length_mm);
}

static void
girth_and_area_of_a_section_are_the_polygons (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (2011);
  for (int k = 0; k < N_SECTIONS; k++) {
    BwSection section;
    draw_section (&section, rand);
    GEOSGeometry *polygon = polygon_of (*state, &section);
    assert_near (section.girth_mm, length_of (*state, polygon), 1e-11);
    assert_near (bw_section_area_mm2 (&section), area_of (*state, polygon), 1e-11);
    GEOSGeometry *middle = GEOSGetCentroid_r (*state, polygon);
    double x = 0, y = 0;
    assert_true (GEOSGeomGetX_r (*state, middle, &x) && GEOSGeomGetY_r (*state, middle, &y));
    assert_near (bw_section_centroid (&section).x, x, 1e-9);
    assert_near (bw_section_centroid (&section).y, y, 1e-9);
    GEOSGeom_destroy_r (*state, middle);
    GEOSGeom_destroy_r (*state, polygon);
  }
}

static void
the_ring_is_as_long_as_the_offset_curve (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (2012);
  for (int k = 0; k < N_SECTIONS; k++) {
    BwSection section;
    BwRing ring;
    draw_section (&section, rand);
    double rho = g_rand_double_range (rand, 0.5, 5), area = bw_section_area_mm2 (&section);
    bw_ring_init (&ring, &section, rho);
    GEOSGeometry *polygon = polygon_of (*state, &section);
    GEOSGeometry *offset = offset_of (*state, polygon, rho);
    assert_near (ring.length_mm, length_of (*state, offset), 1e-6);
    assert_near (area + section.girth_mm * rho + G_PI * rho * rho, area_of (*state, offset), 1e-6);
    GEOSGeom_destroy_r (*state, offset);
    GEOSGeom_destroy_r (*state, polygon);
  }
}

/* Each point of the ring stands off the section by exactly ρ, and its foot touches the section: by
 * GEOS's distance, which knows nothing of faces and arcs. */
static void
every_bead_centre_stands_off_by_its_distance (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (2013);
  for (int k = 0; k < N_SECTIONS; k++) {
    BwSection section;
    BwRing ring;
    draw_section (&section, rand);
    double rho = g_rand_double_range (rand, 0.5, 5);
    bw_ring_init (&ring, &section, rho);
    GEOSGeometry *polygon = polygon_of (*state, &section);
    GEOSGeometry *edge = GEOSBoundary_r (*state, polygon);
    for (int j = 0; j < 20; j++) {
      BwRingPoint point = bw_ring_point (&ring, g_rand_double (rand) * ring.length_mm);
      assert_near (distance_to (*state, polygon, point.at), rho, 1e-9);
      assert_near (distance_to (*state, edge, point.foot), 0, 1e-9);
    }
    GEOSGeom_destroy_r (*state, edge);
    GEOSGeom_destroy_r (*state, polygon);
  }
}

/* The regular hexagon of inradius 5: L = 34.641016 and A = 86.602540 grow at r = 1 to 40.924201 and
 * 124.385149, which both the formulas and GEOS must give. */
static void
the_worked_hexagon_comes_out_of_both (void **state)
{
  BwStoneMeasures m = bench_stone ();
  m.values_mm[0] = m.values_mm[1] = m.values_mm[2] = 10;
  m.has_second = FALSE;
  BwStone stone = solved (&m);
  BwSection section;
  BwRing ring;
  bw_section_init (&section, &stone, 20);
  bw_ring_init (&ring, &section, 1);
  GEOSGeometry *polygon = polygon_of (*state, &section);
  GEOSGeometry *offset = offset_of (*state, polygon, 1);
  assert_near (ring.length_mm, 40.924201, 2e-8);
  assert_near (length_of (*state, offset), 40.924201, 1e-6);
  assert_near (area_of (*state, offset), 124.385149, 1e-6);
  GEOSGeom_destroy_r (*state, offset);
  GEOSGeom_destroy_r (*state, polygon);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (girth_and_area_of_a_section_are_the_polygons),
    cmocka_unit_test (the_ring_is_as_long_as_the_offset_curve),
    cmocka_unit_test (every_bead_centre_stands_off_by_its_distance),
    cmocka_unit_test (the_worked_hexagon_comes_out_of_both),
  };
  return cmocka_run_group_tests_name ("geos", tests, open_geos, close_geos);
}
