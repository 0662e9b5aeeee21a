/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The piece at rest, found another way: the body is broken up into small weights and turned, by the
 * minimisers of the GNU Scientific Library (M. Galassi et al., GNU Scientific Library Reference
 * Manual, 3rd ed., chapters "One Dimensional Minimization" and "Multidimensional Minimization"),
 * until its balance point lies as low as it can. The program instead writes the angle down. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_min.h>
#include <gsl/gsl_multimin.h>
#include "core/bail/hang.h"
#include "core/band/ring.h"
#include "core/stone/section.h"

typedef struct {
  double mass;
  BwVec3 moment;
} Heap;

static void
put (Heap *heap, double mass, BwVec3 at)
{
  heap->mass += mass;
  heap->moment = bw_vec3_add (heap->moment, bw_vec3_scale (at, mass));
}

/* The stone as tetrahedra over its polygons, each weighing at the mean of its corners. */
static void
put_stone (Heap *heap, const BwStone *stone, double density_g_cm3)
{
  BwVec3 inside = bw_vec3 (0, 0, stone->at_mm);
  for (int f = 0; f < stone->n_polygons; f++) {
    int v[BW_FACES_MAX], n = bw_stone_polygon (stone, f, v, NULL, NULL);
    for (int i = 1; i + 1 < n; i++) {
      BwVec3 a = stone->vertex[v[0]], b = stone->vertex[v[i]], c = stone->vertex[v[i + 1]];
      BwVec3 cross = bw_vec3_cross (bw_vec3_sub (b, a), bw_vec3_sub (c, a));
      double volume = bw_vec3_dot (bw_vec3_sub (a, inside), cross) / 6;
      BwVec3 sum = bw_vec3_add (bw_vec3_add (a, b), bw_vec3_add (c, inside));
      put (heap, volume * density_g_cm3 / 1000, bw_vec3_scale (sum, 0.25));
    }
  }
}

/* The bail as a thousand short pieces of its arc. */
static void
put_bail (Heap *heap, const BwDesign *d, const BwLoop *loop, BwVec2 foot, double z)
{
  double azimuth = bw_radians (d->bail.at_deg), phi = loop->half_angle, r = loop->radius_mm;
  double glass = d->bead.glass_g_cm3 / 1000;
  double bead = glass * G_PI / 4 * d->bead.length_mm
                * (d->bead.diameter_mm * d->bead.diameter_mm - d->bead.hole_mm * d->bead.hole_mm);
  double mass = bead * d->bail.rows * d->bail.columns / 2, pieces = 1000;
  gboolean upright = d->bail.style == BW_BAIL_UPRIGHT;
  for (int i = 0; i < pieces; i++) {
    double t = phi * (2 * (i + 0.5) / pieces - 1);
    double out = r * (cos (t) - cos (phi)), along = r * sin (t);
    BwVec3 at = bw_vec3 (foot.x + out * cos (azimuth), foot.y + out * sin (azimuth), z);
    at.x -= upright ? 0 : along * sin (azimuth);
    at.y += upright ? 0 : along * cos (azimuth);
    at.z += upright ? along : 0;
    put (heap, mass / pieces, at);
  }
}

/* A loop over the tip: half of the ring away from its foot the ring is walked back to, by arc
 * length of the curve at the middle of the band, and the arc stands over the way between, in
 * pieces. */
static BwVec3
put_over (Heap *heap, const BwDesign *d, const BwStone *stone)
{
  BwSection section;
  BwRing middle, edge;
  BwVec2 foot[2];
  double rho = d->bed.layers * d->bed.cord_thickness_mm + d->bead.diameter_mm / 2;
  double width = d->band.columns * d->gauge.column_mm, top = d->band.bottom_mm + width;
  bw_section_init (&section, stone, top - width / 2);
  bw_ring_init (&middle, &section, rho);
  bw_section_init (&section, stone, top - d->gauge.column_mm / 2);
  bw_ring_init (&edge, &section, rho);
  double at = bw_ring_ray (&middle, bw_radians (d->bail.at_deg));
  double apart = fmin (d->bail.base_beads / (d->band.rows / 2.0), 0.5) * middle.length_mm;
  for (int i = 0; i < 2; i++)
    foot[i]
        = bw_ring_point (
              &edge, bw_ring_ray (&edge, bw_ring_azimuth (&middle, at + (i ? apart : -apart) / 2)))
              .at;
  double base = hypot (foot[1].x - foot[0].x, foot[1].y - foot[0].y);
  double length = (d->bail.rows + 1) * d->gauge.pitch_mm / 2, low = 1e-9, high = G_PI;
  for (int i = 0; i < 100; i++) {
    double phi = (low + high) / 2;
    *(length * sin (phi) > base * phi ? &low : &high) = phi;
  }
  double r = length / (2 * low), pieces = 1000;
  double mass = bw_bead_mass_g (&d->bead) * d->bail.rows * d->bail.columns / 2;
  BwVec2 mid = bw_vec2_scale (bw_vec2_add (foot[0], foot[1]), 0.5);
  for (int i = 0; i < pieces; i++) {
    double t = low * (2 * (i + 0.5) / pieces - 1), along = r * sin (t) / base;
    put (heap, mass / pieces,
         bw_vec3 (mid.x + along * (foot[1].x - foot[0].x), mid.y + along * (foot[1].y - foot[0].y),
                  top + r * (cos (t) - cos (low))));
  }
  return bw_vec3 (mid.x, mid.y, top + r * (1 - cos (low)) - d->bead.diameter_mm / 2);
}

