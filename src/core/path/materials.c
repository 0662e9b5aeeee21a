/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The shopping list: a maker who runs out of one colour three rows before the join has wasted an
 * evening, so beads carry a spare share and come in whole packs. */
#include "core/path/materials.h"

#include "core/bail/bail-loop.h"
#include "core/bail/bail-place.h"
#include "core/band/column.h"
#include "core/base/tolerance.h"

#include <math.h>

static guint64
whole (double amount)
{
  return amount > 0 ? (guint64)ceil (amount - BW_ROUNDING_WHOLE) : 0;
}

static void
need_beads (BwBeadNeed *need, guint64 count, const BwDesign *design)
{
  const BwSupply *supply = &design->supply;
  need->count = count;
  need->with_spare = (guint64)supply->pieces * whole ((double)count * (1 + supply->spare));
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

const BwNeedleSize *
bw_needle_sizes (int *n)
{
  static const BwNeedleSize needles[]
      = { { "10", 0.46 }, { "11", 0.41 }, { "12", 0.36 }, { "13", 0.33 }, { "15", 0.28 } };
  *n = G_N_ELEMENTS (needles);
  return needles;
}

double
bw_needle_most_mm (const BwDesign *design, const BwPath *path)
{
  double hole = design->bead.hole_mm, thread = design->thread.diameter_mm;
  int before = MAX (path->passes_max - 1, 0);
  double left = BW_FULL_SHARE * hole * hole - before * thread * thread;
  return left > 0 ? sqrt (left) : 0;
}

/* A needle as thick as the room left for it goes. */
static const BwNeedleSize *
choose_needle (double most_mm)
{
  int n;
  const BwNeedleSize *needle = bw_needle_sizes (&n);
  for (int i = 0; i < n; i++)
    if (needle[i].shaft_mm <= most_mm + BW_ROUNDING_MM)
      return &needle[i];
  return NULL;
}

/* The maker's own needle, where it goes; finer than any of the trade's counts as the finest. */
static void
find_needle (BwMaterials *materials, const BwDesign *design, const BwPath *path)
{
  int n;
  const BwNeedleSize *sizes = bw_needle_sizes (&n), *finest = &sizes[n - 1];
  double own = MAX (design->thread.needle_mm, finest->shaft_mm);
  materials->needle_most_mm = bw_needle_most_mm (design, path);
  materials->needle = choose_needle (MIN (materials->needle_most_mm, own));
}

static double
cut (double mm)
{
  return ceil (mm / BW_CUT_MM - BW_ROUNDING_WHOLE) * BW_CUT_MM;
}

/* What is cut for one, so many times: a class is given lengths and not a spool. */
static double
for_pieces (double mm, int pieces)
{
  return pieces == 1 ? mm : pieces * cut (mm);
}

static double
thread_for_pieces (const BwPath *path, int pieces)
{
  double mm = 0;
  for (guint i = 0; i < path->lengths->len; i++)
    mm += cut (g_array_index (path->lengths, BwThreadLength, i).length_mm);
  return pieces == 1 ? path->length_mm : pieces * mm;
}

double
bw_work_rows (const BwPath *path, const BwBand *band)
{
  guint64 visits = 0;
  for (int part = BW_PART_ZIP; part <= BW_PART_WEAVING_IN; part++)
    visits += path->part[part].visits;
  return band->rows + (double)visits / band->columns;
}

double
bw_work_pace (const BwSupply *supply, int columns)
{
  if (!supply->has_prices)
    return BW_USUAL_PACE / (columns / 2.0);
  int told_of = supply->pace_columns > 0 ? supply->pace_columns : columns;
  return supply->rows_per_hour * told_of / columns;
}

double
bw_work_hours (const BwSupply *supply, int columns, double work_rows, double bed_cord_mm)
{
  return work_rows / bw_work_pace (supply, columns) + bed_cord_mm / 1000 * BW_WINDING_H_PER_M;
}

static void
find_findings (BwMaterials *materials, const BwDesign *design, const BwStone *stone)
{
  const BwSupply *supply = &design->supply;
  BwLoop loop;
  if (design->bail.style == BW_BAIL_NONE)
    return;
  materials->hanging_cord_mm = for_pieces (supply->neck_mm + supply->closing_mm, supply->pieces);
  materials->rings = design->bail.style == BW_BAIL_RING ? supply->pieces : 0;
  materials->clasps = supply->closing == BW_CLOSING_CLASP ? supply->pieces : 0;
  if (bw_bail_loop_init (&loop, NULL, design, stone, NULL))
    materials->fitting_most_mm = loop.opening_mm;
  if (materials->fitting_most_mm > 0)
    bw_hang_ring_init (&materials->ring, design, &loop);
}

static void
measure_cords (BwMaterials *materials, const BwDesign *design, const BwStone *stone,
               const BwPath *path)
{
  int pieces = design->supply.pieces;
  double bed = bw_bed_cord_mm (&design->bed, stone, bw_design_span (design));
  materials->bed_cord_mm = for_pieces (bed, pieces);
  materials->thread_mm = thread_for_pieces (path, pieces);
  materials->work_rows = bw_work_rows (path, &design->band);
  materials->thread_lengths = (guint64)pieces * path->lengths->len;
  materials->needles = materials->stopper_beads = pieces;
}

/* A strip of odd rows cannot be zipped and is no piece yet: what its thread comes to is estimated
 * with a row more, so that zip, return and bail are bought with it. */
static void
take_path (BwMaterials *materials, const BwDesign *design, const BwStone *stone, const BwPath *path)
{
  BwPath closed;
  BwRing ring;
  BwBailBase base = { 0 };
  BwDesign whole = *design;
  materials->thread_rows = design->band.rows + design->band.rows % 2;
  if (materials->thread_rows == design->band.rows) {
    measure_cords (materials, design, stone, path);
    find_needle (materials, design, path);
    return;
  }
  whole.band.rows = materials->thread_rows;
  if (design->bail.style != BW_BAIL_NONE) {
    bw_mid_ring_init (&ring, &whole, stone);
    bw_bail_base_init (&base, &whole, &ring);
  }
  bw_path_init (&closed, &whole, &base);
  measure_cords (materials, &whole, stone, &closed);
  find_needle (materials, &whole, &closed);
  bw_path_clear (&closed);
}

static void
price (BwMaterials *materials, const BwDesign *design)
{
  const BwSupply *supply = &design->supply;
  gboolean has_findings = materials->rings > 0 || materials->clasps > 0;
  materials->has_cost = TRUE;
  materials->hours = bw_work_hours (supply, design->band.columns,
                                    supply->pieces * materials->work_rows, materials->bed_cord_mm);
  materials->cost.beads = (double)materials->total_packs * supply->pack;
  materials->cost.thread = materials->thread_mm / 1000 * supply->thread_per_m;
  materials->cost.bed_cord = materials->bed_cord_mm / 1000 * supply->bed_cord_per_m;
  materials->cost.hanging_cord = materials->hanging_cord_mm / 1000 * supply->hanging_cord_per_m;
  materials->cost.findings = has_findings ? supply->pieces * supply->findings : 0;
  materials->cost.stone = supply->pieces * supply->stone;
  materials->cost.labour = materials->hours * supply->hour;
  materials->cost.total = materials->cost.beads + materials->cost.thread + materials->cost.bed_cord
                          + materials->cost.hanging_cord + materials->cost.findings
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
  take_path (materials, design, stone, path);
  find_findings (materials, design, stone);
  if (design->supply.has_prices)
    price (materials, design);
}

double
bw_asking_price (const BwMaterials *materials, const BwSupply *supply)
{
  double price = materials->has_cost ? materials->cost.piece * (1 + supply->markup) : 0;
  if (supply->round_to <= 0)
    return price;
  return ceil (price / supply->round_to - BW_ROUNDING_MM) * supply->round_to;
}
