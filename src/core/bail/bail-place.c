/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The needle, the drawing of the unrolled band and the hand that drags a bail ask the same
 * questions of where it stands; they are answered once, here, so that what is seen is what is sewn.
 */

#include "core/bail/bail-place.h"

#include "core/base/lattice.h"
#include "core/base/tolerance.h"
#include <math.h>

/* What of a turn counts as the join when a row is asked for: rows are written with fewer digits. */
#define JOIN_OF_A_TURN 1e-9

static int
period_of (const BwDesign *design)
{
  return 2 * bw_lattice_beads_around (design->band.rows);
}

double
bw_bail_row (const BwDesign *design, const BwRing *ring, double at_deg)
{
  double from_join = bw_ring_ray (ring, bw_radians (at_deg))
                     - bw_ring_ray (ring, bw_radians (design->band.seam_deg));
  double share = from_join / ring->length_mm;
  share -= floor (share);
  /* A hair before the join is the join. */
  return share > 1 - BW_ROUNDING_UNIT ? 1 : 1 + share * period_of (design);
}

double
bw_bail_azimuth (const BwDesign *design, const BwRing *ring, double row)
{
  double turns = (row - 1) / period_of (design);
  turns -= floor (turns);
  if (fmin (turns, 1 - turns) < JOIN_OF_A_TURN)
    return design->band.seam_deg;
  double start = bw_ring_ray (ring, bw_radians (design->band.seam_deg));
  double azimuth = bw_degrees (bw_ring_azimuth (ring, start + turns * ring->length_mm));
  return azimuth < 0 ? azimuth + 360 : azimuth;
}

/* Half pitches from the first to the last row a flap is sewn to. */
static int
base_rows (const BwBail *bail)
{
  return (int)lround (2 * bail->base_beads);
}

static int
margin_of (const BwDesign *design)
{
  return (design->band.columns - design->bail.columns) / 2;
}

static int
first_row_of_flap (const BwDesign *design, double middle)
{
  return bw_lattice_nearest (middle - base_rows (&design->bail) / 2.0, margin_of (design) % 2);
}

double
bw_bail_nearest_row (const BwDesign *design, double row)
{
  if (bw_bail_is_strip (&design->bail))
    return floor (row + 0.5);
  return first_row_of_flap (design, row) + base_rows (&design->bail) / 2.0;
}

int
bw_bail_row_step (const BwBail *bail)
{
  return bw_bail_is_strip (bail) ? 1 : 2;
}

void
bw_bail_stand (BwDesign *design, const BwRing *ring, double row)
{
  double azimuth = bw_bail_azimuth (design, ring, bw_bail_nearest_row (design, row));
  if (azimuth != design->band.seam_deg)
    azimuth = floor (azimuth * 100 + 0.5) / 100;
  design->bail.at_deg = azimuth;
}

static void
take_flap (BwBailBase *base, const BwDesign *design, double middle)
{
  const BwBail *bail = &design->bail;
  int length = base_rows (bail);
  base->margin = margin_of (design);
  base->first_row = first_row_of_flap (design, middle);
  /* A base of the wrong parity is sewn down one row further on. */
  base->last_row = base->first_row + length + (length + bail->rows + 1) % 2;
  base->bottom = base->margin;
  base->top = base->margin + bail->columns;
}

static void
take_upright (BwBailBase *base, const BwDesign *design, double middle)
{
  const BwBail *bail = &design->bail;
  int columns = design->band.columns;
  double centre = (columns + 1) / 2.0, half = bail->base_beads / 2;
  double aside = bail->columns * design->gauge.column_mm / design->gauge.pitch_mm;
  base->first_row = middle - aside;
  base->last_row = middle + aside;
  base->column[0] = CLAMP ((int)lround (centre - half), 1, columns);
  base->column[1] = CLAMP ((int)lround (centre + half), 1, columns);
  base->bottom = base->column[0] - 1;
  base->top = base->column[1];
  for (int foot = 0; foot < 2; foot++) {
    base->foot_row[foot] = middle;
    base->sense[foot] = -1;
  }
}

static void
take_over (BwBailBase *base, const BwDesign *design, double middle)
{
  double half = fmin (design->bail.base_beads, period_of (design) / 4.0);
  for (int foot = 0; foot < 2; foot++) {
    base->foot_row[foot] = foot ? middle + half : middle - half;
    base->sense[foot] = foot ? 1 : -1;
    base->column[foot] = design->band.columns;
  }
  base->first_row = base->foot_row[0];
  base->last_row = base->foot_row[1];
  base->bottom = design->band.columns - 1;
  base->top = design->band.columns;
}

void
bw_bail_base_init (BwBailBase *base, const BwDesign *design, const BwRing *ring)
{
  double middle = bw_bail_row (design, ring, design->bail.at_deg);
  *base = (BwBailBase){ 0 };
  if (design->bail.style == BW_BAIL_UPRIGHT)
    take_upright (base, design, middle);
  else if (design->bail.style == BW_BAIL_OVER)
    take_over (base, design, middle);
  else
    take_flap (base, design, middle);
}

int
bw_bail_azimuths (double at_deg[2], const BwDesign *design, const BwRing *ring)
{
  BwBailBase base;
  if (design->bail.style == BW_BAIL_NONE)
    return 0;
  at_deg[0] = design->bail.at_deg;
  if (design->bail.style != BW_BAIL_OVER)
    return 1;
  bw_bail_base_init (&base, design, ring);
  for (int foot = 0; foot < 2; foot++)
    at_deg[foot] = bw_bail_azimuth (design, ring, base.foot_row[foot]);
  return 2;
}
