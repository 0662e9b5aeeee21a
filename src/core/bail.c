/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bail's loop as a circular arc over its base. */
#include "config.h"
#include "bail.h"

#include "fault.h"
#include <glib/gi18n-lib.h>
#include <math.h>

/* φ of sin φ/φ = b/L, 0 < b/L < 1: sin φ/φ falls from 1 to 0 on (0, π), so halving never fails. */
static double
half_angle (double ratio)
{
  double low = 0, high = G_PI;
  for (int i = 0; i < 200 && high - low > 1e-16 * high; i++) {
    double middle = (low + high) / 2;
    if (middle <= low || middle >= high)
      break;
    if (sin (middle) / middle > ratio)
      low = middle;
    else
      high = middle;
  }
  return (low + high) / 2;
}

static double
base_mm (const BwBail *bail, const BwGauge *gauge)
{
  return bail->base_beads * (bail->style == BW_BAIL_UPRIGHT ? gauge->column_mm : gauge->pitch_mm);
}

/* The arc of one row count; FALSE when it is too short to arch over its base. */
static gboolean
arch (BwLoop *loop, const BwBail *bail, int rows, const BwBead *bead, const BwGauge *gauge)
{
  loop->length_mm = (rows + 1) * gauge->pitch_mm / 2;
  loop->base_mm = base_mm (bail, gauge);
  if (loop->length_mm <= loop->base_mm * (1 + 1e-12))
    return FALSE;
  loop->half_angle = half_angle (loop->base_mm / loop->length_mm);
  loop->radius_mm = loop->length_mm / (2 * loop->half_angle);
  loop->opening_mm = loop->radius_mm * (1 - cos (loop->half_angle)) - bead->diameter_mm;
  loop->largest_cord_mm = loop->opening_mm - bail->clearance_mm;
  return TRUE;
}

/* rows + 1 and the base counted in half pitches have the same parity, when the bail is sewn to
 * mirrored beads. No rule binds the upright strip. */
static gboolean
parity_fits (const BwBail *bail, int rows)
{
  if (bail->style == BW_BAIL_UPRIGHT)
    return TRUE;
  long halves = lround (2 * bail->base_beads);
  return (rows + 1 - halves) % 2 == 0;
}

/* A longer loop over the same base is wider, so the least row count is found by halving. */
static int
rows_needed (const BwBail *bail, const BwBead *bead, const BwGauge *gauge)
{
  int low = 0, high = BW_ROWS_MAX; /* low does not do */
  BwLoop loop;
  if (!arch (&loop, bail, high, bead, gauge) || loop.largest_cord_mm < bail->cord_mm)
    return 0;
  while (high - low > 1) {
    int middle = low + (high - low) / 2;
    if (arch (&loop, bail, middle, bead, gauge) && loop.largest_cord_mm >= bail->cord_mm)
      high = middle;
    else
      low = middle;
  }
  if (!parity_fits (bail, high))
    high++;
  return high <= BW_ROWS_MAX ? high : 0;
}

gboolean
bw_loop_init (BwLoop *loop, const BwBail *bail, const BwBead *bead, const BwGauge *gauge,
              GError **error)
{
  BwLoop solved = { 0 };
  if (!arch (&solved, bail, bail->rows, bead, gauge)) {
    bw_fault_set (error, BW_FAULT_GEOMETRY, "/bail/rows",
                  _ ("A bail of %d rows is %.2f mm long and cannot arch over its base of %.2f mm."),
                  bail->rows, solved.length_mm, solved.base_mm);
    return FALSE;
  }
  solved.rows_needed = rows_needed (bail, bead, gauge);
  solved.parity_right = parity_fits (bail, bail->rows);
  solved.rows_below = solved.parity_right ? bail->rows : MAX (1, bail->rows - 1);
  solved.rows_above = solved.parity_right ? bail->rows : bail->rows + 1;
  *loop = solved;
  return TRUE;
}

int
bw_bail_bead_count (const BwBail *bail)
{
  return bail->style == BW_BAIL_NONE ? 0 : bail->rows * (bail->columns / 2);
}

static gboolean
check_columns (const BwBail *bail, int band_columns, GError **error)
{
  if (!bw_fault_check_range (bail->columns, BW_COLUMNS_MIN, BW_COLUMNS_MAX, "/bail/columns", error))
    return FALSE;
  if (bail->columns % 2 == 0 && bail->columns <= band_columns - 2)
    return TRUE;
  bw_fault_set (error, BW_FAULT_GEOMETRY, "/bail/columns",
                _ ("%d was found; the bail's columns must be even and at least two fewer than the "
                   "band's %d."),
                bail->columns, band_columns);
  return FALSE;
}

static gboolean
check_base (const BwBail *bail, GError **error)
{
  double halves = 2 * bail->base_beads;
  if (!bw_fault_check_range (bail->base_beads, 0.5, 1000, "/bail/base_beads", error))
    return FALSE;
  if (fabs (halves - round (halves)) < 1e-9)
    return TRUE;
  bw_fault_set (error, BW_FAULT_RANGE, "/bail/base_beads",
                _ ("%g was found; the base is counted in whole or half beads."), bail->base_beads);
  return FALSE;
}

gboolean
bw_bail_validate (const BwBail *bail, int band_columns, GError **error)
{
  if (bail->style == BW_BAIL_NONE)
    return TRUE;
  return check_columns (bail, band_columns, error)
         && bw_fault_check_range (bail->rows, BW_ROWS_MIN, BW_ROWS_MAX, "/bail/rows", error)
         && check_base (bail, error)
         && bw_fault_check_range (bail->at_deg, -3600, 3600, "/bail/at_deg", error)
         && bw_fault_check_range (bail->cord_mm, 0, 100, "/bail/cord_mm", error)
         && bw_fault_check_range (bail->clearance_mm, 0, 100, "/bail/clearance_mm", error);
}
