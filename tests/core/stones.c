/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Outlines are walked edge by edge, the edges at the fixed angles of the faces. */
#include "stones.h"

#include <string.h>

static BwVec2
along (int faces, int i)
{
  double azimuth = 2 * G_PI * i / faces + G_PI / 2;
  return bw_vec2 (cos (azimuth), sin (azimuth));
}

/* Widths that close: opposite ones equal (slender outlines too), or nearly equal ones with the
 * misfit taken out. The latter vary by a fifth at most, of which the misfit can never eat a whole
 * width. */
static void
draw_widths (double *width, GRand *rand, int faces, gboolean opposite_equal)
{
  BwVec2 misfit = { 0, 0 };
  for (int i = 0; i < faces; i++) {
    width[i] = opposite_equal ? g_rand_double_range (rand, 0.3, 3)
                              : g_rand_double_range (rand, 0.8, 1.2);
    if (opposite_equal && i >= faces / 2)
      width[i] = width[i - faces / 2];
    misfit = bw_vec2_add (misfit, bw_vec2_scale (along (faces, i), width[i]));
  }
  for (int i = 0; i < faces; i++)
    width[i] -= 2.0 / faces * bw_vec2_dot (misfit, along (faces, i));
}

static BwVec2
centroid (const BwVec2 *corner, int n)
{
  BwVec2 sum = { 0, 0 };
  double area = 0;
  for (int i = 0; i < n; i++) {
    BwVec2 a = corner[i], b = corner[(i + 1) % n];
    double twice = bw_vec2_cross (a, b);
    area += twice / 2;
    sum = bw_vec2_add (sum, bw_vec2_scale (bw_vec2_add (a, b), twice / 6));
  }
  return bw_vec2_scale (sum, 1 / area);
}

static void
draw_outline (DrawnStone *drawn, GRand *rand, int faces, gboolean opposite_equal)
{
  double width[BW_FACES_MAX], size = g_rand_double_range (rand, 10, 60) / faces;
  BwVec2 at = { 0, 0 };
  draw_widths (width, rand, faces, opposite_equal);
  for (int i = 0; i < faces; i++) {
    at = bw_vec2_add (at, bw_vec2_scale (along (faces, i), size * width[i]));
    drawn->corner[i] = at;
  }
  BwVec2 middle = centroid (drawn->corner, faces);
  for (int i = 0; i < faces; i++)
    drawn->corner[i] = bw_vec2_sub (drawn->corner[i], middle);
}

static void
draw_regular (DrawnStone *drawn, GRand *rand, int faces)
{
  double radius = g_rand_double_range (rand, 2, 20);
  for (int i = 0; i < faces; i++) {
    double azimuth = 2 * G_PI * (i + 0.5) / faces;
    drawn->corner[i] = bw_vec2 (radius * cos (azimuth), radius * sin (azimuth));
  }
}

static double
edge_length (const BwVec2 *corner, int n, int i)
{
  return bw_vec2_length (bw_vec2_sub (corner[i], corner[(i + n - 1) % n]));
}

/* The outline's extent at right angles to face i: what a calliper across it reads. */
static double
calliper (const BwVec2 *corner, int n, int i)
{
  BwVec2 normal = bw_vec2 (cos (2 * G_PI * i / n), sin (2 * G_PI * i / n));
  double lo = G_MAXDOUBLE, hi = -G_MAXDOUBLE;
  for (int j = 0; j < n; j++) {
    lo = MIN (lo, bw_vec2_dot (corner[j], normal));
    hi = MAX (hi, bw_vec2_dot (corner[j], normal));
  }
  return hi - lo;
}

static double
perimeter (const BwVec2 *corner, int n)
{
  double sum = 0;
  for (int i = 0; i < n; i++)
    sum += edge_length (corner, n, i);
  return sum;
}

static void
measure_outline (DrawnStone *drawn)
{
  BwStoneMeasures *m = &drawn->measures;
  for (int i = 0; i < m->faces; i++) {
    if (m->measured == BW_MEASURED_FACE_WIDTHS)
      m->values_mm[i] = edge_length (drawn->corner, m->faces, i);
    else if (m->measured == BW_MEASURED_ACROSS_FLATS && i < m->faces / 2)
      m->values_mm[i] = calliper (drawn->corner, m->faces, i);
  }
  if (m->measured == BW_MEASURED_GIRTH)
    m->values_mm[0] = perimeter (drawn->corner, m->faces);
}

/* A taper of at most 0.4 over the whole length, so that the prism vanishes nowhere on the stone. */
static void
draw_taper (DrawnStone *drawn, GRand *rand, double low, double high)
{
  BwStoneMeasures *m = &drawn->measures;
  m->at_mm = g_rand_double_range (rand, low, low + (high - low) * 0.4);
  m->has_second = g_rand_boolean (rand);
  if (!m->has_second)
    return;
  drawn->taper_per_mm = g_rand_double_range (rand, -0.4, 0.4) / m->length_mm;
  m->second_at_mm = g_rand_double_range (rand, low + (high - low) * 0.6, high);
  m->second_girth_mm = perimeter (drawn->corner, m->faces)
                       * (1 + drawn->taper_per_mm * (m->second_at_mm - m->at_mm));
}

/* A tip over the prism as it would be at height z: between two of its corners, drawn in a little.
 */
