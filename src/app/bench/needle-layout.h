/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where everything lies in the picture of a row on the needle: the beads to be picked up and the
 * raised ones they go between, on a thread that comes from the side the weaver works from, and the
 * runs of one colour that are named beneath. Plain arithmetic, no toolkit.
 *
 * Columns rise to the right: a row that runs upward enters at the left, one that runs downward at
 * the right, whatever way the maker's language is written. */
#pragma once

#include "project/project.h"

/* One bead on the needle's way, in the order of the needle. */
typedef struct {
  gboolean is_new; /* picked up; else it stands out of the row below and is passed through */
  guint8 colour;   /* tray index */
  int row, column;
} BwNeedleBead;

/* What the needle meets in the pass that makes this row of the band or the bail (rows strung
 * together are one pass); *upward: it runs towards higher columns. Empty where there is no such
 * row. Owned. */
GArray *bw_needle_beads (BwProject *project, gboolean in_bail, int row, gboolean *upward);

typedef struct {
  int line;
  double x, y; /* the bead's middle, x from the left of the picture, y from the top of its line */
} BwNeedlePlace;

/* Beads of one colour picked up one after the other, on one line. */
typedef struct {
  int first, n; /* index of the first bead among all; how many are picked up */
  int line;
  double left, right; /* edges of its outermost beads */
} BwNeedleRun;

typedef struct {
  gboolean upward;
  double width;                   /* of the picture */
  double bead_width, bead_height; /* a place on the thread; a bead's diameter */
  double line_height;             /* of beads alone, without names */
  int lines;
  double enters, leaves; /* x where the thread comes in, and where the needle's tip is */
  GArray *places;        /* of BwNeedlePlace, one a bead */
  GArray *runs;          /* of BwNeedleRun, in the order of the needle */
} BwNeedleLayout;

/* Beads as large as fit on one line, but no larger than most_px; on as many more as it takes where
 * they would become smaller than least_px. flat: a bead's length by its diameter. */
void bw_needle_layout_init (BwNeedleLayout *layout, const GArray *beads, gboolean upward,
                            double width, double flat, double least_px, double most_px);
void bw_needle_layout_clear (BwNeedleLayout *layout);

/* A name under each run: widths in, middles and tiers (0 the uppermost) out. Names of one line and
 * tier never overlap; how many tiers that takes, 0 where more than `most` would be wanted. */
int bw_needle_layout_names (const BwNeedleLayout *layout, const double *widths, double gap,
                            int most, double *middles, int *tiers);
