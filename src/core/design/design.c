/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The design as a whole: the defaults a maker starts from, and the one check after which everything
 * downstream may take it as sound. */
#include "config.h"

#include "core/design/design.h"
#include "core/base/fault.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

/* Rounding when a band is set flush with an end of the stone. */
#define FLUSH_MM 1e-9

/* Common practice, no source, where nothing else is said. */
static void
default_work (BwDesign *design)
{
  design->bed = (BwBed){
    .cord_thickness_mm = 0.35, .cord_width_mm = 1, .layers = 1, .squeeze = 0.15, .overhang_mm = 1
  };
  design->bail = (BwBail){ .style = BW_BAIL_NONE,
                           .columns = 6,
                           .rows = 23,
                           .base_beads = 3,
                           .at_deg = 180,
                           .cord_mm = 3,
                           .clearance_mm = 2 };
  design->thread = (BwThread){
    .diameter_mm = 0.15, .needle_mm = 0.36, .working_mm = 2000, .tail_mm = 90, .stretch = 0.01
  };
  design->limits = (BwFitLimits){ .slack_mm = 0.8, .friction = 0.2 };
}

double
bw_closing_usual_mm (BwClosing closing)
{
  switch (closing) {
  case BW_CLOSING_SLIDING:
    return 300;
  case BW_CLOSING_CLASP:
    return 30;
  case BW_CLOSING_KNOT:
  default:
    return 150;
  }
}

/* Prices are examples; they count only once the maker gives some. */
static void
default_supply (BwSupply *supply)
{
  *supply = (BwSupply){ .spare = 0.10,
                        .pack_g = 5,
                        .pieces = 1,
                        .neck_mm = 18 * 25.4, /* "princess": International Gem Society */
                        .closing = BW_CLOSING_KNOT,
                        .closing_mm = bw_closing_usual_mm (BW_CLOSING_KNOT),
                        .currency = "EUR",
                        .pack = 3.2,
                        .thread_per_m = 0.25,
                        .bed_cord_per_m = 0.12,
                        .stone = 9.5,
                        .hour = 16,
                        .rows_per_hour = 22 };
}

void
bw_design_defaults (BwDesign *design)
{
  memset (design, 0, sizeof *design);
  design->stone.base = BW_BASE_FLAT;
  design->stone.girth_sd_mm = 0.4;    /* common practice, no source */
  design->stone.density_g_cm3 = 2.65; /* quartz: A. H. Church, Precious Stones */
  design->bead.glass_g_cm3 = 2.5;     /* soda-lime glass */
  design->band.seam_deg = 180;
  default_work (design);
  default_supply (&design->supply);
}

BwBandSpan
bw_design_span (const BwDesign *design)
{
  return (BwBandSpan){ design->band.bottom_mm, design->band.columns * design->gauge.column_mm };
}

double
bw_design_centred_bottom (const BwDesign *design, const BwStone *stone)
{
  double width = bw_design_span (design).width_mm;
  double middle = (stone->base_shoulder_mm + stone->shoulder_mm) / 2;
  return MAX (0.0, MIN (middle - width / 2, stone->length_mm - width));
}

static gboolean
validate_columns (int columns, GError **error)
{
  if (!bw_fault_check_range (columns, BW_COLUMNS_MIN, BW_COLUMNS_MAX, "/band/columns", error))
    return FALSE;
  if (columns % 2 == 0)
    return TRUE;
  bw_fault_set (error, BW_FAULT_RANGE, "/band/columns",
                _ ("%d columns cannot be woven in even-count peyote; the number must be even."),
                columns);
  return FALSE;
}

static gboolean
validate_band (const BwBand *band, GError **error)
{
  return validate_columns (band->columns, error)
         && bw_fault_check_range (band->rows, BW_ROWS_MIN, BW_ROWS_MAX, "/band/rows", error)
         && bw_fault_check_range (band->bottom_mm, 0, BW_LENGTH_MAX_MM, "/band/bottom_mm", error)
         && bw_fault_check_range (band->seam_deg, -BW_ANGLE_MAX_DEG, BW_ANGLE_MAX_DEG,
                                  "/band/seam_deg", error);
}

/* What must go through the hole is thinner than it. */
static gboolean
check_goes_through (double thickness, double hole, const char *pointer, GError **error)
{
  if (thickness < hole)
    return TRUE;
  bw_fault_set (error, BW_FAULT_GEOMETRY, pointer,
                _ ("%.10g mm does not go through a hole of %.10g mm; it must be thinner."),
                thickness, hole);
  return FALSE;
}

