/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pulling an edge moves the opposite one as far the other way: a flap's margins are equal and its
 * azimuth is that of its middle. So every pull comes down to one of three numbers. */
#include "config.h"

#include "editor/bail/bail-grip.h"

#include "core/base/lattice.h"
#include <math.h>

BwBailBox
bw_bail_box (const BwBailBase *base)
{
  return (BwBailBox){ (base->first_row - 1) / 2, (base->last_row - 1) / 2, base->bottom,
                      base->top };
}

BwBailBox
bw_bail_box_near (BwBailBox box, double u, int around)
{
  double turns = round ((u - (box.left + box.right) / 2) / around) * around;
  box.left += turns;
  box.right += turns;
  return box;
}

/* A distance within an edge's zone, for an outline so many pixels long that way. */
static gboolean
in_zone (double outside_px, double length_px, double reach_px)
{
  return outside_px <= reach_px && -outside_px <= MIN (reach_px, length_px / 4);
}

BwBailGrip
bw_bail_grip_at (const BwBandLayout *layout, BwBailBox box, double x, double y, double reach_px)
{
  BwBandPoint at = bw_band_layout_point (layout, x, y);
  box = bw_bail_box_near (box, at.u, bw_band_layout_around (layout));
  double pitch = bw_band_layout_pitch_px (layout), column = bw_band_layout_column_px (layout);
  double width = (box.right - box.left) * pitch, height = (box.top - box.bottom) * column;
  /* How far outside each edge the pixel lies; in the order of the grips. */
  double outside[4] = { (box.left - at.u) * pitch, (at.u - box.right) * pitch,
                        (box.bottom - at.v) * column, (at.v - box.top) * column };
  BwBailGrip best = BW_BAIL_GRIP_BODY;
  double nearest = G_MAXDOUBLE;
  for (int i = 0; i < 4; i++) {
    if (outside[i] > reach_px)
      return BW_BAIL_GRIP_NONE;
    if (!in_zone (outside[i], i < 2 ? width : height, reach_px) || fabs (outside[i]) >= nearest)
      continue;
    nearest = fabs (outside[i]);
    best = (BwBailGrip)(BW_BAIL_GRIP_LEFT + i);
  }
  return best;
}

static void
set_columns (BwDesign *design, double wanted)
{
  int most = bw_design_bail_columns_most (design), columns = bw_lattice_nearest (wanted, 0);
  if (most >= 2)
    design->bail.columns = CLAMP (columns, 2, most);
}

/* The greatest whole number of the right parity whose base of so many steps is shorter than the
 * strip, so that it arches. */
static int
most_that_arches (const BwDesign *design, double step_mm, int most, int parity)
{
  double length = (design->bail.rows + 1) * design->gauge.pitch_mm / 2;
  int least_long = (int)fmin (ceil (length / step_mm - 1e-9), most + 1.0);
  most = MIN (most, least_long - 1);
  return most - ((most - parity) & 1);
}

/* Along the upper edge, at most half round; any number of half beads. */
static void
set_base_over (BwDesign *design, double wanted_beads)
{
  int most = bw_lattice_beads_around (design->band.rows);
  design->bail.base_beads = CLAMP ((int)lround (2 * wanted_beads), 1, most) / 2.0;
}

static void
set_base (BwDesign *design, double wanted_beads)
{
  if (design->bail.style == BW_BAIL_OVER) {
    set_base_over (design, wanted_beads);
    return;
  }
  gboolean upright = design->bail.style == BW_BAIL_UPRIGHT;
  int per_bead = upright ? 1 : 2;
  int parity = upright ? 1 : (design->bail.rows + 1) % 2;
  double step_mm = upright ? design->gauge.column_mm : design->gauge.pitch_mm / 2;
  int least = parity ? 1 : 2;
  int most = most_that_arches (design, step_mm, upright ? design->band.columns : design->band.rows,
                               parity);
  if (most >= least)
    design->bail.base_beads
        = CLAMP (bw_lattice_nearest (wanted_beads * per_bead, parity), least, most)
          / (double)per_bead;
}

/* How much longer an outline gets when an edge of it is pulled, in its own unit. */
static double
growth (BwBailGrip grip, double along, double up)
{
  switch (grip) {
  case BW_BAIL_GRIP_LEFT:
    return -2 * along;
  case BW_BAIL_GRIP_RIGHT:
    return 2 * along;
  case BW_BAIL_GRIP_BOTTOM:
    return -2 * up;
  case BW_BAIL_GRIP_TOP:
    return 2 * up;
  case BW_BAIL_GRIP_NONE:
  case BW_BAIL_GRIP_BODY:
  default:
    return 0;
  }
}

static void
pull_edge (BwDesign *design, BwBailGrip grip, double grows)
{
  const BwBail bail = design->bail;
  gboolean along = grip == BW_BAIL_GRIP_LEFT || grip == BW_BAIL_GRIP_RIGHT;
  if (along && bail.style == BW_BAIL_UPRIGHT)
    set_columns (design, bail.columns + grows * design->gauge.pitch_mm / design->gauge.column_mm);
  else if (along || bail.style == BW_BAIL_UPRIGHT)
    set_base (design, bail.base_beads + grows);
  else
    set_columns (design, bail.columns + grows);
}

static void
move_by (BwDesign *design, const BwRing *ring, double rows)
{
  double from = bw_bail_nearest_row (design, bw_bail_row (design, ring, design->bail.at_deg));
  double to = bw_bail_nearest_row (design, from + rows);
  if (to != from)
    bw_bail_stand (design, ring, to);
}

void
bw_bail_pull (BwDesign *design, const BwDesign *from, const BwRing *ring, BwBailGrip grip,
              double along, double up)
{
  double grows = growth (grip, along, up);
  *design = *from;
  if (from->bail.style == BW_BAIL_NONE)
    return;
  if (grip == BW_BAIL_GRIP_BODY)
    move_by (design, ring, 2 * along);
  else if (fabs (grows) >= 0.5)
    pull_edge (design, grip, grows);
}

gboolean
bw_bail_step (BwDesign *design, const BwRing *ring, BwBailKnob knob, int by)
{
  const BwBail before = design->bail;
  if (before.style == BW_BAIL_NONE)
    return FALSE;
  switch (knob) {
  case BW_BAIL_PLACE:
    move_by (design, ring, by * bw_bail_row_step (&before));
    break;
  case BW_BAIL_COLUMNS:
    set_columns (design, before.columns + 2 * by);
    break;
  case BW_BAIL_BASE:
  default:
    set_base (design, before.base_beads
                          + (before.style == BW_BAIL_UPRIGHT ? 2
                             : before.style == BW_BAIL_OVER  ? 0.5
                                                             : 1)
                                * by);
    break;
  }
  return design->bail.columns != before.columns || design->bail.base_beads != before.base_beads
         || design->bail.at_deg != before.at_deg;
}
