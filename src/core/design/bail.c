/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The loop of a bail as a circular arc over its base. What passes through it depends on one angle:
 * half the arc stands over half the base as tan(φ/2), so the opening grows with every row and the
 * least rows for a cord follow without a search. */

#include "core/design/bail.h"
#include "core/base/fault.h"

#include <math.h>

/* A loop over the tip that does not reach counts as longer than its base by this share. */
#define FLATTEST 1e-6

gboolean
bw_bail_is_strip (const BwBail *bail)
{
  return bail->style == BW_BAIL_UPRIGHT || bail->style == BW_BAIL_OVER;
}

/* How far the arc rises over its base: r(1 − cos φ) = b/2 tan(φ/2). */
static double
rise (double base, double half_angle)
{
  return base / 2 * tan (half_angle / 2);
}

/* φ in (0, π) with sin φ/φ = share, 0 < share < 1. sin φ/φ falls all the way, so halving the
 * bracket cannot fail. */
static double
solve_half_angle (double share)
{
  double lo = 0, hi = G_PI;
  for (int i = 0; i < 200; i++) {
    double middle = (lo + hi) / 2;
    if (middle <= lo || middle >= hi)
      break;
    if (sin (middle) > share * middle)
      lo = middle;
    else
      hi = middle;
  }
  return (lo + hi) / 2;
}

static double
base_mm (const BwBail *bail, const BwGauge *gauge)
{
  double step = bail->style == BW_BAIL_UPRIGHT ? gauge->column_mm : gauge->pitch_mm;
  return bail->base_beads * step;
}

static double
length_mm (int rows, const BwGauge *gauge)
{
  return (rows + 1) * gauge->pitch_mm / 2;
}

/* Clear opening of so many rows; below every other when they are too few to arch. */
static double
opening_mm (BwLoopSite site, const BwGauge *gauge, int rows)
{
  double length = length_mm (rows, gauge);
  if (!(length > site.base_mm))
    return -G_MAXDOUBLE;
  return rise (site.base_mm, solve_half_angle (site.base_mm / length)) - site.taken_mm;
}

/* Sewn to mirrored beads, the rows and the half pitches of the base must match; a strip of its own
 * is sewn to whatever band beads lie beneath and may have any count. */
static gboolean
parity_right (const BwBail *bail, int rows)
{
  if (bw_bail_is_strip (bail))
    return TRUE;
  int halves = (int)lround (2 * bail->base_beads);
  return (rows + 1 - halves) % 2 == 0;
}

/* The rows at which the arc first rises high enough: with u = tan(φ/2) = 2H/b the length is L = b
 * φ/ sin φ = b (1 + u²) atan(u)/u. */
static double
rows_for_rise (double height, double base, const BwGauge *gauge)
{
  double u = 2 * height / base;
  double length = base * (1 + u * u) * atan (u) / u;
  return 2 * length / gauge->pitch_mm - 1;
}

/* Starts a little below the closed form, so that rounding cannot pass over the least one. */
static int
least_rows (const BwBail *bail, BwLoopSite site, const BwGauge *gauge)
{
  double wanted = bail->cord_mm + bail->clearance_mm;
  double start = rows_for_rise (wanted + site.taken_mm, site.base_mm, gauge);
  if (!(start <= BW_ROWS_MAX))
    return 0;
  for (int rows = MAX (BW_ROWS_MIN, (int)floor (start) - 1); rows <= BW_ROWS_MAX; rows++)
    if (parity_right (bail, rows)
        && opening_mm (site, gauge, rows) - bail->clearance_mm >= bail->cord_mm)
      return rows;
  return 0;
}

static void
find_parity (BwLoop *loop, const BwBail *bail)
{
  loop->parity_right = parity_right (bail, bail->rows);
  loop->rows_below = loop->rows_above = bail->rows;
  if (loop->parity_right)
    return;
  loop->rows_above = bail->rows + 1;
  loop->rows_below = bail->rows > BW_ROWS_MIN ? bail->rows - 1 : loop->rows_above;
}

