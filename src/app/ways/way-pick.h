/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which of the ways found are shown, and in what order: what the maker lets through, the best first
 * by what matters to the maker. */
#pragma once

#include "core/workshop/ways.h"

/* What matters, each 0 (not at all) to 1. */
typedef enum {
  BW_MATTERS_CHANCE,
  BW_MATTERS_HANG,
  BW_MATTERS_COVER,
  BW_MATTERS_WORK,
  BW_MATTERS_COST,
  BW_N_MATTERS
} BwMatters;

typedef struct {
  const char *bead; /* its name; NULL: any */
  int columns;      /* 0: any number */
  double chance;    /* at least */
  gboolean has_want;
  BwWant want; /* nearer to that than to anything else */
  /* Asked of each way that passes the rest, with its place; NULL: none is refused. */
  gboolean (*allowed) (const BwWay *way, guint at, gpointer data);
  gpointer data;
} BwWayFilter;

gboolean bw_way_passes (const BwWay *way, const BwWayFilter *filter);

/* Up to `most` of the ways (of BwWay) that pass, as an owned array of their places (of guint). Each
 * is measured by what it falls short of the best of those that pass, on the scale of their range;
 * of two as good the earlier comes first. Of those that share bead, columns and kind of bail the
 * best alone is picked while there are others to fill the places; the rest comes after, and all
 * stand in order of how good they are. */
GArray *bw_way_pick (const GArray *ways, const BwWayFilter *filter,
                     const double weights[BW_N_MATTERS], guint most);
