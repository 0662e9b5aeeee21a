/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Ways to set a stone: a joint search over bead, columns, bed, grade, height, rows and bail, where
 * the remedies turn one knob at a time.
 *
 * The candidates lie on a grid: each bead, every even number of columns that the prism has room
 * for, 0 to 4 layers of cord, no grade and the one that makes both edges alike, every half
 * millimetre of height with the band wholly on the prism, the rows most likely to be right, and the
 * bails of each style whose loop lets the cord through. Kept is what is snug, closes with at least
 * a half chance, hangs on a loop the cord passes, and fills no hole beyond what a needle can pass.
 *
 * Hours are reckoned by counts: rows W beads each, zip and return W, anchors 8, a bail's row m and
 * its sewing 2 m an end, 32 for the ends of each length of thread; W visits take a row's time.
 *
 * Of what is kept the front counts: ways than which no other is better in something and worse in
 * nothing. From the front those are chosen that differ most. No step depends on time or chance: the
 * same question and seed have the same answer, however the search is shared out over threads. */
#pragma once

#include "core/bail/hang.h"
#include "core/band/fit.h"

/* What the maker wishes. Weights ≥ 0; 0: it does not matter. */
typedef struct {
  gboolean has_stance;
  BwWant stance;
  /* Shares of the stone's length: what the band is to cover, and what it must and may. */
  double coverage, coverage_least, coverage_most;
} BwWaysWish;

/* A bead and what the maker's hands make of it. */
typedef struct {
  BwBead bead;
  BwGauge gauge;
  BwPitch pitch; /* bw_gauge_pitch() of the gauge, checks of this very bead included */
} BwWaysBead;

/* The question. Borrowed, unchanged while a search runs. */
typedef struct {
  const BwDesign *design; /* valid; what no knob turns stays as it is here */
  const BwStone *stone;
  const BwWaysBead *beads;
  int n_beads;
  BwWaysWish wish;
} BwWaysAsk;

/* What one way costs and brings: the objectives. */
typedef struct {
  double chance; /* that its rows are right, the fewest that close, 0..1: what the forecast of its
                    design tells of them; more is better */
  double closes; /* chance that it closes, by the forecast too */
  double snug;   /* that it closes and no column is too long to grip; more is better */
  double
      stance_deg; /* off the stance wished for; 0 when none is; less is better, as is all below */
  double coverage_off; /* off the coverage wished for, share of the stone's length */
  double hours; /* rows, join, bail, ends and bed, as the list of materials has them, at the pace of
                   the supply or the usual one; about so in a front, exactly so once chosen */
  double cost;  /* beads by weight, cord and labour at the supply's prices; 0 without prices */
  double beads; /* in band and bail */
} BwWayWorth;

typedef struct {
  BwDesign design; /* valid and snug */
  BwWayWorth worth;
  double coverage; /* share of the stone's length under the band */
  double moved_mm; /* up or down from where the band lies now; of two alike the nearer is kept */
  gboolean hangs;  /* FALSE: no bail, the next two mean nothing */
  double tilt_deg; /* axis from the vertical */
  BwUp up;
} BwWay;

/* How many shares of the grid there are: one for each bead and number of columns. Shares may be
 * searched at once on different threads and in any order. */
int bw_ways_n_shares (const BwWaysAsk *ask);

/* The good ways of one share, thinned to its own front; appended to ways (of BwWay). coarse: only
 * every eighth height, for a first look; its ways are among those of the whole search but for
 * their being beaten there. *stop, when not NULL, ends it early when another thread sets it: what
 * was found by then is appended. */
void bw_ways_search (const BwWaysAsk *ask, int share, gboolean coarse, const int *stop,
                     GArray *ways);

/* Leaves in ways the front alone, in an order that does not depend on the one it came in: the most
 * likely right first. */
void bw_ways_front (GArray *ways);

/* Tells the chances of a way's design again: who takes other things for known than the question
 * did, a try-on carried over, tells what the forecast will. FALSE: then it is not snug. */
gboolean bw_way_tell_chances (BwWay *way, const BwStone *stone);

/* Chooses up to `limit` of a front, none of them with less than 0.6 of the best chance in it (the
 * lesser of chance and snug), that differ most, knobs and worth taken together, each on the scale
 * of its range there: first the best by equal weights, then each time the one farthest from all
 * chosen. Another seed begins elsewhere: seed 0 with the best, seed k with the k-th best. A new
 * array of BwWay, owned. */
GArray *bw_ways_choose (const GArray *front, int limit, guint seed);
