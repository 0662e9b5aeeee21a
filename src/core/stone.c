/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From bench measurements to the stone. The prism's section is solved first, then taper, point and
 * base; every step names the measurement that makes it impossible.
 *
 * Each point face holds the horizontal line where its prism face meets the shoulder and the apex,
 * so every section of the point is the shoulder's section drawn together towards the apex: the
 * polyhedron's corners can be written down, nothing needs clipping. */
#include "config.h"
#include "stone.h"

#include "fault.h"
#include "solid.h"
#include <glib/gi18n-lib.h>
#include <string.h>

#define CLOSING_ERROR_LIMIT 0.02 /* of the girth */

int
bw_stone_value_count (BwMeasured measured, int faces)
{
  switch (measured) {
  case BW_MEASURED_ACROSS_FLATS:
    return faces % 2 ? 0 : faces / 2;
  case BW_MEASURED_FACE_WIDTHS:
    return faces;
  case BW_MEASURED_GIRTH:
  default:
    return 1;
  }
}

BwVec2
bw_stone_normal (int faces, int i)
{
  double azimuth = 2 * G_PI * i / faces;
  return bw_vec2 (cos (azimuth), sin (azimuth));
}

double
bw_stone_prism_scale (const BwStone *stone, double z_mm)
{
  return 1 + stone->taper_per_mm * (z_mm - stone->at_mm);
}

/* --- ranges --------------------------------------------------------------------------------- */

static gboolean
check_values (const BwStoneMeasures *m, GError **error)
{
  for (int i = 0; i < bw_stone_value_count (m->measured, m->faces); i++) {
    char pointer[40];
    g_snprintf (pointer, sizeof pointer, "/stone/values_mm/%d", i);
    /* A girth may be as long as a stone of the greatest width has it. */
    if (!bw_fault_check_range (m->values_mm[i], 0.1, 4 * BW_LENGTH_MAX_MM, pointer, error))
      return FALSE;
  }
  return TRUE;
}

static gboolean
check_faces (const BwStoneMeasures *m, GError **error)
{
  if (!bw_fault_check_range (m->faces, BW_FACES_MIN, BW_FACES_MAX, "/stone/faces", error))
    return FALSE;
  if (m->measured != BW_MEASURED_ACROSS_FLATS || m->faces % 2 == 0)
    return TRUE;
  bw_fault_set (error, BW_FAULT_GEOMETRY, "/stone/measured",
                _ ("A stone of %d faces has no opposite faces to measure across: measure its face "
                   "widths or its girth."),
                m->faces);
  return FALSE;
}

static gboolean
check_second (const BwStoneMeasures *m, GError **error)
{
  if (!m->has_second)
    return TRUE;
  if (!bw_fault_check_range (m->second_girth_mm, 0.1, 4 * BW_LENGTH_MAX_MM,
                             "/stone/second_girth_mm", error)
      || !bw_fault_check_range (m->second_at_mm, 0, BW_LENGTH_MAX_MM, "/stone/second_at_mm", error))
    return FALSE;
  if (fabs (m->second_at_mm - m->at_mm) >= 0.1)
    return TRUE;
  bw_fault_set (error, BW_FAULT_GEOMETRY, "/stone/second_at_mm",
                _ ("The second girth at %g mm must be taken at another height than the first at "
                   "%g mm."),
                m->second_at_mm, m->at_mm);
  return FALSE;
}

static gboolean
check_offset (const double offset[2], const char *pointer, GError **error)
{
  for (int i = 0; i < 2; i++) {
    g_autofree char *full = g_strdup_printf ("%s/%d", pointer, i);
    if (!bw_fault_check_range (offset[i], -BW_LENGTH_MAX_MM, BW_LENGTH_MAX_MM, full, error))
      return FALSE;
  }
  return TRUE;
}

static gboolean
check_point (const BwStoneMeasures *m, GError **error)
{
  if (!m->has_shoulder && !m->has_natural_angle) {
    bw_fault_set (error, BW_FAULT_MISSING, "/stone/shoulder_mm",
                  _ ("Neither a shoulder height nor a natural angle was found; one of them is "
                     "needed."));
    return FALSE;
  }
  if (m->has_shoulder
      && !bw_fault_check_range (m->shoulder_mm, 0, BW_LENGTH_MAX_MM, "/stone/shoulder_mm", error))
    return FALSE;
  return !m->has_natural_angle
         || bw_fault_check_range (m->natural_angle_deg, 1, 89, "/stone/natural_angle_deg", error);
}

