/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plain ranges stand apart from the geometry, so that the geometry may assume finite numbers.
 */
#include "core/stone/stone-measures.h"

#include "config.h"

#include "core/base/fault.h"

#include <glib/gi18n-lib.h>

int
bw_stone_value_count (BwMeasured measured, int faces)
{
  switch (measured) {
  case BW_MEASURED_ACROSS_FLATS:
    return faces % 2 ? 0 : faces / 2;
  case BW_MEASURED_FACE_WIDTHS:
    return faces;
  case BW_MEASURED_GIRTH:
    return 1;
  }
  return 0;
}

static gboolean
check_length (double value, const char *pointer, GError **error)
{
  return bw_fault_check_range (value, BW_LENGTH_MIN_MM, BW_LENGTH_MAX_MM, pointer, error);
}

static gboolean
check_way_of_measuring (const BwStoneMeasures *m, GError **error)
{
  if (!bw_fault_check_range (m->faces, BW_FACES_MIN, BW_FACES_MAX, "/stone/faces", error))
    return FALSE;
  if (bw_stone_value_count (m->measured, m->faces) > 0)
    return TRUE;
  bw_fault_set (
      error, BW_FAULT_GEOMETRY, "/stone/measured",
      _ ("A stone of %d faces has none that face each other, so it cannot be measured across "
         "the flats; an even number of faces can."),
      m->faces);
  return FALSE;
}

static gboolean
check_values (const BwStoneMeasures *m, GError **error)
{
  double most = m->measured == BW_MEASURED_GIRTH ? BW_GIRTH_MAX_MM : BW_LENGTH_MAX_MM;
  for (int i = 0; i < bw_stone_value_count (m->measured, m->faces); i++) {
    g_autofree char *pointer = g_strdup_printf ("/stone/values_mm/%d", i);
    if (!bw_fault_check_range (m->values_mm[i], BW_LENGTH_MIN_MM, most, pointer, error))
      return FALSE;
  }
  return bw_fault_check_range (m->at_mm, 0, BW_LENGTH_MAX_MM, "/stone/at_mm", error);
}

static gboolean
check_second (const BwStoneMeasures *m, GError **error)
{
  return !m->has_second
         || (bw_fault_check_range (m->second_girth_mm, BW_LENGTH_MIN_MM, BW_GIRTH_MAX_MM,
                                   "/stone/second_girth_mm", error)
             && bw_fault_check_range (m->second_at_mm, 0, BW_LENGTH_MAX_MM, "/stone/second_at_mm",
                                      error));
}

static gboolean
check_shoulder (const BwStoneMeasures *m, GError **error)
{
  if (!check_length (m->length_mm, "/stone/length_mm", error))
    return FALSE;
  if (m->has_natural_angle
      && !bw_fault_check_range (m->natural_angle_deg, BW_NATURAL_ANGLE_MIN_DEG,
                                BW_NATURAL_ANGLE_MAX_DEG, "/stone/natural_angle_deg", error))
    return FALSE;
  if (m->has_shoulder)
    return check_length (m->shoulder_mm, "/stone/shoulder_mm", error);
  if (m->has_natural_angle)
    return TRUE;
  bw_fault_set (error, BW_FAULT_MISSING, "/stone/shoulder_mm",
                _ ("Where the point begins is not told; give the shoulder's height or the natural "
                   "angle."));
  return FALSE;
}

static gboolean
check_offset (const double offset[2], const char *key, GError **error)
{
  for (int i = 0; i < 2; i++) {
    g_autofree char *pointer = g_strdup_printf ("/stone/%s/%d", key, i);
    if (!bw_fault_check_range (offset[i], -BW_LENGTH_MAX_MM, BW_LENGTH_MAX_MM, pointer, error))
      return FALSE;
  }
  return TRUE;
}

static gboolean
check_base (const BwStoneMeasures *m, GError **error)
{
  if (m->base == BW_BASE_FLAT)
    return TRUE;
  return (!m->has_base_shoulder
          || check_length (m->base_shoulder_mm, "/stone/base_shoulder_mm", error))
         && check_offset (m->base_apex_offset_mm, "base_apex_offset_mm", error);
}

gboolean
bw_stone_measures_check_ranges (const BwStoneMeasures *m, GError **error)
{
  return check_way_of_measuring (m, error) && check_values (m, error) && check_second (m, error)
         && check_shoulder (m, error) && check_offset (m->apex_offset_mm, "apex_offset_mm", error)
         && check_base (m, error)
         && bw_fault_check_range (m->girth_sd_mm, 0, BW_GIRTH_SD_MAX_MM, "/stone/girth_sd_mm",
                                  error)
         && bw_fault_check_range (m->density_g_cm3, BW_DENSITY_MIN, BW_DENSITY_MAX,
                                  "/stone/density_g_cm3", error);
}
