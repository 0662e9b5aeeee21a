/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One column of the band on its bed: the section it runs round, and its ring with the bed relaxed
 * and with the bed squeezed by the closed band. */
#pragma once

#include "core/design/design.h"
#include "core/band/ring.h"

/* The band on its bed. Borrows design and stone. */
typedef struct {
  const BwDesign *design;
  const BwStone *stone;
  BwBedding bedding;
  double stretched_mm; /* the longest pitch the thread gives: (1 + ε) p */
  double
      grown; /* every section is taken so many times as large: what a try-on taught; 1: nothing */
} BwLaid;

typedef struct {
  BwSection section;
  double relaxed_mm;  /* ρ = t + D/2 */
  double squeezed_mm; /* ρ = t(1 − q) + D/2 */
} BwColumn;

/* Solves the bed. FALSE when it cannot be; a valid design's can. */
gboolean bw_laid_init (BwLaid *laid, const BwDesign *design, const BwStone *stone);

/* Column c, 1..W from the lowest, at bottom + (c − ½) w. */
double bw_column_height_mm (const BwDesign *design, int c);
void bw_column_init (BwColumn *column, const BwLaid *laid, int c);

/* The k-th column to look at, k = 0..W − 1, from both edges inwards: on a tapered stone an edge
 * decides, so a search that stops at the first failure stops soon. */
int bw_column_outside_in (int columns, int k);

/* Whether two columns run round the very same curves, as on a stone without taper. */
gboolean bw_column_equal (const BwColumn *a, const BwColumn *b);

/* Arc length at which the seam's azimuth meets a ring. */
double bw_laid_seam (const BwLaid *laid, const BwRing *ring);

/* The bead-centre curve at the middle of the band's width, on the relaxed bed: what bail and hang
 * stand on. The design must be valid. */
void bw_mid_ring_init (BwRing *ring, const BwDesign *design, const BwStone *stone);

/* The same at column W, whose beads make the upper edge: what a loop over the tip springs from. */
void bw_edge_ring_init (BwRing *ring, const BwDesign *design, const BwStone *stone);

/* The two rings, the section scaled by lambda about the axis. */
void bw_column_relaxed (BwRing *ring, const BwColumn *column);
void bw_column_squeezed (BwRing *ring, const BwColumn *column, double lambda);