typedef struct {
  BwVec3 balance; /* the heap's centre */
  BwVec3 crest;   /* where the cord bears */
  BwVec2 outward;
  double half_width; /* of a flap, 0 for the others */
} Body;

static void
build (Body *body, const BwDesign *d, const BwStone *stone)
{
  Heap heap = { 0 };
  BwSection section;
  BwRing ring;
  BwLoop loop;
  double z = d->band.bottom_mm + d->band.columns * d->gauge.column_mm / 2;
  double azimuth = bw_radians (d->bail.at_deg);
  bw_section_init (&section, stone, z);
  bw_ring_init (&ring, &section,
                d->bed.layers * d->bed.cord_thickness_mm + d->bead.diameter_mm / 2);
  BwVec2 foot = bw_ring_point (&ring, bw_ring_ray (&ring, azimuth)).at;
  put_stone (&heap, stone, d->stone.density_g_cm3);
  put (&heap, bw_bead_mass_g (&d->bead) * d->band.rows * d->band.columns / 2, bw_vec3 (0, 0, z));
  put (&heap, bw_bed_mass_g (&d->bed, stone, bw_design_span (d)), bw_vec3 (0, 0, z));
  if (d->bail.style == BW_BAIL_OVER) {
    body->crest = put_over (&heap, d, stone);
    body->balance = bw_vec3_scale (heap.moment, 1 / heap.mass);
    body->outward = bw_vec2 (cos (azimuth), sin (azimuth));
    body->half_width = 0;
    return;
  }
  assert_true (bw_loop_init (&loop, &d->bail, &d->bead, &d->gauge, NULL));
  put_bail (&heap, d, &loop, foot, z);
  double out = loop.radius_mm * (1 - cos (loop.half_angle)) - d->bead.diameter_mm / 2;
  body->balance = bw_vec3_scale (heap.moment, 1 / heap.mass);
  body->outward = bw_vec2 (cos (azimuth), sin (azimuth));
  body->crest = bw_vec3 (foot.x + out * cos (azimuth), foot.y + out * sin (azimuth), z);
  body->half_width = d->bail.style == BW_BAIL_FLAP ? d->bail.columns * d->gauge.column_mm / 2 : 0;
}

/* Height of the balance point over the cord when `up` is the way up in the body: of the crest's
 * line the lowest point lies on the cord. */
static double
height (const Body *body, BwVec3 up)
{
  BwVec3 from_crest = bw_vec3_sub (body->balance, body->crest);
  return bw_vec3_dot (from_crest, up) + body->half_width * fabs (up.z);
}

static BwVec3
up_at (double polar, double azimuth)
{
  return bw_vec3 (sin (polar) * cos (azimuth), sin (polar) * sin (azimuth), cos (polar));
}

static double
height_any_way (const gsl_vector *x, void *body)
{
  return height (body, up_at (gsl_vector_get (x, 0), gsl_vector_get (x, 1)));
}

/* The way up, as an angle from the tip, that a free pivot comes to. */
static double
settle_free (const Body *body)
{
  gsl_multimin_function energy = { height_any_way, 2, (void *)body };
  gsl_multimin_fminimizer *simplex
      = gsl_multimin_fminimizer_alloc (gsl_multimin_fminimizer_nmsimplex2, 2);
  gsl_vector *x = gsl_vector_alloc (2), *step = gsl_vector_alloc (2);
  gsl_vector_set (x, 0, G_PI / 2);
  gsl_vector_set (x, 1, atan2 (body->outward.y, body->outward.x));
  gsl_vector_set_all (step, 0.3);
  gsl_multimin_fminimizer_set (simplex, &energy, x, step);
  for (int i = 0; i < 2000; i++)
    if (gsl_multimin_fminimizer_iterate (simplex) != GSL_SUCCESS
        || gsl_multimin_test_size (gsl_multimin_fminimizer_size (simplex), 1e-11) == GSL_SUCCESS)
      break;
  double z = up_at (gsl_vector_get (simplex->x, 0), 0).z;
  gsl_multimin_fminimizer_free (simplex);
  gsl_vector_free (x);
  gsl_vector_free (step);
  return bw_degrees (acos (z));
}

static double
height_in_plane (double polar, void *data)
{
  const Body *body = data;
  return height (
      body, bw_vec3 (sin (polar) * body->outward.x, sin (polar) * body->outward.y, cos (polar)));
}

