/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From what a maker measures at the bench to the half-spaces of the stone. The steps follow the
 * measuring: the section first, then its taper, then where the prism ends, then the points; each
 * step either holds or names the measurement that cannot be. */
#include "core/stone/stone.h"

#include "core/base/fault.h"
#include "core/stone/stone-measures.h"
#include "core/stone/stone-polyhedron.h"

/* Above this share of the girth, widths that do not close want a new measurement (common practice,
 * no source). */
#define CLOSING_SHARE_MAX 0.02

/* Counter-clockwise along face i: 90° on from its normal. */
static BwVec2
edge_direction (int faces, int i)
{
  BwVec2 n = bw_stone_normal (faces, i);
  return bw_vec2 (-n.y, n.x);
}

static gboolean
face_vanishes (int i, double width, int value, BwFault *fault)
{
  return bw_fault_of (fault, BW_FAULTY_FACE_VANISHES, BW_AT_STONE_VALUES, value, i, width, 0);
}

/* Corner i, where faces i and i + 1 meet, from their distances to the axis. */
static void
corners_from_distances (BwStone *stone)
{
  int faces = stone->faces;
  double delta = 2 * G_PI / faces;
  for (int i = 0; i < faces; i++) {
    double h = stone->h_mm[i], next = stone->h_mm[(i + 1) % faces];
    double along = (next - h * cos (delta)) / sin (delta);
    stone->corner[i] = bw_vec2_add (bw_vec2_scale (bw_stone_normal (faces, i), h),
                                    bw_vec2_scale (edge_direction (faces, i), along));
  }
}

static gboolean
section_from_flats (BwStone *stone, const double *across, BwFault *fault)
{
  int faces = stone->faces;
  double delta = 2 * G_PI / faces;
  double *h = stone->h_mm;
  for (int i = 0; i < faces; i++)
    h[i] = across[i % (faces / 2)] / 2;
  for (int i = 0; i < faces; i++) {
    double around = h[(i + 1) % faces] + h[(i + faces - 1) % faces];
    double width = (around - 2 * h[i] * cos (delta)) / sin (delta);
    if (!(width > 0))
      return face_vanishes (i, width, i % (faces / 2), fault);
  }
  corners_from_distances (stone);
  return TRUE;
}

/* Least-squares correction of widths that do not quite close: f'_i = f_i − (2/N)(c cos φ_i + s sin
 * φ_i), the smallest change of the widths (in the sum of squares) that brings the misfit (c, s) to
 * 0. Returns |(c, s)|. */
static double
close_widths (double *closed, const double *width, int faces)
{
  BwVec2 misfit = { 0, 0 };
  for (int i = 0; i < faces; i++)
    misfit = bw_vec2_add (misfit, bw_vec2_scale (edge_direction (faces, i), width[i]));
  for (int i = 0; i < faces; i++)
    closed[i] = width[i] - 2.0 / faces * bw_vec2_dot (misfit, edge_direction (faces, i));
  return bw_vec2_length (misfit);
}

static gboolean
section_from_widths (BwStone *stone, const double *measured, BwFault *fault)
{
  int faces = stone->faces;
  double width[BW_FACES_MAX], girth = 0;
  stone->closing_error_mm = close_widths (width, measured, faces);
  BwVec2 walk = { 0, 0 };
  for (int i = 0; i < faces; i++) {
    if (!(width[i] > 0))
      return face_vanishes (i, width[i], i, fault);
    girth += width[i];
    walk = bw_vec2_add (walk, bw_vec2_scale (edge_direction (faces, i), width[i]));
    stone->corner[i] = walk;
  }
  BwVec2 centre = bw_vec2_centroid (stone->corner, faces);
  for (int i = 0; i < faces; i++) {
    stone->corner[i] = bw_vec2_sub (stone->corner[i], centre);
    stone->h_mm[i] = bw_vec2_dot (stone->corner[i], bw_stone_normal (faces, i));
  }
  stone->closing_error_large = stone->closing_error_mm > CLOSING_SHARE_MAX * girth;
  return TRUE;
}

