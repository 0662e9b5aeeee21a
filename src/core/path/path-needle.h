/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside the thread's path only: the needle on its way, the beads within its reach, and the routes
 * it may take where nothing prescribes one. */
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
  int margin;        /* flap: band columns left free on either side */
  int row[2];        /* flap: band rows under its first row and over its last one */
  double centre_row; /* upright: the band row, as a real number, under the bail's middle */
  int column[2];     /* upright: band columns of the lower and the upper foot */
} BwFeet;

typedef struct {
  const BwDesign *design;
  const BwBailBase *base; /* where the bail stands */
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

/* The most beads a free route runs through: as many as a fresh length would be woven in with at its
 * two ends, so that a longer way is not worth going. */
#define BW_ROUTE_MAX 32
#define BW_WEAVING_VISITS 16
#define BW_ANCHOR_VISITS 8

typedef struct {
  int n;
  BwStitch stitch[BW_ROUTE_MAX];
} BwRoute;

typedef struct {
  int least, most;        /* beads, ≤ BW_ROUTE_MAX */
  int turns;              /* exactly so many; −1: as many as come */
  const BwStitch *target; /* the last bead, row or way 0 for any; NULL: any bead */
} BwRouteWish;

/* path-needle.c */

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
void bw_needle_follow (BwNeedle *needle, BwPart part, const BwRoute *route);

/* A row on the lattice of band or bail: its own beads, new or there, alternate with those of the
 * row before. Odd rows run towards column 1, even rows away from it. */
void bw_needle_weave_row (BwNeedle *needle, BwPart part, gboolean in_bail, int row,
                          gboolean is_new);
/* The first pick-up of `rows` (1 or 2) rows, from column 1 on. */
void bw_needle_string_rows (BwNeedle *needle, BwPart part, gboolean in_bail, int rows);

/* path-route.c */

/* The cheapest route that is as wished: fewest full beads, then fewest passes in the holes. FALSE
 * when there is none. */
gboolean bw_route_search (BwRoute *route, const BwNeedle *needle, BwStitch from,
                          const BwRouteWish *wish);

/* Adds beads to the route until it has n of them, always the emptiest hole in reach; a full one
 * only where every other way fails. Stops early only where the work offers no bead to go on with.
 */
void bw_route_weave (BwRoute *route, const BwNeedle *needle, BwStitch from, int n);

/* path-lengths.c */

/* Thread for one bead on the way, without a turn. */
double bw_path_step_mm (const BwDesign *design);

/* Whether a pass still fits on the length in the needle. */
gboolean bw_needle_has_room (const BwNeedle *needle, double mm);

/* Before a pass of `mm` millimetres that ends at row `to`: takes a fresh length when it does not
 * fit. */
void bw_needle_reserve (BwNeedle *needle, double mm, int from, int to);
/* Weaves in the end of the length and begins a fresh one, so that the needle leaves bead `from`. */
void bw_needle_change (BwNeedle *needle, BwStitch from);
void bw_needle_begin (BwNeedle *needle);
void bw_needle_finish (BwNeedle *needle);

/* path-bail.c */

/* Finds the bail's feet. TRUE when there is a bail and a closed ring to work it on. */
gboolean bw_needle_plan_bail (BwNeedle *needle);
/* The band bead under a column of an end of the upright strip (0..columns + 1), foot 0 or 1. */
BwStitch bw_needle_under (const BwNeedle *needle, int foot, int column);
/* The bead the needle must have left to begin the bail. */
BwStitch bw_needle_bail_entry (const BwNeedle *needle);
void bw_needle_weave_bail (BwNeedle *needle);
