/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where each bead of the unrolled band falls in the view, and what lies under a pixel: pure
 * arithmetic, no widget.
 *
 * The unrolled band has two axes. u runs round the stone to the right, in pitches from the middle
 * of row 1 (row r is at u = (r − 1)/2); v runs up the stone's axis in columns from the band's lower
 * edge (column c fills v = c − 1 .. c). A bead owns the brick one pitch wide and one column high
 * about its middle; the bricks tile the plane, so every point belongs to exactly one bead.
 *
 * The band repeats every 2n rows. A row counted on through the repeats is a "long row": any
 * integer, row 1 of image 0 being long row 1. With an odd number of rows the slot of row 2n is
 * empty. */
#pragma once

#include "core/band/join.h"
#include <glib.h>

#define BW_ZOOM_MIN 0.25
#define BW_ZOOM_MAX 16.0
#define BW_ZOOM_PX_PER_MM (4.0 * 96.0 / 25.4) /* zoom 1: four times life size at 96 dpi */
#define BW_ZOOM_BEAD_PX 800.0                 /* no bead is drawn larger than this */
#define BW_ZOOM_DRAW_PX 9.0                   /* a bead this wide and high can be drawn on */
#define BW_OPEN_SHARE 0.6                     /* of the view's height, what a band opens with */

/* A point of the unrolled band, u in pitches, v in columns. */
typedef struct {
  double u, v;
} BwBandPoint;

typedef struct {
  int columns, rows;
  double pitch_mm, column_mm;
  double x, y, width, height; /* the part of the widget that shows the band, logical pixels */
  double zoom;                /* BW_ZOOM_MIN..bw_band_layout_zoom_max() */
  double roll;                /* u in the middle of the view; any value */
  double rise;                /* v in the middle of the view, 0..columns */
} BwBandLayout;

/* What shows: images first_image..last_image, long rows first_row..last_row, columns (clamped to
 * the band; last_column < first_column when none shows). */
typedef struct {
  int first_image, last_image;
  int first_row, last_row;
  int first_column, last_column;
} BwBandRange;

/* Beads around: half the rows, odd counts rounded up; the period in pitches. */
int bw_band_layout_around (const BwBandLayout *layout);

/* The greatest zoom: BW_ZOOM_MAX, less for beads so large that one would be wider than any view. */
double bw_band_layout_zoom_max (const BwBandLayout *layout);

/* Pixels of one pitch and of one column. */
double bw_band_layout_pitch_px (const BwBandLayout *layout);
double bw_band_layout_column_px (const BwBandLayout *layout);

BwBandPoint bw_band_layout_point (const BwBandLayout *layout, double x, double y);
double bw_band_layout_x (const BwBandLayout *layout, double u);
double bw_band_layout_y (const BwBandLayout *layout, double v);

/* The middle of a bead: u of a long row, v of a column. */
BwBandPoint bw_band_middle (int long_row, int column);

/* The brick a point lies in, band or not: long row, and column (which may be < 1 or > W). */
BwBeadAt bw_band_brick (BwBandPoint point);

/* The row (1..rows) that a long row is an image of; 0 when that slot is empty. */
int bw_band_layout_row (const BwBandLayout *layout, int long_row);

/* The long row of `row` whose image is nearest to the middle of the view. */
int bw_band_layout_nearest (const BwBandLayout *layout, int row);

/* The bead under a point of the band, TRUE when there is one. */
gboolean bw_band_layout_bead (const BwBandLayout *layout, BwBandPoint point, BwBeadAt *bead);

BwBandRange bw_band_layout_range (const BwBandLayout *layout);

/* Sets the zoom, clamped, so that what lies under (x, y) stays there. */
void bw_band_layout_zoom_about (BwBandLayout *layout, double zoom, double x, double y);

/* Moves what shows by whole or part pixels. Vertically the middle of the view stays on the band. */
void bw_band_layout_pan (BwBandLayout *layout, double dx, double dy);

/* The whole band and `spare` pitches of its neighbours in view, margin_px free above and below;
 * when the least zoom does not show it all, its beginning. */
void bw_band_layout_fit (BwBandLayout *layout, double spare, double margin_px);

/* What a band opens with: BW_OPEN_SHARE of the view's height, the middle of the turn in the middle,
 * so that the stone is seen above and below; nearer where beads would be smaller than
 * BW_ZOOM_DRAW_PX, as near as that and the band's height in view (margin_px free) allow. */
void bw_band_layout_fit_to_draw (BwBandLayout *layout, double margin_px);

/* The same view with roll in −0.5 .. n − 0.5. */
void bw_band_layout_normalise (BwBandLayout *layout);

/* How much of a ghost image k is, 0..1: 0 while the view's middle lies in it, 1 once the middle is
 * some beads outside, so that rolling over the join never jumps. */
double bw_band_layout_ghost (const BwBandLayout *layout, int image);

/* The neighbour of a bead in the lattice: `along` beads round the stone, `up` columns up, which
 * step to and fro by half a pitch so that a walk up stays over one place. Wraps at the join, stops
 * at the band's edges and skips an empty slot. */
BwBeadAt bw_band_layout_walk (const BwBandLayout *layout, BwBeadAt from, int along, int up);
