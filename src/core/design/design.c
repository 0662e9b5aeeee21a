/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The design as a whole: the defaults a maker starts from, and the one check after which everything
 * downstream may take it as sound. */

#include "core/design/design.h"
#include "core/base/fault.h"
#include "core/base/tolerance.h"

#include <math.h>
#include <string.h>

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

static void
give_bed (BwBed *bed)
{
  gboolean reads = bed->has_pulled && bw_squeeze_reading_validate (&bed->pulled, NULL);
  BwGive said = reads ? bw_squeeze_said (&bed->pulled) : (BwGive){ 0 };
  bw_give_settle (bed->has_hands ? &bed->hands : NULL, reads ? &said : NULL, bw_squeeze_usual (),
                  BW_SQUEEZE_MOST, &bed->squeeze, &bed->squeeze_sd);
}

static void
give_thread (BwThread *thread)
{
  gboolean reads = thread->has_pulled && bw_stretch_reading_validate (&thread->pulled, NULL);
  BwGive said = reads ? bw_stretch_said (&thread->pulled) : (BwGive){ 0 };
  bw_give_settle (thread->has_hands ? &thread->hands : NULL, reads ? &said : NULL,
                  bw_stretch_usual (), BW_STRETCH_MOST, &thread->stretch, &thread->stretch_sd);
}

void
bw_design_give (BwDesign *design)
{
  give_bed (&design->bed);
  give_thread (&design->thread);
}

void
bw_bed_unlearn (BwBed *bed)
{
  if (bed->has_hands || bed->has_pulled)
    bed->squeeze = bw_squeeze_usual ().share;
  bed->squeeze_sd = 0;
  bed->has_hands = bed->has_pulled = FALSE;
}

