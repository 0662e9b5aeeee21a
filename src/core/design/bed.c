/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bed as wound and as felt: how thick the cord lies under each column, and how much of it there
 * is. */

#include "core/design/bed.h"
#include "core/base/fault.h"
#include "core/base/tolerance.h"
#include "core/stone/section.h"

#define CORD_TAILS_MM 200.0   /* common practice, no source */
#define CORD_G_PER_MM3 0.0012 /* waxed cord, 1.2 g/cm³: common practice, no source */

static double
girth_at (const BwStone *stone, double z)
{
  BwSection section;
  bw_section_init (&section, stone, z);
  return section.girth_mm;
}

/* Thickness at the bottom edge: the thickness in the middle, less half the grade, when it is the
 * middle that was measured. */
static double
bottom_thickness (const BwBed *bed, const BwStone *stone, BwBandSpan span)
{
  if (!bed->has_girth_over)
    return bed->layers * bed->cord_thickness_mm;
  double over = bed->girth_over_mm - girth_at (stone, bw_band_span_mid (span));
  return over / (2 * G_PI) - bed->top_extra_mm / 2;
}

/* A slip of the decimal point would be woven round in all seriousness, and take seconds to solve.
 */
static gboolean
check_girth_over (const BwBed *bed, const BwStone *stone, BwBandSpan span, BwFault *fault)
{
  double girth = girth_at (stone, bw_band_span_mid (span));
  if (!bed->has_girth_over || bed->girth_over_mm <= BW_GIRTH_OVER_TIMES * girth)
    return TRUE;
  return bw_fault_is (fault, BW_FAULTY_GIRTH_FAR, BW_AT_BED_GIRTH_OVER, bed->girth_over_mm, girth,
                      0);
}

static gboolean
check_thickness (const BwBed *bed, double bottom, BwFault *fault)
{
  double middle = bottom + bed->top_extra_mm / 2;
  double least = MIN (bottom, bottom + bed->top_extra_mm);
  if (least >= -BW_ROUNDING_MM)
    return TRUE;
  if (bed->has_girth_over && middle < 0)
    return bw_fault_is (fault, BW_FAULTY_GIRTH_UNDER, BW_AT_BED_GIRTH_OVER, bed->girth_over_mm,
                        bed->girth_over_mm - 2 * G_PI * middle, 0);
  else
    return bw_fault_is (fault, BW_FAULTY_BED_UNDER, BW_AT_BED_TOP_EXTRA, bed->top_extra_mm, least,
                        0);
}

gboolean
bw_bedding_init (BwBedding *bedding, const BwBed *bed, const BwStone *stone, BwBandSpan span,
                 BwFault *fault)
{
  if (!bw_bed_validate (bed, fault) || !check_girth_over (bed, stone, span, fault))
    return FALSE;
  double bottom = bottom_thickness (bed, stone, span);
  if (!check_thickness (bed, bottom, fault))
    return FALSE;
  bedding->bottom_mm = bottom;
  bedding->slope = bed->top_extra_mm / span.width_mm;
  bedding->origin_mm = span.bottom_mm;
  bedding->squeeze = bed->squeeze;
  return TRUE;
}

double
bw_bedding_thickness (const BwBedding *bedding, double z_mm)
{
  return bedding->bottom_mm + bedding->slope * (z_mm - bedding->origin_mm);
}

double
bw_bedding_squeezed (const BwBedding *bedding, double z_mm)
{
  return bw_bedding_thickness (bedding, z_mm) * (1 - bedding->squeeze);
}

double
bw_bed_width_mm (const BwBed *bed, BwBandSpan span)
{
  return MAX (0.0, span.width_mm - 2 * bed->overhang_mm);
}

double
bw_bed_wound_mm (const BwBed *bed, const BwStone *stone, BwBandSpan span)
{
  double girth = girth_at (stone, bw_band_span_mid (span));
  double thick = bottom_thickness (bed, stone, span) + bed->top_extra_mm / 2;
  double turns = bw_bed_width_mm (bed, span) / bed->cord_width_mm;
  if (thick <= BW_ROUNDING_MM)
    return 0;
  return turns * (girth * thick + G_PI * thick * thick) / bed->cord_thickness_mm;
}

double
bw_bed_cord_mm (const BwBed *bed, const BwStone *stone, BwBandSpan span)
{
  double wound = bw_bed_wound_mm (bed, stone, span);
  return wound > 0 ? wound + CORD_TAILS_MM : 0;
}

double
bw_bed_mass_g (const BwBed *bed, const BwStone *stone, BwBandSpan span)
{
  return CORD_G_PER_MM3 * bw_bed_wound_mm (bed, stone, span) * bed->cord_thickness_mm
         * bed->cord_width_mm;
}

gboolean
bw_bed_validate (const BwBed *bed, BwFault *fault)
{
  return bw_check_range (bed->cord_thickness_mm, BW_LENGTH_MIN_MM, BW_LENGTH_MAX_MM,
                         BW_AT_BED_CORD_THICKNESS, fault)
         && bw_check_range (bed->cord_width_mm, BW_LENGTH_MIN_MM, BW_LENGTH_MAX_MM,
                            BW_AT_BED_CORD_WIDTH, fault)
         && bw_check_range (bed->layers, 0, BW_LAYERS_MAX, BW_AT_BED_LAYERS, fault)
         && bw_check_range (bed->top_extra_mm, -BW_LENGTH_MAX_MM, BW_LENGTH_MAX_MM,
                            BW_AT_BED_TOP_EXTRA, fault)
         && bw_check_range (bed->squeeze, 0, BW_SQUEEZE_MOST, BW_AT_BED_SQUEEZE, fault)
         && bw_check_range (bed->overhang_mm, 0, BW_LENGTH_MAX_MM, BW_AT_BED_OVERHANG, fault)
         && (!bed->has_hands || bw_squeeze_hands_validate (&bed->hands, fault))
         && (!bed->has_pulled || bw_squeeze_reading_validate (&bed->pulled, fault))
         && (!bed->has_girth_over
             || bw_check_range (bed->girth_over_mm, BW_LENGTH_MIN_MM, BW_GIRTH_MAX_MM,
                                BW_AT_BED_GIRTH_OVER, fault));
}