static gboolean
check_ranges (const BwStoneMeasures *m, GError **error)
{
  return check_faces (m, error) && check_values (m, error)
         && bw_fault_check_range (m->at_mm, 0, BW_LENGTH_MAX_MM, "/stone/at_mm", error)
         && bw_fault_check_range (m->length_mm, 0.1, BW_LENGTH_MAX_MM, "/stone/length_mm", error)
         && check_second (m, error) && check_point (m, error)
         && check_offset (m->apex_offset_mm, "/stone/apex_offset_mm", error)
         && check_offset (m->base_apex_offset_mm, "/stone/base_apex_offset_mm", error)
         && (!m->has_base_shoulder
             || bw_fault_check_range (m->base_shoulder_mm, 0, BW_LENGTH_MAX_MM,
                                      "/stone/base_shoulder_mm", error))
         && bw_fault_check_range (m->girth_sd_mm, 0, 100, "/stone/girth_sd_mm", error)
         && bw_fault_check_range (m->density_g_cm3, 0.1, 25, "/stone/density_g_cm3", error);
}

/* --- the section ---------------------------------------------------------------------------- */

/* Corner between faces i and i+1 at distances h_i, h_j from the axis. */
static BwVec2
corner_of (int faces, int i, double hi, double hj)
{
  BwVec2 a = bw_stone_normal (faces, i), b = bw_stone_normal (faces, i + 1);
  double det = bw_vec2_cross (a, b);
  return bw_vec2 ((hi * b.y - hj * a.y) / det, (a.x * hj - b.x * hi) / det);
}

static void
set_across_flats (BwStone *stone, const BwStoneMeasures *m)
{
  for (int i = 0; i < m->faces; i++)
    stone->h_mm[i] = m->values_mm[i % (m->faces / 2)] / 2;
}

/* A regular polygon of this perimeter has inradius P/(2 N tan(π/N)). */
static void
set_girth (BwStone *stone, const BwStoneMeasures *m)
{
  for (int i = 0; i < m->faces; i++)
    stone->h_mm[i] = m->values_mm[0] / (2 * m->faces * tan (G_PI / m->faces));
}

/* The widths must close to a polygon: least-squares correction along the two sums that do not
 * vanish. Then the polygon is laid out and moved so that its area centroid is on the axis. */
static void
correct_widths (BwStone *stone, const BwStoneMeasures *m, double widths[BW_FACES_MAX])
{
  BwVec2 misfit = { 0, 0 };
  for (int i = 0; i < m->faces; i++) {
    BwVec2 n = bw_stone_normal (m->faces, i);
    misfit = bw_vec2_add (misfit, bw_vec2_scale (bw_vec2 (-n.y, n.x), m->values_mm[i]));
  }
  for (int i = 0; i < m->faces; i++) {
    BwVec2 n = bw_stone_normal (m->faces, i);
    widths[i] = m->values_mm[i] - 2.0 / m->faces * bw_vec2_dot (misfit, bw_vec2 (-n.y, n.x));
  }
  stone->closing_error_mm = bw_vec2_length (misfit);
}

static void
area_and_moment (const BwVec2 *corner, int n, double *area, BwVec2 *moment)
{
  *area = 0;
  *moment = bw_vec2 (0, 0);
  for (int i = 0; i < n; i++) {
    BwVec2 a = corner[i], b = corner[(i + 1) % n];
    double twice = bw_vec2_cross (a, b);
    *area += twice / 2;
    *moment = bw_vec2_add (*moment, bw_vec2_scale (bw_vec2_add (a, b), twice / 6));
  }
}

static gboolean
set_face_widths (BwStone *stone, const BwStoneMeasures *m, GError **error)
{
  double widths[BW_FACES_MAX], area;
  BwVec2 corner[BW_FACES_MAX], at = { 0, 0 }, moment;
  correct_widths (stone, m, widths);
  for (int i = 0; i < m->faces; i++) {
    BwVec2 n = bw_stone_normal (m->faces, i);
    if (widths[i] <= 0) {
      char pointer[40];
      g_snprintf (pointer, sizeof pointer, "/stone/values_mm/%d", i);
      bw_fault_set (error, BW_FAULT_GEOMETRY, pointer,
                    _ ("With %g mm the faces do not close to a polygon: face %d vanishes. Measure "
                       "the face widths again."),
                    m->values_mm[i], i + 1);
      return FALSE;
    }
    at = bw_vec2_add (at, bw_vec2_scale (bw_vec2 (-n.y, n.x), widths[i]));
    corner[i] = at;
  }
  area_and_moment (corner, m->faces, &area, &moment);
  for (int i = 0; i < m->faces; i++)
    stone->h_mm[i] = bw_vec2_dot (bw_stone_normal (m->faces, i),
                                  bw_vec2_sub (corner[i], bw_vec2_scale (moment, 1 / area)));
  return TRUE;
}