void
bw_thread_unlearn (BwThread *thread)
{
  if (thread->has_hands || thread->has_pulled)
    thread->stretch = bw_stretch_usual ().share;
  thread->stretch_sd = 0;
  thread->has_hands = thread->has_pulled = FALSE;
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
validate_columns (int columns, BwFault *fault)
{
  if (!bw_check_range (columns, BW_COLUMNS_MIN, BW_COLUMNS_MAX, BW_AT_BAND_COLUMNS, fault))
    return FALSE;
  if (columns % 2 == 0)
    return TRUE;
  return bw_fault_is (fault, BW_FAULTY_ODD_COLUMNS, BW_AT_BAND_COLUMNS, columns, 0, 0);
}

static gboolean
validate_band (const BwBand *band, BwFault *fault)
{
  return validate_columns (band->columns, fault)
         && bw_check_range (band->rows, BW_ROWS_MIN, BW_ROWS_MAX, BW_AT_BAND_ROWS, fault)
         && bw_check_range (band->bottom_mm, 0, BW_LENGTH_MAX_MM, BW_AT_BAND_BOTTOM, fault)
         && bw_check_range (band->seam_deg, -BW_ANGLE_MAX_DEG, BW_ANGLE_MAX_DEG, BW_AT_BAND_SEAM,
                            fault);
}

/* What must go through the hole is thinner than it. */
static gboolean
check_goes_through (double thickness, double hole, BwFaultKey key, BwFault *fault)
{
  if (thickness < hole)
    return TRUE;
  return bw_fault_is (fault, BW_FAULTY_HOLE_TOO_SMALL, key, thickness, hole, 0);
}

static gboolean
validate_thread (const BwThread *thread, double hole, BwFault *fault)
{
  return bw_check_range (thread->diameter_mm, BW_LENGTH_MIN_MM, BW_LENGTH_MAX_MM,
                         BW_AT_THREAD_DIAMETER, fault)
         && bw_check_range (thread->needle_mm, BW_LENGTH_MIN_MM, BW_LENGTH_MAX_MM,
                            BW_AT_THREAD_NEEDLE, fault)
         && bw_check_range (thread->working_mm, 1, BW_STRIP_MAX_MM, BW_AT_THREAD_WORKING, fault)
         && bw_check_range (thread->tail_mm, 0, BW_STRIP_MAX_MM, BW_AT_THREAD_TAIL, fault)
         && bw_check_range (thread->stretch, 0, BW_STRETCH_MOST, BW_AT_THREAD_STRETCH, fault)
         && (!thread->has_hands || bw_stretch_hands_validate (&thread->hands, fault))
         && (!thread->has_pulled || bw_stretch_reading_validate (&thread->pulled, fault))
         && check_goes_through (thread->diameter_mm, hole, BW_AT_THREAD_DIAMETER, fault)
         && check_goes_through (thread->needle_mm, hole, BW_AT_THREAD_NEEDLE, fault);
}

void
bw_supply_keep_pace (BwSupply *supply, int columns_before, int columns)
{
  if (supply->has_prices && supply->pace_columns == 0 && columns != columns_before)
    supply->pace_columns = columns_before;
}

static gboolean
validate_prices (const BwSupply *supply, BwFault *fault)
{
  const struct {
    double price;
    BwFaultKey key;
  } prices[] = {
    { supply->pack, BW_AT_PRICES_PACK },
    { supply->thread_per_m, BW_AT_PRICES_THREAD },
    { supply->bed_cord_per_m, BW_AT_PRICES_BED_CORD },
    { supply->stone, BW_AT_PRICES_STONE },
    { supply->hour, BW_AT_PRICES_HOUR },
    { supply->hanging_cord_per_m, BW_AT_PRICES_HANGING_CORD },
    { supply->findings, BW_AT_PRICES_FINDINGS },
    { supply->round_to, BW_AT_PRICES_ROUND_TO },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (prices); i++)
    if (!bw_check_range (prices[i].price, 0, BW_PRICE_MAX, prices[i].key, fault))
      return FALSE;
  return bw_check_range (supply->markup, 0, BW_MARKUP_MAX, BW_AT_PRICES_MARKUP, fault)
         && bw_check_range (supply->pace_columns, 0, BW_COLUMNS_MAX, BW_AT_PRICES_PACE_COLUMNS,
                            fault)
         && bw_check_range (supply->rows_per_hour, 0.01, BW_ROWS_MAX, BW_AT_PRICES_ROWS_PER_HOUR,
                            fault);
}

gboolean
bw_supply_validate (const BwSupply *supply, BwFault *fault)
{
  return bw_check_range (supply->spare, 0, 10, BW_AT_MATERIALS_SPARE, fault)
         && bw_check_range (supply->pack_g, 0.001, BW_PACK_MAX_G, BW_AT_MATERIALS_PACK_G, fault)
         && bw_check_range (supply->pieces, 1, BW_PIECES_MAX, BW_AT_MATERIALS_PIECES, fault)
         && bw_check_range (supply->neck_mm, BW_NECK_MIN_MM, BW_NECK_MAX_MM, BW_AT_MATERIALS_NECK,
                            fault)
         && bw_check_range (supply->closing_mm, 0, BW_CLOSING_MAX_MM, BW_AT_MATERIALS_CLOSING,
                            fault)
         && (!supply->has_prices || validate_prices (supply, fault));
}

static gboolean
validate_limits (const BwDesign *design, BwFault *fault)
{
  return bw_check_range (design->limits.slack_mm, 0, BW_LENGTH_MAX_MM, BW_AT_FIT_SLACK, fault)
         && bw_check_range (design->limits.friction, 0, 100, BW_AT_FIT_FRICTION, fault)
         && bw_check_range (design->pitch.mm, BW_LENGTH_MIN_MM, BW_STRIP_MAX_MM,
                            BW_AT_PROGRESS_CHECKS, fault)
         && bw_check_range (design->pitch.sd_mm, 0, BW_STRIP_MAX_MM, BW_AT_PROGRESS_CHECKS, fault);
}

static gboolean
check_lies_on_stone (const BwDesign *design, const BwStone *stone, BwFault *fault)
{
  BwBandSpan span = bw_design_span (design);
  if (span.width_mm > stone->length_mm + BW_ROUNDING_MM) {
    return bw_fault_is (fault, BW_FAULTY_BAND_WIDE, BW_AT_BAND_COLUMNS, design->band.columns,
                        span.width_mm, stone->length_mm);
  }
  if (span.bottom_mm + span.width_mm <= stone->length_mm + BW_ROUNDING_MM)
    return TRUE;
  return bw_fault_is (fault, BW_FAULTY_BAND_HIGH, BW_AT_BAND_BOTTOM, span.width_mm, span.bottom_mm,
                      stone->length_mm - span.width_mm);
}

/* The stone is nowhere wider than at its shoulders, so the longest way round needs no search. */
static gboolean
check_rows_suffice (const BwDesign *design, const BwStone *stone, const BwBedding *bedding,
                    BwFault *fault)
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
  return bw_fault_is (fault, BW_FAULTY_ROUND_LONG, BW_AT_GAUGE_PITCH, design->pitch.mm, round,
                      BW_ROWS_MAX);
}