static gboolean
validate_thread (const BwThread *thread, double hole, GError **error)
{
  return bw_fault_check_range (thread->diameter_mm, BW_LENGTH_MIN_MM, BW_LENGTH_MAX_MM,
                               "/thread/diameter_mm", error)
         && bw_fault_check_range (thread->needle_mm, BW_LENGTH_MIN_MM, BW_LENGTH_MAX_MM,
                                  "/thread/needle_mm", error)
         && bw_fault_check_range (thread->working_mm, 1, BW_STRIP_MAX_MM, "/thread/working_mm",
                                  error)
         && bw_fault_check_range (thread->tail_mm, 0, BW_STRIP_MAX_MM, "/thread/tail_mm", error)
         && bw_fault_check_range (thread->stretch, 0, 1, "/thread/stretch", error)
         && check_goes_through (thread->diameter_mm, hole, "/thread/diameter_mm", error)
         && check_goes_through (thread->needle_mm, hole, "/thread/needle_mm", error);
}

static gboolean
validate_prices (const BwSupply *supply, GError **error)
{
  const struct {
    double price;
    const char *pointer;
  } prices[] = {
    { supply->pack, "/materials/prices/pack" },
    { supply->thread_per_m, "/materials/prices/thread_per_m" },
    { supply->bed_cord_per_m, "/materials/prices/bed_cord_per_m" },
    { supply->stone, "/materials/prices/stone" },
    { supply->hour, "/materials/prices/hour" },
    { supply->hanging_cord_per_m, "/materials/prices/hanging_cord_per_m" },
    { supply->findings, "/materials/prices/findings" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (prices); i++)
    if (!bw_fault_check_range (prices[i].price, 0, BW_PRICE_MAX, prices[i].pointer, error))
      return FALSE;
  return bw_fault_check_range (supply->rows_per_hour, 0.01, BW_ROWS_MAX,
                               "/materials/prices/rows_per_hour", error);
}

gboolean
bw_supply_validate (const BwSupply *supply, GError **error)
{
  return bw_fault_check_range (supply->spare, 0, 10, "/materials/spare", error)
         && bw_fault_check_range (supply->pack_g, 0.001, BW_PACK_MAX_G, "/materials/pack_g", error)
         && bw_fault_check_range (supply->pieces, 1, BW_PIECES_MAX, "/materials/pieces", error)
         && bw_fault_check_range (supply->neck_mm, BW_NECK_MIN_MM, BW_NECK_MAX_MM,
                                  "/materials/neck_mm", error)
         && bw_fault_check_range (supply->closing_mm, 0, BW_CLOSING_MAX_MM, "/materials/closing_mm",
                                  error)
         && (!supply->has_prices || validate_prices (supply, error));
}

static gboolean
validate_limits (const BwDesign *design, GError **error)
{
  return bw_fault_check_range (design->limits.slack_mm, 0, BW_LENGTH_MAX_MM, "/fit/slack_mm", error)
         && bw_fault_check_range (design->limits.friction, 0, 100, "/fit/friction", error)
         && bw_fault_check_range (design->pitch.mm, BW_LENGTH_MIN_MM, BW_STRIP_MAX_MM,
                                  "/progress/checks", error)
         && bw_fault_check_range (design->pitch.sd_mm, 0, BW_STRIP_MAX_MM, "/progress/checks",
                                  error);
}

static gboolean
check_lies_on_stone (const BwDesign *design, const BwStone *stone, GError **error)
{
  BwBandSpan span = bw_design_span (design);
  if (span.width_mm > stone->length_mm + FLUSH_MM) {
    bw_fault_set (
        error, BW_FAULT_GEOMETRY, "/band/columns",
        _ ("%d columns make a band %.10g mm wide, wider than the stone is long, %.10g mm."),
        design->band.columns, span.width_mm, stone->length_mm);
    return FALSE;
  }
  if (span.bottom_mm + span.width_mm <= stone->length_mm + FLUSH_MM)
    return TRUE;
  bw_fault_set (
      error, BW_FAULT_GEOMETRY, "/band/bottom_mm",
      _ ("A band %.10g mm wide that begins at %.10g mm reaches past the tip; it must begin "
         "at %.10g mm or lower."),
      span.width_mm, span.bottom_mm, stone->length_mm - span.width_mm);
  return FALSE;
}

/* The stone is nowhere wider than at its shoulders, so the longest way round needs no search. */
static gboolean
check_rows_suffice (const BwDesign *design, const BwStone *stone, const BwBedding *bedding,
                    GError **error)
{
  BwBandSpan span = bw_design_span (design);
  double scale = MAX (bw_stone_prism_scale (stone, stone->base_shoulder_mm),
                      bw_stone_prism_scale (stone, stone->shoulder_mm));
  double bed = MAX (bw_bedding_thickness (bedding, span.bottom_mm),
                    bw_bedding_thickness (bedding, span.bottom_mm + span.width_mm));
  double round = stone->girth_mm * scale + 2 * G_PI * (bed + design->bead.diameter_mm / 2);
  double most = BW_ROWS_MAX / 2 * design->pitch.mm;
  if (round <= most)
    return TRUE;
  bw_fault_set (
      error, BW_FAULT_GEOMETRY, "/gauge/pitch_mm",
      _ ("At a pitch of %.10g mm a round of %.4g mm would take more than the %d rows that "
         "are allowed."),
      design->pitch.mm, round, BW_ROWS_MAX);
  return FALSE;
}

/* The base of the bail lies on the band: across it for an upright strip, along it for the others.
 */
static gboolean
check_bail_base (const BwDesign *design, GError **error)
{
  gboolean upright = design->bail.style == BW_BAIL_UPRIGHT;
  double most = upright ? design->band.columns : design->band.rows / 2.0;
  if (design->bail.base_beads <= most)
    return TRUE;
  bw_fault_set (error, BW_FAULT_GEOMETRY, "/bail/base_beads",
                upright ? _ ("A base of %.10g columns is wider than the band's %.10g.")
                        : _ ("A base of %.10g beads is longer than the band's %.10g."),
                design->bail.base_beads, most);
  return FALSE;
}

static double
round_mm (const BwDesign *design)
{
  return design->band.rows / 2.0 * design->gauge.pitch_mm;
}

int
bw_design_bail_columns_most (const BwDesign *design)
{
  if (design->bail.style != BW_BAIL_UPRIGHT)
    return MAX (0, design->band.columns - 2);
  double most = floor (round_mm (design) / design->gauge.column_mm + FLUSH_MM);
  return (int)MIN (most, BW_COLUMNS_MAX) & ~1;
}

/* An upright strip's columns lie round the stone, and no further than once. */
static gboolean
check_bail_lies_round (const BwDesign *design, GError **error)
{
  double wide = design->bail.columns * design->gauge.column_mm, round = round_mm (design);
  if (design->bail.style != BW_BAIL_UPRIGHT
      || design->bail.columns <= bw_design_bail_columns_most (design))
    return TRUE;
  bw_fault_set (
      error, BW_FAULT_GEOMETRY, "/bail/columns",
      _ ("An upright strip of %d columns is %.4g mm wide, more than the %.4g mm round a band "
         "of %d rows."),
      design->bail.columns, wide, round, design->band.rows);
  return FALSE;
}

static gboolean
check_bail (const BwDesign *design, GError **error)
{
  BwLoop loop;
  return design->bail.style == BW_BAIL_NONE
         || (check_bail_base (design, error) && check_bail_lies_round (design, error)
             && bw_loop_init (&loop, &design->bail, &design->bead, &design->gauge, error));
}

static gboolean
validate_parts (const BwDesign *design, GError **error)
{
  return bw_bead_validate (&design->bead, error) && bw_gauge_validate (&design->gauge, error)
         && bw_bed_validate (&design->bed, error) && validate_band (&design->band, error)
         && bw_bail_validate (&design->bail, design->band.columns, error)
         && validate_thread (&design->thread, design->bead.hole_mm, error)
         && validate_limits (design, error) && bw_supply_validate (&design->supply, error);
}

gboolean
bw_design_validate (const BwDesign *design, BwStone *stone, GError **error)
{
  BwStone solved;
  BwBedding bedding;
  if (!bw_stone_init (&solved, &design->stone, error) || !validate_parts (design, error)
      || !check_lies_on_stone (design, &solved, error)
      || !bw_bedding_init (&bedding, &design->bed, &solved, bw_design_span (design), error)
      || !check_rows_suffice (design, &solved, &bedding, error) || !check_bail (design, error))
    return FALSE;
  if (stone)
    *stone = solved;
  return TRUE;
}