/* Width of face i: (h_{i−1} + h_{i+1} − 2 h_i cos δ)/sin δ. */
static double
width_of (const BwStone *stone, int i)
{
  double delta = 2 * G_PI / stone->faces;
  double before = stone->h_mm[(i + stone->faces - 1) % stone->faces];
  double after = stone->h_mm[(i + 1) % stone->faces];
  return (before + after - 2 * stone->h_mm[i] * cos (delta)) / sin (delta);
}

static gboolean
check_widths (const BwStone *stone, const BwStoneMeasures *m, GError **error)
{
  for (int i = 0; i < stone->faces; i++) {
    if (width_of (stone, i) > 0)
      continue;
    char pointer[40];
    int value = i % bw_stone_value_count (m->measured, m->faces);
    g_snprintf (pointer, sizeof pointer, "/stone/values_mm/%d", value);
    bw_fault_set (error, BW_FAULT_GEOMETRY, pointer,
                  _ ("With %g mm here face %d vanishes behind its neighbours; measure again."),
                  m->values_mm[value], i + 1);
    return FALSE;
  }
  return TRUE;
}

static gboolean
set_section (BwStone *stone, const BwStoneMeasures *m, GError **error)
{
  if (m->measured == BW_MEASURED_ACROSS_FLATS)
    set_across_flats (stone, m);
  else if (m->measured == BW_MEASURED_GIRTH)
    set_girth (stone, m);
  else if (!set_face_widths (stone, m, error))
    return FALSE;
  if (!check_widths (stone, m, error))
    return FALSE;
  for (int i = 0; i < stone->faces; i++) {
    stone->corner[i]
        = corner_of (stone->faces, i, stone->h_mm[i], stone->h_mm[(i + 1) % stone->faces]);
    stone->girth_mm += width_of (stone, i);
  }
  stone->closing_error_large = stone->closing_error_mm > CLOSING_ERROR_LIMIT * stone->girth_mm;
  return TRUE;
}

/* --- taper, shoulder, base ------------------------------------------------------------------ */

static void
set_taper (BwStone *stone, const BwStoneMeasures *m)
{
  if (m->has_second)
    stone->taper_per_mm = (m->second_girth_mm / stone->girth_mm - 1) / (m->second_at_mm - m->at_mm);
}

/* The height of the shoulder from the natural angle: L − z_s = mean(h)(1 + k(z_s − z1))/tan(angle),
 * linear in z_s. */
static gboolean
natural_shoulder (const BwStone *stone, const BwStoneMeasures *m, double *shoulder)
{
  double mean = 0;
  for (int i = 0; i < stone->faces; i++)
    mean += stone->h_mm[i] / stone->faces;
  double reach = mean / tan (bw_radians (m->natural_angle_deg));
  double factor = 1 + reach * stone->taper_per_mm;
  *shoulder = (stone->length_mm - reach * (1 - stone->taper_per_mm * stone->at_mm)) / factor;
  return factor > 0 && *shoulder > 0;
}

static gboolean
set_shoulder (BwStone *stone, const BwStoneMeasures *m, GError **error)
{
  if (m->has_shoulder) {
    stone->shoulder_mm = m->shoulder_mm;
    if (m->shoulder_mm > 0 && m->shoulder_mm < m->length_mm)
      return TRUE;
    bw_fault_set (error, BW_FAULT_GEOMETRY, "/stone/shoulder_mm",
                  _ ("A shoulder at %g mm does not lie between base and tip (0 to %g mm)."),
                  m->shoulder_mm, m->length_mm);
    return FALSE;
  }
  if (natural_shoulder (stone, m, &stone->shoulder_mm))
    return TRUE;
  bw_fault_set (error, BW_FAULT_GEOMETRY, "/stone/natural_angle_deg",
                _ ("With an angle of %g° the point alone is longer than the stone (%g mm)."),
                m->natural_angle_deg, m->length_mm);
  return FALSE;
}

