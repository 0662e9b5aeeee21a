/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside the thread's path only: the needle on its way, and the beads within its reach. It knows
 * the lattices and what went through each hole, and nothing of routes, lengths or the order of the
 * work. */
#pragma once

#include "core/path/path.h"

/* A bead and the way the needle runs through it. Band and bail have their own lattices; way is +1
 * towards higher columns, −1 towards lower ones. */
typedef struct {
  gboolean in_bail;
  int row, column;
  int way;
} BwStitch;

/* Where the bail stands on the band. */
typedef struct {
  int margin; /* flap: band columns left free on either side */
  int row[2]; /* flap: band rows under its first row and over its last one */
  /* A strip of its own, its first and its second foot: the band column it is sewn to, the band row,
   * as a real number, under its middle, and +1 where its columns run as the band's rows do. */
  int column[2];
  double foot_row[2];
  int sense[2];
} BwFeet;

typedef struct {
  const BwDesign *design;
  BwPath *path;
  gboolean zipped; /* the last row lies beside the first */
  gboolean hung;   /* the flap's last row is being sewn, or is sewn, to the band */
  BwFeet feet;
  guint16 *band_forced, *bail_forced; /* passes found where a full bead had to be passed */
  BwStitch first, at;                 /* the very first bead, and the one just left */
  int pass;                           /* of the visits being made */
  int length;                         /* index of the length of thread in the needle */
  double used_mm;                     /* of it, without tails and weaving-in */
} BwNeedle;

/* The counter of passes through a bead of its own lattice, NULL where there is no such place. */
guint16 *bw_needle_hole (const BwNeedle *needle, const BwStitch *stitch);

/* Follows a place across the edge of its lattice: round the zipped ring, and from the flap into the
 * band under it. FALSE when there is no bead yet. */
gboolean bw_needle_resolve (const BwNeedle *needle, BwStitch *stitch);

/* The beads the needle can enter next having left `from`, at most 6: the two that face its end and
 * go on the same way, then the two beside it, into which it turns round. Where there is none of
 * these, as after the third row, the two of the neighbouring column, round the edge. */
int bw_needle_next (const BwNeedle *needle, const BwStitch *from, BwStitch next[6]);

void bw_needle_pick_up (BwNeedle *needle, BwPart part, BwStitch stitch);
void bw_needle_pass (BwNeedle *needle, BwPart part, BwStitch stitch);
/* Passes through n beads one after another. */
void bw_needle_follow (BwNeedle *needle, BwPart part, const BwStitch *stitch, int n);

/* A row on the lattice of band or bail: its own beads, new or there, alternate with those of the
 * row before. Odd rows run towards column 1, even rows away from it. */
void bw_needle_weave_row (BwNeedle *needle, BwPart part, gboolean in_bail, int row,
                          gboolean is_new);
/* The first pick-up of `rows` (1 or 2) rows, from column 1 on. */
void bw_needle_string_rows (BwNeedle *needle, BwPart part, gboolean in_bail, int rows);

/* Where the bail stands from now on: the ring is closed. */
void bw_needle_stand_bail (BwNeedle *needle, const BwBailBase *base);
/* The band bead under a column of an end of a strip (0..columns + 1), foot 0 or 1. The needle runs
 * up through it. */
BwStitch bw_needle_under (const BwNeedle *needle, int foot, int column);
/* Two neighbours of the upper edge about the place, in columns, where the needle comes out of a
 * strip's end; onward: which of them is the second, +1 the one in the later band row. */
void bw_needle_at_edge (const BwNeedle *needle, BwStitch bead[2], int foot, double column,
                        int onward);
