/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Paper lies flat on the faces and turns at the edges: its length is the section's girth itself. */
#include "output/sheet/strip.h"

#include "core/bail/bail-place.h"

#include <math.h>

static double
along (const BwRing *ring, double from, double to)
{
  double u = fmod (to - from, ring->length_mm);
  return u < 0 ? u + ring->length_mm : u;
}

static double
girth_at (const BwStone *stone, double z)
{
  BwSection section;
  bw_section_init (&section, stone, z);
  return section.girth_mm;
}

void
bw_strip_marks_init (BwStripMarks *marks, BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  const BwStone *stone = bw_project_stone (project);
  BwBandSpan span = bw_design_span (design);
  double mid = bw_band_span_mid (span);
  BwSection section;
  BwRing ring;
  BwBedding bedding;
  bw_section_init (&section, stone, mid);
  bw_ring_init (&ring, &section, 0);
  double join = bw_ring_ray (&ring, bw_radians (design->band.seam_deg)), azimuth[2];
  *marks = (BwStripMarks){ .girth_mm = section.girth_mm,
                           .over_mm = section.girth_mm,
                           .low_girth_mm = girth_at (stone, span.bottom_mm),
                           .high_girth_mm = girth_at (stone, span.bottom_mm + span.width_mm),
                           .bottom_mm = span.bottom_mm,
                           .width_mm = span.width_mm,
                           .faces = stone->faces };
  for (int i = 0; i < stone->faces; i++)
    marks->corner_mm[i] = along (&ring, join, ring.start[i]);
  marks->n_bails = bw_bail_azimuths (azimuth, design, bw_project_mid_ring (project));
  for (int i = 0; i < marks->n_bails; i++)
    marks->bail_mm[i] = along (&ring, join, bw_ring_ray (&ring, bw_radians (azimuth[i])));
  if (bw_bedding_init (&bedding, &design->bed, stone, span, NULL))
    marks->over_mm += 2 * G_PI * bw_bedding_thickness (&bedding, mid);
}