static gboolean
set_base (BwStone *stone, const BwStoneMeasures *m, GError **error)
{
  stone->base = m->base;
  if (m->base == BW_BASE_FLAT)
    return TRUE;
  stone->base_apex = bw_vec2 (m->base_apex_offset_mm[0], m->base_apex_offset_mm[1]);
  stone->base_shoulder_mm
      = m->has_base_shoulder ? m->base_shoulder_mm : stone->length_mm - stone->shoulder_mm;
  if (stone->base_shoulder_mm > 0 && stone->base_shoulder_mm < stone->shoulder_mm)
    return TRUE;
  bw_fault_set (error, BW_FAULT_GEOMETRY, "/stone/base_shoulder_mm",
                _ ("A base shoulder at %g mm leaves no prism below the shoulder at %g mm."),
                stone->base_shoulder_mm, stone->shoulder_mm);
  return FALSE;
}

static gboolean
check_on_prism (const BwStone *stone, double z, const char *pointer, GError **error)
{
  if (z >= stone->base_shoulder_mm && z <= stone->shoulder_mm)
    return TRUE;
  bw_fault_set (error, BW_FAULT_GEOMETRY, pointer,
                _ ("A height of %g mm is off the prism, which reaches from %g to %g mm."), z,
                stone->base_shoulder_mm, stone->shoulder_mm);
  return FALSE;
}

static gboolean
check_scale (const BwStone *stone, GError **error)
{
  if (bw_stone_prism_scale (stone, stone->base_shoulder_mm) > 0
      && bw_stone_prism_scale (stone, stone->shoulder_mm) > 0)
    return TRUE;
  bw_fault_set (error, BW_FAULT_GEOMETRY, "/stone/second_girth_mm",
                _ ("With this second girth the prism closes to nothing before it ends."));
  return FALSE;
}

/* How much face i of a point leans in, per mm of height, from section scale s at its shoulder. */
static double
lean_of (const BwStone *stone, int i, double scale, BwVec2 apex, double height)
{
  BwVec2 n = bw_stone_normal (stone->faces, i);
  return (stone->h_mm[i] * scale - bw_vec2_dot (n, apex)) / height;
}

static gboolean
check_lean (const BwStone *stone, gboolean tip, GError **error)
{
  double shoulder = tip ? stone->shoulder_mm : stone->base_shoulder_mm;
  double height = tip ? stone->length_mm - shoulder : shoulder;
  double scale = bw_stone_prism_scale (stone, shoulder);
  for (int i = 0; i < stone->faces; i++) {
    double lean = lean_of (stone, i, scale, tip ? stone->apex : stone->base_apex, height);
    double prism = (tip ? -1 : 1) * stone->h_mm[i] * stone->taper_per_mm;
    if (lean > 0 && lean > prism)
      continue;
    bw_fault_set (error, BW_FAULT_GEOMETRY,
                  tip ? "/stone/apex_offset_mm" : "/stone/base_apex_offset_mm",
                  _ ("With this offset of the tip, point face %d does not lean in more than its "
                     "prism face."),
                  i + 1);
    return FALSE;
  }
  return TRUE;
}

static gboolean
check_solid (const BwStone *stone, const BwStoneMeasures *m, GError **error)
{
  return check_scale (stone, error) && check_on_prism (stone, m->at_mm, "/stone/at_mm", error)
         && (!m->has_second
             || check_on_prism (stone, m->second_at_mm, "/stone/second_at_mm", error))
         && check_lean (stone, TRUE, error)
         && (stone->base == BW_BASE_FLAT || check_lean (stone, FALSE, error));
}

/* --- the polyhedron ------------------------------------------------------------------------- */

static void
set_vertices (BwStone *stone)
{
  int n = stone->faces;
  double low = stone->base_shoulder_mm, high = stone->shoulder_mm;
  double s_low = bw_stone_prism_scale (stone, low), s_high = bw_stone_prism_scale (stone, high);
  for (int i = 0; i < n; i++) {
    BwVec2 c = stone->corner[i];
    stone->vertex[i] = bw_vec3 (c.x * s_low, c.y * s_low, low);
    stone->vertex[n + i] = bw_vec3 (c.x * s_high, c.y * s_high, high);
  }
  stone->vertex[2 * n] = bw_vec3 (stone->apex.x, stone->apex.y, stone->length_mm);
  stone->n_vertices = 2 * n + 1;
  stone->n_polygons = 2 * n + 1;
  if (stone->base == BW_BASE_POINT) {
    stone->vertex[2 * n + 1] = bw_vec3 (stone->base_apex.x, stone->base_apex.y, 0);
    stone->n_vertices = 2 * n + 2;
    stone->n_polygons = 3 * n;
  }
}

