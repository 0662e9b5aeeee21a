/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bed as wound and as felt: how thick the cord lies under each column, and how much of it there
 * is. */
#include "config.h"

#include "core/design/bed.h"
#include "core/base/fault.h"
#include "core/stone/section.h"

#include <glib/gi18n-lib.h>

#define CORD_TAILS_MM 200.0   /* common practice, no source */
#define CORD_G_PER_MM3 0.0012 /* waxed cord, 1.2 g/cm³: common practice, no source */

/* A measured girth may stand this far below the stone's without meaning a bed below nothing. */
#define ROUNDING_MM 1e-9

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
check_girth_over (const BwBed *bed, const BwStone *stone, BwBandSpan span, GError **error)
{
  double girth = girth_at (stone, bw_band_span_mid (span));
  if (!bed->has_girth_over || bed->girth_over_mm <= BW_GIRTH_OVER_TIMES * girth)
    return TRUE;
  bw_fault_set (error, BW_FAULT_GEOMETRY, "/bed/girth_over_mm",
                _ ("A girth of %.10g mm over the bed is more than twice the stone's own there, "
                   "%.10g mm; no bed is as thick as the stone it lies on."),
                bed->girth_over_mm, girth);
  return FALSE;
}

static gboolean
check_thickness (const BwBed *bed, double bottom, GError **error)
{
  double middle = bottom + bed->top_extra_mm / 2;
  double least = MIN (bottom, bottom + bed->top_extra_mm);
  if (least >= -ROUNDING_MM)
    return TRUE;
  if (bed->has_girth_over && middle < 0)
    bw_fault_set (
        error, BW_FAULT_GEOMETRY, "/bed/girth_over_mm",
        _ ("A girth of %.10g mm over the bed is less than the stone's own there, %.10g mm."),
        bed->girth_over_mm, bed->girth_over_mm - 2 * G_PI * middle);
  else
    bw_fault_set (
        error, BW_FAULT_GEOMETRY, "/bed/top_extra_mm",
        _ ("With a grade of %.10g mm the bed would be %.4g mm thick at one edge; it must not "
           "be less than 0."),
        bed->top_extra_mm, least);
  return FALSE;
}

gboolean
bw_bedding_init (BwBedding *bedding, const BwBed *bed, const BwStone *stone, BwBandSpan span,
                 GError **error)
{
  if (!bw_bed_validate (bed, error) || !check_girth_over (bed, stone, span, error))
    return FALSE;
  double bottom = bottom_thickness (bed, stone, span);
  if (!check_thickness (bed, bottom, error))
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
  if (thick <= ROUNDING_MM)
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
bw_bed_validate (const BwBed *bed, GError **error)
{
  return bw_fault_check_range (bed->cord_thickness_mm, BW_LENGTH_MIN_MM, BW_LENGTH_MAX_MM,
                               "/bed/cord_thickness_mm", error)
         && bw_fault_check_range (bed->cord_width_mm, BW_LENGTH_MIN_MM, BW_LENGTH_MAX_MM,
                                  "/bed/cord_width_mm", error)
         && bw_fault_check_range (bed->layers, 0, BW_LAYERS_MAX, "/bed/layers", error)
         && bw_fault_check_range (bed->top_extra_mm, -BW_LENGTH_MAX_MM, BW_LENGTH_MAX_MM,
                                  "/bed/top_extra_mm", error)
         && bw_fault_check_range (bed->squeeze, 0, 0.9, "/bed/squeeze", error)
         && bw_fault_check_range (bed->overhang_mm, 0, BW_LENGTH_MAX_MM, "/bed/overhang_mm", error)
         && (!bed->has_girth_over
             || bw_fault_check_range (bed->girth_over_mm, BW_LENGTH_MIN_MM, BW_GIRTH_MAX_MM,
                                      "/bed/girth_over_mm", error));
}
