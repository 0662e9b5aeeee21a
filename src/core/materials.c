/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The shopping list: a maker who runs out of one colour three rows before the join has wasted an
 * evening, so beads carry a spare share and come in whole packs. */
#include "materials.h"

#include <math.h>

static guint64
whole (double amount)
{
  return amount > 0 ? (guint64)ceil (amount - 1e-9) : 0;
}

static void
need_beads (BwBeadNeed *need, guint64 count, const BwDesign *design)
{
  const BwSupply *supply = &design->supply;
  need->count = count;
  need->with_spare = whole ((double)count * supply->pieces * (1 + supply->spare));
  need->grams = (double)need->with_spare * bw_bead_mass_g (&design->bead);
  need->packs = whole (need->grams / supply->pack_g);
}

static void
list_beads (BwMaterials *materials, const BwDesign *design, const guint64 counts[256])
{
  for (int colour = 0; colour < 256; colour++) {
    BwBeadNeed *need = &materials->need[colour];
    need_beads (need, counts[colour], design);
    materials->total_beads += need->count;
    materials->total_with_spare += need->with_spare;
    materials->total_grams += need->grams;
    materials->total_packs += need->packs;
  }
}

static void
measure_cords (BwMaterials *materials, const BwDesign *design, const BwStone *stone,
               const BwPath *path)
{
  int pieces = design->supply.pieces;
  gboolean hangs = design->bail.style != BW_BAIL_NONE;
  materials->bed_cord_mm = pieces * bw_bed_cord_mm (&design->bed, stone, bw_design_span (design));
  materials->thread_mm = pieces * path->length_mm;
  materials->thread_lengths = (guint64)pieces * path->lengths->len;
  materials->hanging_cord_mm = hangs ? pieces * BW_HANGING_CORD_MM : 0;
}

static void
price (BwMaterials *materials, const BwDesign *design)
{
  const BwSupply *supply = &design->supply;
  double hours = (double)supply->pieces * design->band.rows / supply->rows_per_hour;
  materials->has_cost = TRUE;
  materials->cost.beads = (double)materials->total_packs * supply->pack;
  materials->cost.thread = materials->thread_mm / 1000 * supply->thread_per_m;
  materials->cost.bed_cord = materials->bed_cord_mm / 1000 * supply->bed_cord_per_m;
  materials->cost.stone = supply->pieces * supply->stone;
  materials->cost.labour = hours * supply->hour;
  materials->cost.total = materials->cost.beads + materials->cost.thread + materials->cost.bed_cord
                          + materials->cost.stone + materials->cost.labour;
  materials->cost.piece = materials->cost.total / supply->pieces;
}

void
bw_materials_init (BwMaterials *materials, const BwDesign *design, const BwStone *stone,
                   const BwDrawing *drawing, const BwDrawing *bail_drawing, int n_colours,
                   const BwPath *path)
{
  guint64 counts[256] = { 0 };
  *materials = (BwMaterials){ .n_colours = n_colours };
  bw_drawing_count (drawing, counts);
  if (bail_drawing)
    bw_drawing_count (bail_drawing, counts);
  list_beads (materials, design, counts);
  measure_cords (materials, design, stone, path);
  if (design->supply.has_prices)
    price (materials, design);
}