gboolean
bw_loop_solve (BwLoop *loop, const BwBail *bail, BwLoopSite site, const BwGauge *gauge,
               BwFault *fault)
{
  g_return_val_if_fail (bail->style != BW_BAIL_NONE && site.base_mm > 0, FALSE);
  double base = site.base_mm, length = length_mm (bail->rows, gauge), arc = length;
  if (bail->style == BW_BAIL_OVER)
    arc = fmax (length, base * (1 + FLATTEST));
  if (!(arc > base))
    return bw_fault_is (fault, BW_FAULTY_LOOP_SHORT, BW_AT_BAIL_ROWS, bail->rows, length, base);
  loop->length_mm = length;
  loop->base_mm = base;
  loop->half_angle = solve_half_angle (base / arc);
  loop->radius_mm = arc / (2 * loop->half_angle);
  loop->opening_mm = rise (base, loop->half_angle) - site.taken_mm;
  loop->largest_cord_mm = loop->opening_mm - bail->clearance_mm;
  loop->rows_needed = least_rows (bail, site, gauge);
  find_parity (loop, bail);
  return TRUE;
}

gboolean
bw_loop_init (BwLoop *loop, const BwBail *bail, const BwBead *bead, const BwGauge *gauge,
              BwFault *fault)
{
  g_return_val_if_fail (bail->style != BW_BAIL_OVER, FALSE);
  BwLoopSite site = { base_mm (bail, gauge), bead->diameter_mm };
  return bw_loop_solve (loop, bail, site, gauge, fault);
}

int
bw_bail_bead_count (const BwBail *bail)
{
  return bail->style == BW_BAIL_NONE ? 0 : bail->rows * (bail->columns / 2);
}

static gboolean
validate_columns (const BwBail *bail, int band_columns, BwFault *fault)
{
  if (bail->columns % 2) {
    return bw_fault_is (fault, BW_FAULTY_ODD_BAIL, BW_AT_BAIL_COLUMNS, bail->columns, 0, 0);
  }
  if (bail->style == BW_BAIL_NONE || bw_bail_is_strip (bail) || bail->columns <= band_columns - 2)
    return TRUE;
  if (band_columns < 4)
    return bw_fault_is (fault, BW_FAULTY_BAND_NARROW, BW_AT_BAIL_COLUMNS, band_columns, 0, 0);
  return bw_fault_is (fault, BW_FAULTY_BAIL_WIDE, BW_AT_BAIL_COLUMNS, bail->columns, band_columns,
                      MAX (0, band_columns - 2));
}

static gboolean
validate_base (const BwBail *bail, BwFault *fault)
{
  if (!bw_check_range (bail->base_beads, 0.5, BW_ROWS_MAX, BW_AT_BAIL_BASE_BEADS, fault))
    return FALSE;
  double halves = 2 * bail->base_beads;
  if (halves == floor (halves))
    return TRUE;
  return bw_fault_is (fault, BW_FAULTY_HALF_BEADS, BW_AT_BAIL_BASE_BEADS, bail->base_beads, 0, 0);
}

gboolean
bw_bail_validate (const BwBail *bail, int band_columns, BwFault *fault)
{
  return bw_check_range (bail->columns, BW_COLUMNS_MIN, BW_COLUMNS_MAX, BW_AT_BAIL_COLUMNS, fault)
         && validate_columns (bail, band_columns, fault)
         && bw_check_range (bail->rows, BW_ROWS_MIN, BW_ROWS_MAX, BW_AT_BAIL_ROWS, fault)
         && validate_base (bail, fault)
         && bw_check_range (bail->at_deg, -BW_ANGLE_MAX_DEG, BW_ANGLE_MAX_DEG, BW_AT_BAIL_AT, fault)
         && bw_check_range (bail->cord_mm, 0, BW_LENGTH_MAX_MM, BW_AT_BAIL_CORD, fault)
         && bw_check_range (bail->clearance_mm, 0, BW_LENGTH_MAX_MM, BW_AT_BAIL_CLEARANCE, fault);
}
