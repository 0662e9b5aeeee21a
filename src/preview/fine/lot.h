/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers drawn by lot, the same for the same place, try and seed on every machine and in any
 * number of threads. The first few of a try lie evenly among those of the other tries at its place,
 * which makes a picture calm sooner. */
#pragma once

#include "core/base/stir.h"
#include "core/base/vec.h"

#define BW_LOT_EVEN 10 /* so many of each try lie evenly */

typedef struct {
  guint64 state;
  guint32 place, attempt;
  int drawn;
} BwLot;

static inline BwLot
bw_lot_at (guint seed, guint32 place, guint32 attempt)
{
  guint64 own = bw_stir ((guint64)place << 32 | attempt);
  return (BwLot){ bw_stir (own + seed * 0x9e3779b97f4a7c15u),
                  (guint32)bw_stir (place + ((guint64)seed << 32)), attempt, 0 };
}

/* 0 up to but not including 1. */
static inline double
bw_lot_next (BwLot *lot)
{
  /* Shares of the golden ratio and its like: multiples of each lie evenly (R. Kronecker's
   * sequence; square roots of primes, less their whole parts). */
  static const double share[BW_LOT_EVEN] = { 0.41421356237310, 0.73205080756888, 0.23606797749979,
                                             0.64575131106459, 0.31662479035540, 0.60555127546399,
                                             0.12310562561766, 0.35889894354067, 0.79583152331272,
                                             0.38516480713450 };
  int i = lot->drawn++;
  if (i < BW_LOT_EVEN) {
    double start = (double)(guint32)bw_stir (lot->place + ((guint64)i << 40)) / 4294967296;
    double at = start + lot->attempt * share[i];
    return at - floor (at);
  }
  return bw_stir_next (&lot->state);
}