static void
set_mass (BwStone *stone, double density_g_cm3)
{
  BwSolid solid = { 0 };
  for (int f = 0; f < stone->n_polygons; f++) {
    int index[BW_FACES_MAX], n = bw_stone_polygon (stone, f, index, NULL, NULL);
    BwVec3 corner[BW_FACES_MAX];
    for (int i = 0; i < n; i++)
      corner[i] = stone->vertex[index[i]];
    bw_solid_add_face (&solid, corner, n);
  }
  stone->volume_mm3 = solid.volume_mm3;
  stone->centroid = bw_solid_centroid (&solid);
  stone->mass_g = density_g_cm3 * solid.volume_mm3 / 1000;
}

gboolean
bw_stone_init (BwStone *stone, const BwStoneMeasures *measures, GError **error)
{
  BwStone solved = { 0 };
  if (!check_ranges (measures, error))
    return FALSE;
  solved.faces = measures->faces;
  solved.at_mm = measures->at_mm;
  solved.length_mm = measures->length_mm;
  solved.apex = bw_vec2 (measures->apex_offset_mm[0], measures->apex_offset_mm[1]);
  if (!set_section (&solved, measures, error))
    return FALSE;
  set_taper (&solved, measures);
  if (!set_shoulder (&solved, measures, error) || !set_base (&solved, measures, error)
      || !check_solid (&solved, measures, error))
    return FALSE;
  set_vertices (&solved);
  set_mass (&solved, measures->density_g_cm3);
  *stone = solved;
  return TRUE;
}

gboolean
bw_stone_measures_validate (const BwStoneMeasures *measures, GError **error)
{
  BwStone stone;
  return bw_stone_init (&stone, measures, error);
}

/* --- reading it ----------------------------------------------------------------------------- */

/* Corner i ends face i, so face i runs from corner i−1 to corner i. */
static int
prism_polygon (int n, int i, int vertices[])
{
  int before = (i + n - 1) % n;
  vertices[0] = before;
  vertices[1] = i;
  vertices[2] = n + i;
  vertices[3] = n + before;
  return 4;
}

static int
point_polygon (int n, int i, int vertices[])
{
  vertices[0] = n + (i + n - 1) % n;
  vertices[1] = n + i;
  vertices[2] = 2 * n;
  return 3;
}

static int
base_polygon (const BwStone *stone, int i, int vertices[])
{
  int n = stone->faces;
  if (stone->base == BW_BASE_FLAT) {
    for (int j = 0; j < n; j++)
      vertices[j] = n - 1 - j;
    return n;
  }
  vertices[0] = i;
  vertices[1] = (i + n - 1) % n;
  vertices[2] = 2 * n + 1;
  return 3;
}

int
bw_stone_polygon (const BwStone *stone, int f, int vertices[BW_FACES_MAX], BwFaceKind *kind,
                  int *index)
{
  int n = stone->faces;
  if (index)
    *index = f % n;
  if (kind)
    *kind = f < n                         ? BW_FACE_PRISM
            : f < 2 * n                   ? BW_FACE_POINT
            : stone->base == BW_BASE_FLAT ? BW_FACE_BASE
                                          : BW_FACE_BASE_POINT;
  if (f < n)
    return prism_polygon (n, f, vertices);
  if (f < 2 * n)
    return point_polygon (n, f - n, vertices);
  return base_polygon (stone, f - 2 * n, vertices);
}

int
bw_stone_edges (const BwStone *stone, int (*edges)[2], int max)
{
  int n = 0;
  for (int f = 0; f < stone->n_polygons; f++) {
    int index[BW_FACES_MAX], corners = bw_stone_polygon (stone, f, index, NULL, NULL);
    for (int i = 0; i < corners; i++) {
      int a = index[i], b = index[(i + 1) % corners];
      /* Each edge is met twice, once each way round: keep the ascending one. */
      if (a > b)
        continue;
      if (n < max) {
        edges[n][0] = a;
        edges[n][1] = b;
      }
      n++;
    }
  }
  return n;
}

void
bw_stone_plane (const BwStone *stone, int f, BwVec3 *normal, double *distance)
{
  int index[BW_FACES_MAX];
  bw_stone_polygon (stone, f, index, NULL, NULL);
  BwVec3 a = stone->vertex[index[0]];
  BwVec3 n = bw_vec3_cross (bw_vec3_sub (stone->vertex[index[1]], a),
                            bw_vec3_sub (stone->vertex[index[2]], a));
  *normal = bw_vec3_scale (n, 1 / bw_vec3_length (n));
  *distance = bw_vec3_dot (*normal, a);
}
