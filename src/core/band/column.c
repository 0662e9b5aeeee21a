/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every question about the band asks the same of each column: how wide is the stone there, and how
 * far out do the beads sit. It is answered here once. */
#include "core/band/column.h"

#include "core/base/tolerance.h"

/* A reading however wild leaves something to go round. */
#define LEAST_GROWN 0.1

gboolean
bw_laid_init (BwLaid *laid, const BwDesign *design, const BwStone *stone)
{
  laid->design = design;
  laid->stone = stone;
  laid->stretched_mm = (1 + design->thread.stretch) * design->pitch.mm;
  laid->grown = MAX (1 + design->tried.longer_mm / stone->girth_mm, LEAST_GROWN);
  return bw_bedding_init (&laid->bedding, &design->bed, stone, bw_design_span (design), NULL);
}

double
bw_column_height_mm (const BwDesign *design, int c)
{
  return design->band.bottom_mm + (c - 0.5) * design->gauge.column_mm;
}

static void
grow (BwSection *section, double grown)
{
  BwSection measured = *section;
  bw_section_scale (section, &measured, grown);
}

void
bw_column_init (BwColumn *column, const BwLaid *laid, int c)
{
  double z = bw_column_height_mm (laid->design, c);
  double bead = laid->design->bead.diameter_mm / 2;
  bw_section_init (&column->section, laid->stone, z);
  if (laid->design->tried.is_told)
    grow (&column->section, laid->grown);
  column->relaxed_mm = bw_bedding_thickness (&laid->bedding, z) + bead;
  column->squeezed_mm = bw_bedding_squeezed (&laid->bedding, z) + bead;
}

int
bw_column_outside_in (int columns, int k)
{
  return k % 2 ? columns - k / 2 : 1 + k / 2;
}

gboolean
bw_column_equal (const BwColumn *a, const BwColumn *b)
{
  if (!bw_same_number (a->relaxed_mm, b->relaxed_mm)
      || !bw_same_number (a->squeezed_mm, b->squeezed_mm))
    return FALSE;
  if (a->section.edges != b->section.edges)
    return FALSE;
  for (int i = 0; i < a->section.edges; i++)
    if (a->section.face[i] != b->section.face[i]
        || !bw_same_number (a->section.corner[i].x, b->section.corner[i].x)
        || !bw_same_number (a->section.corner[i].y, b->section.corner[i].y))
      return FALSE;
  return TRUE;
}

double
bw_laid_seam (const BwLaid *laid, const BwRing *ring)
{
  return bw_ring_ray (ring, bw_radians (laid->design->band.seam_deg));
}

static void
init_ring_at (BwRing *ring, const BwDesign *design, const BwStone *stone, double z_mm)
{
  BwSection section;
  BwBedding bedding = { 0 };
  bw_bedding_init (&bedding, &design->bed, stone, bw_design_span (design), NULL);
  bw_section_init (&section, stone, z_mm);
  bw_ring_init (ring, &section,
                bw_bedding_thickness (&bedding, z_mm) + design->bead.diameter_mm / 2);
}

void
bw_mid_ring_init (BwRing *ring, const BwDesign *design, const BwStone *stone)
{
  init_ring_at (ring, design, stone, bw_band_span_mid (bw_design_span (design)));
}

void
bw_edge_ring_init (BwRing *ring, const BwDesign *design, const BwStone *stone)
{
  init_ring_at (ring, design, stone, bw_column_height_mm (design, design->band.columns));
}

void
bw_column_relaxed (BwRing *ring, const BwColumn *column)
{
  bw_ring_init (ring, &column->section, column->relaxed_mm);
}

void
bw_column_squeezed (BwRing *ring, const BwColumn *column, double lambda)
{
  BwSection scaled;
  bw_section_scale (&scaled, &column->section, lambda);
  bw_ring_init (ring, &scaled, column->squeezed_mm);
}
