/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The design as a whole: its defaults, and whether its parts can be together. */
#include "config.h"
#include "design.h"

#include "fault.h"
#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

void
bw_design_defaults (BwDesign *design)
{
  memset (design, 0, sizeof *design);
  design->stone.girth_sd_mm = 0.4;    /* common practice, no source */
  design->stone.density_g_cm3 = 2.65; /* quartz, Handbook of Mineralogy, vol. II, 1995 */
  design->bead.glass_g_cm3 = 2.5;
  design->bed = (BwBed){ .cord_thickness_mm = 0.35,
                         .cord_width_mm = 1.0,
                         .layers = 1,
                         .squeeze = 0.15,
                         .overhang_mm = 1.0 };
  design->band.seam_deg = 180;
  design->bail = (BwBail){ .style = BW_BAIL_NONE,
                           .columns = 6,
                           .rows = 23,
                           .base_beads = 3,
                           .at_deg = 180,
                           .cord_mm = 3,
                           .clearance_mm = 2 };
  design->thread = (BwThread){ 0.15, 0.36, 2000, 90, 0.01 };
  design->limits = (BwFitLimits){ 0.8, 0.2 };
  design->supply = (BwSupply){ .spare = 0.10, .pack_g = 5, .pieces = 1, .rows_per_hour = 1 };
}

BwBandSpan
bw_design_span (const BwDesign *design)
{
  return (BwBandSpan){ design->band.bottom_mm, design->band.columns * design->gauge.column_mm };
}

double
bw_design_centred_bottom (const BwDesign *design, const BwStone *stone)
{
  double middle = (stone->base_shoulder_mm + stone->shoulder_mm) / 2;
  return middle - bw_design_span (design).width_mm / 2;
}

static gboolean
check_columns (const BwBand *band, GError **error)
{
  if (!bw_fault_check_range (band->columns, BW_COLUMNS_MIN, BW_COLUMNS_MAX, "/band/columns", error))
    return FALSE;
  if (band->columns % 2 == 0)
    return TRUE;
  bw_fault_set (error, BW_FAULT_RANGE, "/band/columns",
                _ ("%d was found; even-count peyote needs an even number of columns."),
                band->columns);
  return FALSE;
}

static gboolean
check_on_stone (const BwDesign *design, const BwStone *stone, GError **error)
{
  BwBandSpan span = bw_design_span (design);
  double top = span.bottom_mm + span.width_mm;
  if (span.width_mm >= stone->length_mm) {
    bw_fault_set (error, BW_FAULT_GEOMETRY, "/band/columns",
                  _ ("A band of %d columns is %.2f mm wide and does not fit on a stone of %g mm."),
                  design->band.columns, span.width_mm, stone->length_mm);
    return FALSE;
  }
  if (span.bottom_mm >= 0 && top <= stone->length_mm)
    return TRUE;
  bw_fault_set (error, BW_FAULT_GEOMETRY, "/band/bottom_mm",
                _ ("A band from %.2f to %.2f mm is off the stone, which reaches from 0 to %g mm."),
                span.bottom_mm, top, stone->length_mm);
  return FALSE;
}

static gboolean
check_band (const BwDesign *design, const BwStone *stone, GError **error)
{
  return check_columns (&design->band, error)
         && bw_fault_check_range (design->band.rows, BW_ROWS_MIN, BW_ROWS_MAX, "/band/rows", error)
         && bw_fault_check_range (design->band.bottom_mm, -BW_LENGTH_MAX_MM, BW_LENGTH_MAX_MM,
                                  "/band/bottom_mm", error)
         && bw_fault_check_range (design->band.seam_deg, -3600, 3600, "/band/seam_deg", error)
         && check_on_stone (design, stone, error);
}

/* A part that must go through the hole alone, at least. */
static gboolean
check_through_hole (double thickness, double hole, const char *pointer, GError **error)
{
  if (thickness < hole)
    return TRUE;
  bw_fault_set (error, BW_FAULT_GEOMETRY, pointer,
                _ ("%g mm does not go through the bead's hole of %g mm."), thickness, hole);
  return FALSE;
}

static gboolean
check_thread (const BwDesign *design, GError **error)
{
  const BwThread *t = &design->thread;
  return bw_fault_check_range (t->diameter_mm, 0.01, 10, "/thread/diameter_mm", error)
         && bw_fault_check_range (t->needle_mm, 0.01, 10, "/thread/needle_mm", error)
         && bw_fault_check_range (t->working_mm, 100, 100000, "/thread/working_mm", error)
         && bw_fault_check_range (t->tail_mm, 0, 1000, "/thread/tail_mm", error)
         && bw_fault_check_range (t->stretch, 0, 0.5, "/thread/stretch", error)
         && check_through_hole (t->diameter_mm, design->bead.hole_mm, "/thread/diameter_mm", error)
         && check_through_hole (t->needle_mm, design->bead.hole_mm, "/thread/needle_mm", error);
}

static gboolean
check_prices (const BwSupply *s, GError **error)
{
  if (!s->has_prices)
    return TRUE;
  return bw_fault_check_range (s->pack, 0, 1e9, "/materials/prices/pack", error)
         && bw_fault_check_range (s->thread_per_m, 0, 1e9, "/materials/prices/thread_per_m", error)
         && bw_fault_check_range (s->bed_cord_per_m, 0, 1e9, "/materials/prices/bed_cord_per_m",
                                  error)
         && bw_fault_check_range (s->stone, 0, 1e9, "/materials/prices/stone", error)
         && bw_fault_check_range (s->hour, 0, 1e9, "/materials/prices/hour", error)
         && bw_fault_check_range (s->rows_per_hour, 0.01, 1e6, "/materials/prices/rows_per_hour",
                                  error);
}

static gboolean
check_supply (const BwSupply *s, GError **error)
{
  return bw_fault_check_range (s->spare, 0, 10, "/materials/spare", error)
         && bw_fault_check_range (s->pack_g, 0.01, 1e6, "/materials/pack_g", error)
         && bw_fault_check_range (s->pieces, 1, 100000, "/materials/pieces", error)
         && check_prices (s, error);
}

static gboolean
check_limits (const BwFitLimits *limits, GError **error)
{
  return bw_fault_check_range (limits->slack_mm, 0, 100, "/fit/slack_mm", error)
         && bw_fault_check_range (limits->friction, 0, 10, "/fit/friction", error);
}

/* A bail that cannot arch would leave nothing to hang by. */
static gboolean
check_bail (const BwDesign *design, GError **error)
{
  BwLoop loop;
  if (design->bail.style == BW_BAIL_NONE)
    return TRUE;
  return bw_bail_validate (&design->bail, design->band.columns, error)
         && bw_loop_init (&loop, &design->bail, &design->bead, &design->gauge, error);
}

gboolean
bw_design_validate (const BwDesign *design, BwStone *stone, GError **error)
{
  BwStone solved;
  BwBedding bedding;
  if (!bw_stone_init (&solved, &design->stone, error) || !bw_bead_validate (&design->bead, error)
      || !bw_gauge_validate (&design->gauge, error) || !bw_bed_validate (&design->bed, error)
      || !check_band (design, &solved, error)
      || !bw_bedding_init (&bedding, &design->bed, &solved, bw_design_span (design), error)
      || !check_thread (design, error) || !check_limits (&design->limits, error)
      || !check_bail (design, error) || !check_supply (&design->supply, error))
    return FALSE;
  if (stone)
    *stone = solved;
  return TRUE;
}
