/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bed of waxed cord: how thick it lies under each column and how much cord it takes. */
#include "config.h"
#include "bed.h"

#include "fault.h"
#include "section.h"
#include <glib/gi18n-lib.h>

/* Both common practice, no source. */
#define TAILS_MM 200.0
#define CORD_G_CM3 1.2

static double
girth_at (const BwStone *stone, double z)
{
  BwSection section;
  bw_section_init (&section, stone, z);
  return section.girth_mm;
}

gboolean
bw_bed_validate (const BwBed *bed, GError **error)
{
  return bw_fault_check_range (bed->cord_thickness_mm, 0.01, 20, "/bed/cord_thickness_mm", error)
         && bw_fault_check_range (bed->cord_width_mm, 0.05, 50, "/bed/cord_width_mm", error)
         && bw_fault_check_range (bed->layers, 0, 50, "/bed/layers", error)
         && bw_fault_check_range (bed->top_extra_mm, -20, 20, "/bed/top_extra_mm", error)
         && bw_fault_check_range (bed->squeeze, 0, 0.9, "/bed/squeeze", error)
         && bw_fault_check_range (bed->overhang_mm, 0, 100, "/bed/overhang_mm", error)
         && (!bed->has_girth_over
             || bw_fault_check_range (bed->girth_over_mm, 0.1, 4 * BW_LENGTH_MAX_MM,
                                      "/bed/girth_over_mm", error));
}

/* Thickness at the band's bottom edge. */
static gboolean
bottom_thickness (const BwBed *bed, const BwStone *stone, BwBandSpan span, double *thickness,
                  GError **error)
{
  if (!bed->has_girth_over) {
    *thickness = bed->layers * bed->cord_thickness_mm;
    return TRUE;
  }
  double girth = girth_at (stone, bw_band_span_mid (span));
  if (bed->girth_over_mm < girth) {
    bw_fault_set (error, BW_FAULT_GEOMETRY, "/bed/girth_over_mm",
                  _ ("A girth of %g mm over the bed is less than the stone's own %.2f mm there."),
                  bed->girth_over_mm, girth);
    return FALSE;
  }
  *thickness = (bed->girth_over_mm - girth) / (2 * G_PI) - bed->top_extra_mm / 2;
  return TRUE;
}

gboolean
bw_bedding_init (BwBedding *bedding, const BwBed *bed, const BwStone *stone, BwBandSpan span,
                 GError **error)
{
  double bottom;
  if (!bw_bed_validate (bed, error) || !bottom_thickness (bed, stone, span, &bottom, error))
    return FALSE;
  if (bottom < 0 || bottom + bed->top_extra_mm < 0) {
    bw_fault_set (
        error, BW_FAULT_GEOMETRY, "/bed/top_extra_mm",
        _ ("A grade of %g mm leaves a bed of %.2f mm at the band's bottom edge and %.2f mm "
           "at its top; a bed cannot be thinner than nothing."),
        bed->top_extra_mm, bottom, bottom + bed->top_extra_mm);
    return FALSE;
  }
  *bedding = (BwBedding){ .bottom_mm = bottom,
                          .slope = bed->top_extra_mm / span.width_mm,
                          .origin_mm = span.bottom_mm,
                          .squeeze = bed->squeeze };
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
  return fmax (0, span.width_mm - 2 * bed->overhang_mm);
}

/* One layer more or less lies half a cord further out: its turns are longer by 2π(k − ½) cords. */
double
bw_bed_wound_mm (const BwBed *bed, const BwStone *stone, BwBandSpan span)
{
  double girth = girth_at (stone, bw_band_span_mid (span));
  double turns = bw_bed_width_mm (bed, span) / bed->cord_width_mm;
  double grade = fabs (bed->top_extra_mm) / (2 * bed->cord_thickness_mm);
  double length = 0;
  for (int k = 1; k <= bed->layers; k++)
    length += turns * (girth + 2 * G_PI * (k - 0.5) * bed->cord_thickness_mm);
  return length + grade * turns * (girth + 2 * G_PI * (bed->layers + 0.5) * bed->cord_thickness_mm);
}

double
bw_bed_cord_mm (const BwBed *bed, const BwStone *stone, BwBandSpan span)
{
  double wound = bw_bed_wound_mm (bed, stone, span);
  return wound > 0 ? wound + TAILS_MM : 0;
}

double
bw_bed_mass_g (const BwBed *bed, const BwStone *stone, BwBandSpan span)
{
  double volume_mm3
      = bw_bed_wound_mm (bed, stone, span) * bed->cord_thickness_mm * bed->cord_width_mm;
  return CORD_G_CM3 * volume_mm3 / 1000;
}
