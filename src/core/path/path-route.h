/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside the thread's path only: the way of a needle where nothing prescribes one. */
#pragma once

#include "core/path/path-needle.h"

/* The most beads a free route runs through: as many as a fresh length would be woven in with at its
 * two ends, so that a longer way is not worth going. */
#define BW_ROUTE_MAX 32

typedef struct {
  int n;
  BwStitch stitch[BW_ROUTE_MAX];
} BwRoute;

typedef struct {
  int least, most;        /* beads, ≤ BW_ROUTE_MAX */
  int turns;              /* exactly so many; −1: as many as come */
  const BwStitch *target; /* the last bead, row or way 0 for any; NULL: any bead */
} BwRouteWish;

/* The cheapest route that is as wished: fewest full beads, then fewest passes in the holes. FALSE
 * when there is none. */
gboolean bw_route_search (BwRoute *route, const BwNeedle *needle, BwStitch from,
                          const BwRouteWish *wish);

/* Adds beads to the route until it has n of them, always the emptiest hole in reach; a full one
 * only where every other way fails. Stops early only where the work offers no bead to go on with.
 */
void bw_route_weave (BwRoute *route, const BwNeedle *needle, BwStitch from, int n);
