/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What to buy: beads by colour, cord and thread, and what a piece costs. */
#pragma once

#include "core/design/design.h"
#include "core/pattern/drawing.h"
#include "core/bail/hang-ring.h"
#include "core/path/path.h"

#define BW_CUT_MM 10 /* nobody cuts cord and thread finer */
#define BW_WINDING_H_PER_M (5 / 60.0)
/* Beads an hour, where no prices say another: 22 rows of a band of 14 columns (common practice, no
 * source). */
#define BW_USUAL_PACE 154.0
#define BW_USUAL_COLUMNS 14

typedef struct {
  guint64 count;      /* in one piece, band and bail */
  guint64 with_spare; /* pieces × ceil(count × (1 + spare)), rounding aside: what all bags hold */
  double grams;       /* of with_spare */
  guint64 packs;      /* whole packs of pack_g */
} BwBeadNeed;

/* A beading needle by its trade number. Shafts: no. 10 from a trade article (read, no standard);
 * the others common practice, no source, ± 0.05 mm. The eye is wider than the shaft. */
typedef struct {
  const char *number; /* "12" */
  double shaft_mm;
} BwNeedleSize;

/* Thickest first; *n entries, borrowed. */
const BwNeedleSize *bw_needle_sizes (int *n);

/* The thickest shaft that still makes the last pass through the fullest bead of the path: what
 * bw_path_is_full() leaves of the hole, 0 when the thread alone fills it. Never more than the
 * hole. */
double bw_needle_most_mm (const BwDesign *design, const BwPath *path);

typedef struct {
  int n_colours;
  BwBeadNeed need[256]; /* by tray index */
  guint64 total_beads, total_with_spare, total_packs;
  double total_grams;
  /* For all pieces, as are the next four: for one exactly what it takes, for several so many times
   * what is cut for one, each length up to the next BW_CUT_MM. */
  double bed_cord_mm;
  double thread_mm;
  guint64 thread_lengths;
  int thread_rows; /* rows the thread is reckoned for: one more than the band's where its rows are
                      odd, so that zip, return and bail are in it */
  int needles, stopper_beads; /* one of each for a piece: a class sits down together */
  double hanging_cord_mm;     /* necklace and its closing; 0 without a bail */
  int rings;                  /* of metal, for a ring bail */
  int clasps;                 /* each with its two cord ends; 0 without a bail */
  double fitting_most_mm;     /* what passes the bail's loop; 0 without one, ≤ 0: nothing does */
  BwHangRing ring;            /* which ring to take, all 0 without one */
  double needle_most_mm;      /* bw_needle_most_mm () */
  const BwNeedleSize *needle; /* of the trade, not thicker than the maker's own and than what goes;
                                 NULL when none is fine enough */
  gboolean has_cost;
  struct {
    double beads, thread, bed_cord, hanging_cord, findings, stone, labour; /* for all pieces */
    double piece, total;
  } cost;
  double work_rows; /* what one piece takes at the beads, in rows of the band: the rows, and the
                       visits of join, bail and ends by the columns of a row */
  double hours;     /* of work, for all pieces: work_rows at the pace of prices, and the winding of
                       the bed, BW_WINDING_H_PER_M (common practice, no source, from memory); 0
                       without prices */
} BwMaterials;

/* What is asked for one piece: its cost with the mark-up, up to the next whole round_to. 0 without
 * prices. */
double bw_asking_price (const BwMaterials *materials, const BwSupply *supply);

/* bail_drawing may be NULL. n_colours: colours in the tray. design->supply gives spare, packs,
 * prices and pieces. */
void bw_materials_init (BwMaterials *materials, const BwDesign *design, const BwStone *stone,
                        const BwDrawing *drawing, const BwDrawing *bail_drawing, int n_colours,
                        const BwPath *path);

/* What a path of this band takes at the beads, in rows of the band: the rows, and what join, bail
 * and ends visit. */
double bw_work_rows (const BwPath *path, const BwBand *band);

/* Rows an hour of a band of so many columns: beads go at one pace, that of the prices or the usual
 * one. A pace of which no width is told is one of this very band. */
double bw_work_pace (const BwSupply *supply, int columns);

/* Hours of work: rows of a band at that pace, and the winding of so much cord. */
double bw_work_hours (const BwSupply *supply, int columns, double work_rows, double bed_cord_mm);