/* A regular polygon of this perimeter. */
static void
section_from_girth (BwStone *stone, double girth)
{
  for (int i = 0; i < stone->faces; i++)
    stone->h_mm[i] = girth / (2 * stone->faces * tan (G_PI / stone->faces));
  corners_from_distances (stone);
}

static double
outline_girth (const BwVec2 *corner, int n)
{
  double girth = 0;
  for (int i = 0; i < n; i++)
    girth += bw_vec2_length (bw_vec2_sub (corner[i], corner[i ? i - 1 : n - 1]));
  return girth;
}

static gboolean
solve_section (BwStone *stone, const BwStoneMeasures *measures, BwFault *fault)
{
  stone->faces = measures->faces;
  stone->at_mm = measures->at_mm;
  if (measures->measured == BW_MEASURED_ACROSS_FLATS) {
    if (!section_from_flats (stone, measures->values_mm, fault))
      return FALSE;
  } else if (measures->measured == BW_MEASURED_FACE_WIDTHS) {
    if (!section_from_widths (stone, measures->values_mm, fault))
      return FALSE;
  } else {
    section_from_girth (stone, measures->values_mm[0]);
  }
  stone->girth_mm = outline_girth (stone->corner, stone->faces);
  return TRUE;
}

static gboolean
solve_taper (BwStone *stone, const BwStoneMeasures *measures, BwFault *fault)
{
  if (!measures->has_second)
    return TRUE;
  double rise = measures->second_at_mm - measures->at_mm;
  stone->taper_per_mm = (measures->second_girth_mm / stone->girth_mm - 1) / rise;
  if (isfinite (stone->taper_per_mm))
    return TRUE;
  return bw_fault_is (fault, BW_FAULTY_SAME_HEIGHT, BW_AT_STONE_SECOND_AT, measures->second_at_mm,
                      0, 0);
}

static gboolean
tapers_away (BwFault *fault)
{
  return bw_fault_is (fault, BW_FAULTY_TAPERS_AWAY, BW_AT_STONE_SECOND_GIRTH, 0, 0, 0);
}

/* L − z_s = mean(h) s(z_s)/tan(angle), which is linear in z_s. */
static gboolean
shoulder_from_angle (BwStone *stone, double angle_deg, BwFault *fault)
{
  double sum = 0;
  for (int i = 0; i < stone->faces; i++)
    sum += stone->h_mm[i];
  double rise = sum / stone->faces / tan (bw_radians (angle_deg)); /* of the point, where s = 1 */
  double k = stone->taper_per_mm;
  if (!(1 + rise * k > 0))
    return tapers_away (fault);
  stone->shoulder_mm = (stone->length_mm - rise * (1 - k * stone->at_mm)) / (1 + rise * k);
  if (stone->shoulder_mm > 0 && stone->shoulder_mm < stone->length_mm)
    return TRUE;
  return bw_fault_is (fault, BW_FAULTY_POINT_TOO_LONG, BW_AT_STONE_NATURAL_ANGLE, angle_deg,
                      stone->length_mm - stone->shoulder_mm, stone->length_mm);
}

static gboolean
solve_shoulder (BwStone *stone, const BwStoneMeasures *measures, BwFault *fault)
{
  stone->length_mm = measures->length_mm;
  if (!measures->has_shoulder)
    return shoulder_from_angle (stone, measures->natural_angle_deg, fault);
  stone->shoulder_mm = measures->shoulder_mm;
  if (stone->shoulder_mm < stone->length_mm)
    return TRUE;
  return bw_fault_is (fault, BW_FAULTY_SHOULDER_HIGH, BW_AT_STONE_SHOULDER, stone->shoulder_mm,
                      stone->length_mm, 0);
}

