/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plain ranges stand apart from the geometry, so that the geometry may assume finite numbers.
 */
#include "core/stone/stone-measures.h"

#include "core/base/fault.h"

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
check_length (double value, BwFaultKey key, BwFault *fault)
{
  return bw_check_range (value, BW_LENGTH_MIN_MM, BW_LENGTH_MAX_MM, key, fault);
}

static gboolean
check_way_of_measuring (const BwStoneMeasures *m, BwFault *fault)
{
  if (!bw_check_range (m->faces, BW_FACES_MIN, BW_FACES_MAX, BW_AT_STONE_FACES, fault))
    return FALSE;
  if (bw_stone_value_count (m->measured, m->faces) > 0)
    return TRUE;
  return bw_fault_is (fault, BW_FAULTY_NO_FLATS, BW_AT_STONE_MEASURED, m->faces, 0, 0);
}

static gboolean
check_values (const BwStoneMeasures *m, BwFault *fault)
{
  double most = m->measured == BW_MEASURED_GIRTH ? BW_GIRTH_MAX_MM : BW_LENGTH_MAX_MM;
  for (int i = 0; i < bw_stone_value_count (m->measured, m->faces); i++)
    if (!bw_check_range_of (m->values_mm[i], BW_LENGTH_MIN_MM, most, BW_AT_STONE_VALUES, i, fault))
      return FALSE;
  return bw_check_range (m->at_mm, 0, BW_LENGTH_MAX_MM, BW_AT_STONE_AT, fault);
}

static gboolean
check_second (const BwStoneMeasures *m, BwFault *fault)
{
  return !m->has_second
         || (bw_check_range (m->second_girth_mm, BW_LENGTH_MIN_MM, BW_GIRTH_MAX_MM,
                             BW_AT_STONE_SECOND_GIRTH, fault)
             && bw_check_range (m->second_at_mm, 0, BW_LENGTH_MAX_MM, BW_AT_STONE_SECOND_AT,
                                fault));
}

static gboolean
check_shoulder (const BwStoneMeasures *m, BwFault *fault)
{
  if (!check_length (m->length_mm, BW_AT_STONE_LENGTH, fault))
    return FALSE;
  if (m->has_natural_angle
      && !bw_check_range (m->natural_angle_deg, BW_NATURAL_ANGLE_MIN_DEG, BW_NATURAL_ANGLE_MAX_DEG,
                          BW_AT_STONE_NATURAL_ANGLE, fault))
    return FALSE;
  if (m->has_shoulder)
    return check_length (m->shoulder_mm, BW_AT_STONE_SHOULDER, fault);
  if (m->has_natural_angle)
    return TRUE;
  return bw_fault_is (fault, BW_FAULTY_NO_SHOULDER, BW_AT_STONE_SHOULDER, 0, 0, 0);
}

static gboolean
check_offset (const double offset[2], BwFaultKey key, BwFault *fault)
{
  for (int i = 0; i < 2; i++)
    if (!bw_check_range_of (offset[i], -BW_LENGTH_MAX_MM, BW_LENGTH_MAX_MM, key, i, fault))
      return FALSE;
  return TRUE;
}

static gboolean
check_base (const BwStoneMeasures *m, BwFault *fault)
{
  if (m->base == BW_BASE_FLAT)
    return TRUE;
  return (!m->has_base_shoulder
          || check_length (m->base_shoulder_mm, BW_AT_STONE_BASE_SHOULDER, fault))
         && check_offset (m->base_apex_offset_mm, BW_AT_STONE_BASE_APEX_OFFSET, fault);
}

gboolean
bw_stone_measures_check_ranges (const BwStoneMeasures *m, BwFault *fault)
{
  return check_way_of_measuring (m, fault) && check_values (m, fault) && check_second (m, fault)
         && check_shoulder (m, fault)
         && check_offset (m->apex_offset_mm, BW_AT_STONE_APEX_OFFSET, fault)
         && check_base (m, fault)
         && bw_check_range (m->girth_sd_mm, 0, BW_GIRTH_SD_MAX_MM, BW_AT_STONE_GIRTH_SD, fault)
         && bw_check_range (m->density_g_cm3, BW_DENSITY_MIN, BW_DENSITY_MAX, BW_AT_STONE_DENSITY,
                            fault);
}
