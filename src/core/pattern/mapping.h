/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A picture laid on the unrolled band and turned into beads.
 *
 * Three steps, each pure: sampling averages the picture in linear light over the footprint of each
 * bead, a brick one pitch long and one column wide at the bead's own half-drop place; matching
 * gives each bead the colour of the tray that looks nearest (CIEDE2000, see colour.h); proposing
 * finds the few colours that would serve best.
 *
 * Lengths on the band as in lattice.h: u in pitches from row 1 to the right, v in columns from the
 * lower edge upward. Long steps ask go_on now and then with the share done, 0..1, and stop when it
 * answers FALSE; go_on may be NULL. */
#pragma once

#include "core/pattern/colour.h"
#include "core/pattern/drawing.h"

typedef gboolean (*BwGoOn) (double share, gpointer data);

/* sRGB, eight bits a channel, rows from the top; with four channels the last is the opacity, not
 * multiplied in. The pixels are borrowed. */
typedef struct {
  const guint8 *pixels;
  int width, height; /* ≥ 1 */
  int channels;      /* 3 or 4 */
  gsize stride;      /* bytes from row to row */
} BwPicture;

/* Where the picture lies. Beads farther round the ring than half a turn from its middle are reached
 * from the other side, so that it runs on across the join. */
typedef struct {
  double u, v;     /* its middle */
  double width_mm; /* > 0; its height follows from its pixels */
  double turn_deg; /* counter-clockwise */
} BwPlacement;

typedef struct {
  int columns, rows;          /* even ≥ 2, ≥ 1 */
  double pitch_mm, column_mm; /* > 0 */
} BwBandGrid;

/* What each bead would show if it could have any colour: rows × columns/2, row by row, lowest
 * first. */
typedef struct {
  BwBandGrid grid;
  int first_row;  /* the row at the picture's far left: where dithering begins */
  BwLinear *mean; /* of what is opaque; black where nothing is */
  float *share;   /* how much of the footprint the picture covers, opacity included, 0..1 */
} BwFootprints;

/* A bead less covered than this keeps the colour it has. */
#define BW_FOOTPRINT_LEAST 0.5

/* The placement that covers the whole band with the picture's middle at `u`, upright, nothing of
 * the band left bare across its columns. */
BwPlacement bw_placement_cover (const BwPicture *picture, const BwBandGrid *grid, double u);

/* Fills footprints (clear them after use). FALSE, and nothing to clear, when stopped. */
gboolean bw_mapping_sample (BwFootprints *footprints, const BwPicture *picture,
                            const BwPlacement *placement, const BwBandGrid *grid, BwGoOn go_on,
                            gpointer data);
void bw_footprints_clear (BwFootprints *footprints);

/* The colours that may be used: n ≥ 1 of them, with the tray index of each. */
typedef struct {
  int n;
  guint32 srgb[BW_TRAY_MAX];
  guint8 index[BW_TRAY_MAX];
} BwChoice;

/* Sets the covered beads of the drawing, which must have the grid's size. With dither, what a bead
 * could not show is handed on in linear light to the nearest beads still to come, which on a
 * half-drop are two of the next row (5/16 each), the next of its own column (1/4) and the next of
 * its own row (1/8). Every second pair of rows runs downward. FALSE when stopped, the drawing then
 * being half done. */
gboolean bw_mapping_match (const BwFootprints *footprints, const BwChoice *choice, gboolean dither,
                           BwDrawing *drawing, BwGoOn go_on, gpointer data);

/* The k or fewer colours (when there are fewer to be told apart) that serve the covered beads best:
 * k-means in CIELAB (Lloyd, IEEE Transactions on Information Theory 28(2), 1982, 129–137), begun by
 * splitting the most spread group at its mean, so that the same picture always gives the same
 * colours. srgb receives them, that of most beads first; returns how many. 1 ≤ k ≤ BW_TRAY_MAX. */
int bw_mapping_propose (const BwFootprints *footprints, int k, guint32 *srgb);
