/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What to buy: beads by colour, cord and thread, and what a piece costs. */
#pragma once

#include "design.h"
#include "drawing.h"
#include "path.h"

typedef struct {
  guint64 count;      /* in one piece, band and bail */
  guint64 with_spare; /* ceil(count × pieces × (1 + spare) − 1e-9) */
  double grams;       /* of with_spare */
  guint64 packs;      /* whole packs of pack_g */
} BwBeadNeed;

typedef struct {
  int n_colours;
  BwBeadNeed need[256]; /* by tray index */
  guint64 total_beads, total_with_spare, total_packs;
  double total_grams;
  double bed_cord_mm;      /* for all pieces, as are the next three */
  double thread_mm;
  guint64 thread_lengths;
  double hanging_cord_mm;  /* 0 without a bail */
  gboolean has_cost;
  struct {
    double beads, thread, bed_cord, stone, labour; /* for all pieces */
    double piece, total;
  } cost;
} BwMaterials;

/* Hanging cord for one piece: 18 in, the "princess" necklace length published by the International
 * Gem Society, plus 150 mm for knots (common practice, no source). */
#define BW_HANGING_CORD_MM (18 * 25.4 + 150)

/* bail_drawing may be NULL. n_colours: colours in the tray. design->supply gives spare, packs,
 * prices and pieces. */
void bw_materials_init (BwMaterials *materials, const BwDesign *design, const BwStone *stone,
                        const BwDrawing *drawing, const BwDrawing *bail_drawing, int n_colours,
                        const BwPath *path);
