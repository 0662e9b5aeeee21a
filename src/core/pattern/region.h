/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A set of beads of the band: what is selected, what a flood reaches. Plain data of the band's own
 * size. Rows may be counted on through the repeats of the ring: row + 2n is the same row. */
#pragma once

#include "core/pattern/drawing.h"

typedef struct _BwRegion BwRegion;

/* columns even ≥ 2, rows ≥ 1; empty. */
BwRegion *bw_region_new (int columns, int rows);
BwRegion *bw_region_copy (const BwRegion *region);
void bw_region_free (BwRegion *region);

int bw_region_columns (const BwRegion *region);
int bw_region_rows (const BwRegion *region);
int bw_region_count (const BwRegion *region); /* beads in it */

/* Where the band has no bead nothing is added, and nothing is there. */
gboolean bw_region_has (const BwRegion *region, int row, int column);
void bw_region_add (BwRegion *region, int row, int column);
void bw_region_remove (BwRegion *region, int row, int column);

/* Adds the beads between two rows and two columns, ends included; first ≤ last. */
void bw_region_add_box (BwRegion *region, int first_row, int last_row, int first_column,
                        int last_column);
/* Adds every bead of a colour; of another region. Both must have the region's size. */
void bw_region_add_colour (BwRegion *region, const BwDrawing *drawing, guint8 colour);
void bw_region_join (BwRegion *region, const BwRegion *other);
gboolean bw_region_equal (const BwRegion *a, const BwRegion *b);

typedef void (*BwRegionVisit) (int row, int column, gpointer data);
void bw_region_each (const BwRegion *region, BwRegionVisit visit, gpointer data);

/* The least box round it; on the ring, the one that leaves out the longest run of rows without any.
 * first_row 1..rows; last_row may run on over the join. FALSE when it is empty. */
gboolean bw_region_bounds (const BwRegion *region, int *first_row, int *last_row, int *first_column,
                           int *last_column);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwRegion, bw_region_free)