/* The base of the bail lies on the band: across it for an upright strip, along it for the others. A
 * loop over the tip never reaches farther than half round. */
static gboolean
check_bail_base (const BwDesign *design, BwFault *fault)
{
  gboolean upright = design->bail.style == BW_BAIL_UPRIGHT;
  double most = upright ? design->band.columns : design->band.rows / 2.0;
  if (design->bail.style == BW_BAIL_OVER || design->bail.base_beads <= most)
    return TRUE;
  return bw_fault_is (fault, upright ? BW_FAULTY_BASE_WIDE : BW_FAULTY_BASE_LONG,
                      BW_AT_BAIL_BASE_BEADS, design->bail.base_beads, most, 0);
}

static double
round_mm (const BwDesign *design)
{
  return design->band.rows / 2.0 * design->gauge.pitch_mm;
}

int
bw_design_bail_columns_most (const BwDesign *design)
{
  if (!bw_bail_is_strip (&design->bail))
    return MAX (0, design->band.columns - 2);
  double most = floor (round_mm (design) / design->gauge.column_mm + BW_ROUNDING_WHOLE);
  return (int)MIN (most, BW_COLUMNS_MAX) & ~1;
}

/* A strip's columns lie round the stone, and no further than once. */
static gboolean
check_bail_lies_round (const BwDesign *design, BwFault *fault)
{
  double wide = design->bail.columns * design->gauge.column_mm, round = round_mm (design);
  if (!bw_bail_is_strip (&design->bail)
      || design->bail.columns <= bw_design_bail_columns_most (design))
    return TRUE;
  return bw_fault_is (fault, BW_FAULTY_STRIP_WIDE, BW_AT_BAIL_COLUMNS, design->bail.columns, wide,
                      round);
}

static gboolean
check_bail (const BwDesign *design, BwFault *fault)
{
  BwLoop loop;
  return design->bail.style == BW_BAIL_NONE
         || (check_bail_base (design, fault) && check_bail_lies_round (design, fault)
             && (design->bail.style == BW_BAIL_OVER
                 || bw_loop_init (&loop, &design->bail, &design->bead, &design->gauge, fault)));
}

static gboolean
validate_parts (const BwDesign *design, BwFault *fault)
{
  return bw_stone_look_validate (&design->look, fault) && bw_bead_validate (&design->bead, fault)
         && bw_gauge_validate (&design->gauge, fault) && bw_bed_validate (&design->bed, fault)
         && validate_band (&design->band, fault)
         && bw_bail_validate (&design->bail, design->band.columns, fault)
         && validate_thread (&design->thread, design->bead.hole_mm, fault)
         && validate_limits (design, fault) && bw_supply_validate (&design->supply, fault);
}

gboolean
bw_design_validate (const BwDesign *design, BwStone *stone, BwFault *fault)
{
  BwStone solved;
  BwBedding bedding;
  if (!bw_stone_init (&solved, &design->stone, fault) || !validate_parts (design, fault)
      || !check_lies_on_stone (design, &solved, fault)
      || !bw_bedding_init (&bedding, &design->bed, &solved, bw_design_span (design), fault)
      || !check_rows_suffice (design, &solved, &bedding, fault) || !check_bail (design, fault))
    return FALSE;
  if (stone)
    *stone = solved;
  return TRUE;
}
