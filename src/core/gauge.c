/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The gauge and what measuring a strip adds to it. */
#include "config.h"
#include "gauge.h"

#include "fault.h"
#include <glib/gi18n-lib.h>
#include <math.h>

/* Both common practice, no source. */
#define PRIOR_SHARE 0.02
#define CHECK_ERROR_MM 0.3

double
bw_swatch_column_mm (const BwSwatch *swatch)
{
  return swatch->width_mm / swatch->columns;
}

double
bw_swatch_pitch_mm (const BwSwatch *swatch)
{
  return 2 * swatch->length_mm / (swatch->rows + 1);
}

/* One strip of r rows is (r + 1)/2 pitches long: adds its precision and its weighted reading. */
static void
add_reading (double *precision, double *weighted, int rows, double length_mm)
{
  double pitches = (rows + 1) / 2.0, variance = CHECK_ERROR_MM * CHECK_ERROR_MM;
  *precision += pitches * pitches / variance;
  *weighted += pitches * length_mm / variance;
}

BwPitch
bw_gauge_pitch (const BwGauge *gauge, const BwCheck *checks, int n_checks)
{
  double p0 = gauge->pitch_mm, sd0 = PRIOR_SHARE * p0;
  double precision = 1 / (sd0 * sd0), weighted = p0 / (sd0 * sd0);
  if (gauge->has_swatch)
    add_reading (&precision, &weighted, gauge->swatch.rows, gauge->swatch.length_mm);
  for (int i = 0; i < n_checks; i++)
    add_reading (&precision, &weighted, checks[i].rows, checks[i].length_mm);
  return (BwPitch){ weighted / precision, 1 / sqrt (precision) };
}

static gboolean
validate_swatch (const BwSwatch *swatch, GError **error)
{
  if (swatch->columns % 2) {
    bw_fault_set (error, BW_FAULT_RANGE, "/gauge/swatch/columns",
                  _ ("%d was found; the number of columns must be even."), swatch->columns);
    return FALSE;
  }
  return bw_fault_check_range (swatch->columns, BW_COLUMNS_MIN, BW_COLUMNS_MAX,
                               "/gauge/swatch/columns", error)
         && bw_fault_check_range (swatch->rows, 2, BW_ROWS_MAX, "/gauge/swatch/rows", error)
         && bw_fault_check_range (swatch->width_mm, 0.1, 10000, "/gauge/swatch/width_mm", error)
         && bw_fault_check_range (swatch->length_mm, 0.1, 1e6, "/gauge/swatch/length_mm", error);
}

gboolean
bw_gauge_validate (const BwGauge *gauge, GError **error)
{
  if (gauge->has_swatch && !validate_swatch (&gauge->swatch, error))
    return FALSE;
  return bw_fault_check_range (gauge->column_mm, 0.1, 50, "/gauge/column_mm", error)
         && bw_fault_check_range (gauge->pitch_mm, 0.1, 50, "/gauge/pitch_mm", error);
}
