/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "output/sheet/sheet-facts.h"

#include "core/base/tolerance.h"

#include <math.h>

#define SWATCH_COLUMNS 10
#define SWATCH_ROWS 24
#define MOST_NUMBERS 12 /* in the ruler's table */

double
bw_strip_length_mm (const BwDesign *design, int rows)
{
  return (rows + 1) * design->pitch.mm / 2;
}

BwFirstSwatch
bw_first_swatch_of (const BwDesign *design)
{
  return (BwFirstSwatch){ SWATCH_COLUMNS, SWATCH_ROWS, bw_strip_length_mm (design, SWATCH_ROWS),
                          SWATCH_COLUMNS * design->gauge.column_mm };
}

int
bw_ruler_table_step (int rows)
{
  return BW_RULER_STEP
         * (int)ceil ((double)rows / BW_RULER_STEP / MOST_NUMBERS - BW_ROUNDING_WHOLE);
}

BwBedFacts
bw_bed_facts_of (BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  const BwStone *stone = bw_project_stone (project);
  BwBandSpan span = bw_design_span (design);
  double width = bw_bed_width_mm (&design->bed, span), mid = bw_band_span_mid (span);
  BwBedFacts bed = { .cord_mm = bw_bed_cord_mm (&design->bed, stone, span),
                     .low_mm = mid - width / 2,
                     .high_mm = mid + width / 2,
                     .turns = (int)ceil (width / design->bed.cord_width_mm - BW_ROUNDING_WHOLE),
                     .mid_mm = mid };
  BwSection section;
  BwBedding bedding;
  bed.n_layers = bw_bed_layers (&design->bed, stone, span, bed.layer);
  bw_section_init (&section, stone, mid);
  bed.bare_mm = section.girth_mm;
  if (bw_bedding_init (&bedding, &design->bed, stone, span, NULL))
    bed.over_mm = section.girth_mm + 2 * G_PI * bw_bedding_thickness (&bedding, mid);
  return bed;
}