/* A flap swings in the plane of its cord and the plumb line. */
static double
settle_flat (const Body *body)
{
  gsl_function energy = { height_in_plane, (void *)body };
  gsl_min_fminimizer *golden = gsl_min_fminimizer_alloc (gsl_min_fminimizer_goldensection);
  double low = 0.01, high = G_PI - 0.01, best = low;
  for (double polar = low; polar < high; polar += 0.01)
    if (height_in_plane (polar, (void *)body) < height_in_plane (best, (void *)body))
      best = polar;
  gsl_min_fminimizer_set (golden, &energy, best, best - 0.02, best + 0.02);
  for (int i = 0; i < 200; i++)
    if (gsl_min_fminimizer_iterate (golden) != GSL_SUCCESS)
      break;
  double polar = gsl_min_fminimizer_x_minimum (golden);
  gsl_min_fminimizer_free (golden);
  return bw_degrees (polar);
}

static void
random_design (BwDesign *d, BwStone *stone, BwBailStyle style, GRand *dice)
{
  do {
    bw_design_defaults (d);
    d->stone.faces = 6;
    d->stone.measured = BW_MEASURED_ACROSS_FLATS;
    for (int i = 0; i < 3; i++)
      d->stone.values_mm[i] = g_rand_double_range (dice, 18, 28);
    d->stone.at_mm = 12;
    d->stone.has_second = TRUE;
    d->stone.second_girth_mm = g_rand_double_range (dice, 60, 85);
    d->stone.second_at_mm = 30;
    d->stone.length_mm = g_rand_double_range (dice, 50, 70);
    d->stone.has_shoulder = TRUE;
    d->stone.shoulder_mm = 38;
    d->stone.apex_offset_mm[0] = g_rand_double_range (dice, -3, 3);
    d->stone.apex_offset_mm[1] = g_rand_double_range (dice, -3, 3);
    d->bead = (BwBead){ "", 1.6, 1.3, 0.8, 2.5 };
    d->gauge = (BwGauge){ .column_mm = 1.3, .pitch_mm = 1.6 };
    d->pitch = (BwPitch){ 1.6, 0.03 };
    d->bed.layers = g_rand_int_range (dice, 0, 4);
    d->band = (BwBand){ 12, 100, g_rand_double_range (dice, 0, 40), 180 };
    d->bail.style = style;
    d->bail.columns = 2 * g_rand_int_range (dice, 1, 6);
    d->bail.rows = g_rand_int_range (dice, 10, 40);
    d->bail.at_deg = g_rand_double_range (dice, 0, 360);
    if (style == BW_BAIL_OVER) {
      d->bail.rows = g_rand_int_range (dice, 60, 130);
      d->bail.base_beads = g_rand_int_range (dice, 20, 60) / 2.0;
    }
  } while (!bw_design_validate (d, stone, NULL));
}

static void
compare (BwBailStyle style, guint32 seed)
{
  GRand *dice = g_rand_new_with_seed (seed);
  int tip = 0, base = 0, level = 0;
  for (int i = 0; i < 300; i++) {
    BwDesign design;
    BwStone stone;
    Body body;
    BwHang hang;
    random_design (&design, &stone, style, dice);
    build (&body, &design, &stone);
    assert_true (bw_hang_init (&hang, &design, &stone, NULL));
    double from_up = style == BW_BAIL_FLAP ? settle_flat (&body) : settle_free (&body);
    double told = hang.up == BW_UP_BASE ? 180 - hang.tilt_deg : hang.tilt_deg;
    if (!(fabs (from_up - told) < 1e-3))
      fail_msg ("the minimum lies at %.6f°, told is %.6f°", from_up, told);
    tip += hang.up == BW_UP_TIP;
    base += hang.up == BW_UP_BASE;
    level += hang.up == BW_UP_LEVEL;
  }
  /* Held from above the upper edge a stone can hardly come to hang tip down. */
  assert_true (tip > 20 && (base > 20 || style == BW_BAIL_OVER));
  assert_true (style != BW_BAIL_FLAP || level > 20);
  g_rand_free (dice);
}

static void
a_ring_settles_where_the_balance_point_is_lowest (void **state)
{
  compare (BW_BAIL_RING, 31);
}

static void
an_upright_strip_settles_where_the_balance_point_is_lowest (void **state)
{
  compare (BW_BAIL_UPRIGHT, 32);
}

static void
a_flap_settles_where_the_balance_point_is_lowest (void **state)
{
  compare (BW_BAIL_FLAP, 33);
}

static void
a_loop_over_the_tip_settles_where_the_balance_point_is_lowest (void **state)
{
  compare (BW_BAIL_OVER, 34);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_ring_settles_where_the_balance_point_is_lowest),
    cmocka_unit_test (an_upright_strip_settles_where_the_balance_point_is_lowest),
    cmocka_unit_test (a_loop_over_the_tip_settles_where_the_balance_point_is_lowest),
    cmocka_unit_test (a_flap_settles_where_the_balance_point_is_lowest),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
