/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Changing the way of measuring must not change the stone: every new value is read off the solved
 * stone. */
#include "config.h"

#include "app/form/measures.h"
#include "core/stone/section.h"

#include <glib/gi18n-lib.h>

static double
hundredths (double value)
{
  return round (value * 100) / 100;
}

static void
read_across (BwStoneMeasures *m, const BwStone *stone)
{
  int half = stone->faces / 2;
  for (int i = 0; i < half; i++)
    m->values_mm[i] = hundredths (stone->h_mm[i] + stone->h_mm[i + half]);
}

static void
read_widths (BwStoneMeasures *m, const BwStone *stone)
{
  BwSection section;
  bw_section_init (&section, stone, stone->at_mm);
  for (int i = 0; i < stone->faces; i++)
    m->values_mm[i] = hundredths (bw_section_face_width_mm (&section, i));
}

char *
bw_value_title (const BwStoneMeasures *stone, int i)
{
  switch (stone->measured) {
  case BW_MEASURED_ACROSS_FLATS:
    return g_strdup_printf (_ ("Across faces %d and %d"), i + 1, i + 1 + stone->faces / 2);
  case BW_MEASURED_FACE_WIDTHS:
    return g_strdup_printf (_ ("Width of face %d"), i + 1);
  case BW_MEASURED_GIRTH:
  default:
    return g_strdup (_ ("Girth by paper strip"));
  }
}

gboolean
bw_measures_set_way (BwStoneMeasures *measures, BwMeasured way)
{
  BwStone stone;
  if (way == BW_MEASURED_ACROSS_FLATS && measures->faces % 2)
    return FALSE;
  if (!bw_stone_init (&stone, measures, NULL))
    return FALSE;
  measures->measured = way;
  if (way == BW_MEASURED_ACROSS_FLATS)
    read_across (measures, &stone);
  else if (way == BW_MEASURED_FACE_WIDTHS)
    read_widths (measures, &stone);
  else
    measures->values_mm[0] = hundredths (stone.girth_mm);
  return TRUE;
}

/* One value of a regular section of this girth. */
static double
regular_value (BwMeasured way, int faces, double girth_mm)
{
  switch (way) {
  case BW_MEASURED_ACROSS_FLATS:
    return girth_mm / (faces * tan (bw_radians (180.0 / faces)));
  case BW_MEASURED_FACE_WIDTHS:
    return girth_mm / faces;
  case BW_MEASURED_GIRTH:
  default:
    return girth_mm;
  }
}

void
bw_measures_set_faces (BwStoneMeasures *measures, int faces)
{
  BwStone stone;
  gboolean whole = faces >= BW_FACES_MIN && faces <= BW_FACES_MAX;
  if (!whole || faces == measures->faces || !bw_stone_init (&stone, measures, NULL)) {
    measures->faces = faces;
    return;
  }
  if (measures->measured == BW_MEASURED_ACROSS_FLATS && faces % 2)
    measures->measured = BW_MEASURED_FACE_WIDTHS;
  measures->faces = faces;
  int n = bw_stone_value_count (measures->measured, faces);
  for (int i = 0; i < n; i++)
    measures->values_mm[i] = hundredths (regular_value (measures->measured, faces, stone.girth_mm));
}

void
bw_measures_set_taper (BwStoneMeasures *measures, gboolean tapered)
{
  BwStone stone;
  measures->has_second = FALSE;
  if (!tapered || !bw_stone_init (&stone, measures, NULL))
    return;
  double prism = stone.shoulder_mm - stone.base_shoulder_mm;
  double at = round (stone.base_shoulder_mm + 0.8 * prism);
  if (fabs (at - measures->at_mm) < 1)
    at = stone.base_shoulder_mm + 0.2 * prism;
  measures->has_second = TRUE;
  measures->second_at_mm = hundredths (at);
  measures->second_girth_mm = hundredths (stone.girth_mm);
}

static double
mean_distance (const BwStone *stone)
{
  double sum = 0;
  for (int i = 0; i < stone->faces; i++)
    sum += stone->h_mm[i];
  return sum / stone->faces;
}

void
bw_measures_set_point (BwStoneMeasures *measures, gboolean by_angle)
{
  BwStone stone;
  if (!bw_stone_init (&stone, measures, NULL))
    return;
  double across = mean_distance (&stone) * bw_stone_prism_scale (&stone, stone.shoulder_mm);
  double height = stone.length_mm - stone.shoulder_mm;
  measures->has_natural_angle = by_angle;
  measures->has_shoulder = !by_angle;
  measures->natural_angle_deg = hundredths (bw_degrees (atan2 (across, height)));
  measures->shoulder_mm = hundredths (stone.shoulder_mm);
}

void
bw_measures_set_base (BwStoneMeasures *measures, BwBase base)
{
  BwStone stone;
  if (base == BW_BASE_POINT && bw_stone_init (&stone, measures, NULL)) {
    double lower = MIN (stone.length_mm - stone.shoulder_mm, 0.8 * stone.at_mm);
    measures->has_base_shoulder = TRUE;
    measures->base_shoulder_mm = hundredths (lower);
    measures->base_apex_offset_mm[0] = measures->base_apex_offset_mm[1] = 0;
  }
  measures->base = base;
}