static void
draw_apex (const DrawnStone *drawn, GRand *rand, double z, double offset[2])
{
  int n = drawn->measures.faces;
  BwVec2 a = drawn->corner[g_rand_int_range (rand, 0, n)];
  BwVec2 b = drawn->corner[g_rand_int_range (rand, 0, n)];
  double scale = 1 + drawn->taper_per_mm * (z - drawn->measures.at_mm);
  double share = g_rand_double (rand), in = g_rand_double_range (rand, 0, 0.9);
  BwVec2 at = bw_vec2_add (bw_vec2_scale (a, share), bw_vec2_scale (b, 1 - share));
  offset[0] = at.x * scale * in;
  offset[1] = at.y * scale * in;
}

static void
draw_ends (DrawnStone *drawn, GRand *rand)
{
  BwStoneMeasures *m = &drawn->measures;
  m->length_mm = g_rand_double_range (rand, 20, 120);
  m->has_shoulder = TRUE;
  m->shoulder_mm = m->length_mm * g_rand_double_range (rand, 0.55, 0.95);
  m->base = g_rand_boolean (rand) ? BW_BASE_POINT : BW_BASE_FLAT;
  m->has_base_shoulder = m->base == BW_BASE_POINT && g_rand_boolean (rand);
  m->base_shoulder_mm = m->length_mm * g_rand_double_range (rand, 0.05, 0.4);
  double low = m->base == BW_BASE_FLAT ? 0
               : m->has_base_shoulder  ? m->base_shoulder_mm
                                       : m->length_mm - m->shoulder_mm;
  draw_taper (drawn, rand, low, m->shoulder_mm);
  draw_apex (drawn, rand, m->length_mm, m->apex_offset_mm);
  draw_apex (drawn, rand, 0, m->base_apex_offset_mm);
}

void
draw_stone_of (DrawnStone *drawn, GRand *rand, int faces, BwMeasured measured)
{
  memset (drawn, 0, sizeof *drawn);
  drawn->measures.faces = faces;
  drawn->measures.measured = measured;
  drawn->measures.girth_sd_mm = 0.4;
  drawn->measures.density_g_cm3 = g_rand_double_range (rand, 2, 4);
  if (measured == BW_MEASURED_GIRTH)
    draw_regular (drawn, rand, faces);
  else
    draw_outline (drawn, rand, faces, measured == BW_MEASURED_ACROSS_FLATS);
  measure_outline (drawn);
  draw_ends (drawn, rand);
}

void
draw_stone (DrawnStone *drawn, GRand *rand)
{
  gboolean few = g_rand_int_range (rand, 0, 4) > 0;
  int faces = g_rand_int_range (rand, BW_FACES_MIN, few ? 13 : BW_FACES_MAX + 1);
  BwMeasured measured = g_rand_int_range (rand, 0, 3);
  if (measured == BW_MEASURED_ACROSS_FLATS && faces % 2)
    faces++;
  draw_stone_of (drawn, rand, faces, measured);
}

BwStoneMeasures
bench_stone (void)
{
  return (BwStoneMeasures){ .faces = 6,
                            .measured = BW_MEASURED_ACROSS_FLATS,
                            .values_mm = { 24.6, 23.9, 25.2 },
                            .at_mm = 12,
                            .has_second = TRUE,
                            .second_girth_mm = 83.9,
                            .second_at_mm = 34,
                            .length_mm = 58,
                            .has_shoulder = TRUE,
                            .shoulder_mm = 41,
                            .apex_offset_mm = { 0.8, -0.4 },
                            .girth_sd_mm = 0.4,
                            .density_g_cm3 = 2.65 };
}

BwDesign
bench_design (void)
{
  BwDesign design;
  bw_design_defaults (&design);
  design.stone = bench_stone ();
  design.bead = bw_bead_sizes (&(int){ 0 })[1];
  design.gauge = (BwGauge){ .column_mm = 1.3, .pitch_mm = 1.6 };
  design.pitch = bw_gauge_pitch (&design.gauge, NULL, 0);
  design.band = (BwBand){ .columns = 14, .rows = 114, .bottom_mm = 14.2, .seam_deg = 180 };
  design.bail.style = BW_BAIL_FLAP;
  return design;
}

BwStone
solved (const BwStoneMeasures *measures)
{
  BwStone stone = { 0 };
  BwFault fault = NO_FAULT;
  if (!bw_stone_init (&stone, measures, &fault))
    fail_msg ("a possible stone was refused: fault %d at key %d", fault.kind, fault.key);
  return stone;
}

void
near_at (double a, double b, double tolerance, const char *what, const char *file, int line)
{
  if (fabs (a - b) <= tolerance * MAX (1.0, fabs (b)))
    return;
  print_error ("%s is %.15g, expected %.15g within %g\n", what, a, b, tolerance);
  _fail (file, line);
}

void
fault_at (BwFault *fault, BwFaultKind kind, BwFaultKey key, int index, const char *file, int line)
{
  if (fault->kind != kind || fault->key != key || fault->index != index) {
    print_error ("expected fault %d at key %d[%d], found %d at %d[%d]\n", kind, key, index,
                 fault->kind, fault->key, fault->index);
    _fail (file, line);
  }
  *fault = (BwFault)NO_FAULT;
}