static gboolean
solve_base (BwStone *stone, const BwStoneMeasures *measures, BwFault *fault)
{
  stone->base = measures->base;
  if (measures->base == BW_BASE_FLAT)
    return TRUE;
  gboolean own = measures->has_base_shoulder;
  stone->base_apex = bw_vec2 (measures->base_apex_offset_mm[0], measures->base_apex_offset_mm[1]);
  stone->base_shoulder_mm
      = own ? measures->base_shoulder_mm : stone->length_mm - stone->shoulder_mm;
  if (stone->base_shoulder_mm < stone->shoulder_mm)
    return TRUE;
  BwFaultKey key = own                      ? BW_AT_STONE_BASE_SHOULDER
                   : measures->has_shoulder ? BW_AT_STONE_SHOULDER
                                            : BW_AT_STONE_NATURAL_ANGLE;
  return bw_fault_is (fault, BW_FAULTY_POINTS_MEET, key, stone->base_shoulder_mm,
                      stone->shoulder_mm, 0);
}

static gboolean
check_on_prism (const BwStone *stone, double z, BwFaultKey key, BwFault *fault)
{
  if (z >= stone->base_shoulder_mm && z <= stone->shoulder_mm)
    return TRUE;
  return bw_fault_is (fault, BW_FAULTY_OFF_PRISM, key, z, stone->base_shoulder_mm,
                      stone->shoulder_mm);
}

static gboolean
check_prism (const BwStone *stone, const BwStoneMeasures *measures, BwFault *fault)
{
  if (!check_on_prism (stone, measures->at_mm, BW_AT_STONE_AT, fault))
    return FALSE;
  if (!measures->has_second)
    return TRUE;
  if (!check_on_prism (stone, measures->second_at_mm, BW_AT_STONE_SECOND_AT, fault))
    return FALSE;
  if (bw_stone_prism_scale (stone, stone->base_shoulder_mm) > 0
      && bw_stone_prism_scale (stone, stone->shoulder_mm) > 0)
    return TRUE;
  return tapers_away (fault);
}

/* A point that rises by `rise` (negative: the lower one) from the prism at `shoulder` leans in more
 * than every prism face just when the apex lies inside all of them, prolonged to its height. */
static gboolean
check_point (const BwStone *stone, double shoulder, double rise, BwVec2 apex, BwFaultKey key,
             BwFault *fault)
{
  double scale = bw_stone_prism_scale (stone, shoulder + rise);
  if (!(scale > 0))
    return tapers_away (fault);
  for (int i = 0; i < stone->faces; i++) {
    double out = bw_vec2_dot (apex, bw_stone_normal (stone->faces, i));
    if (out < stone->h_mm[i] * scale)
      continue;
    return bw_fault_is (fault, BW_FAULTY_TIP_OUT, key, out, i, stone->h_mm[i] * scale);
  }
  return TRUE;
}

static gboolean
check_points (const BwStone *stone, BwFault *fault)
{
  if (!check_point (stone, stone->shoulder_mm, stone->length_mm - stone->shoulder_mm, stone->apex,
                    BW_AT_STONE_APEX_OFFSET, fault))
    return FALSE;
  return stone->base == BW_BASE_FLAT
         || check_point (stone, stone->base_shoulder_mm, -stone->base_shoulder_mm, stone->base_apex,
                         BW_AT_STONE_BASE_APEX_OFFSET, fault);
}

static gboolean
solve (BwStone *stone, const BwStoneMeasures *measures, BwFault *fault)
{
  stone->apex = bw_vec2 (measures->apex_offset_mm[0], measures->apex_offset_mm[1]);
  return bw_stone_measures_check_ranges (measures, fault) && solve_section (stone, measures, fault)
         && solve_taper (stone, measures, fault) && solve_shoulder (stone, measures, fault)
         && solve_base (stone, measures, fault) && check_prism (stone, measures, fault)
         && check_points (stone, fault);
}

gboolean
bw_stone_init (BwStone *stone, const BwStoneMeasures *measures, BwFault *fault)
{
  BwStone solved = { 0 };
  if (!solve (&solved, measures, fault))
    return FALSE;
  bw_stone_build_polyhedron (&solved, measures->density_g_cm3);
  *stone = solved;
  return TRUE;
}

gboolean
bw_stone_measures_validate (const BwStoneMeasures *measures, BwFault *fault)
{
  BwStone solved = { 0 };
  return solve (&solved, measures, fault);
}
