/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a natural stone looks like beyond its mineral and its measures. No number of the trade
 * depends on it: it is there for the pictures. All 0 is a quiet stone. */
#pragma once

#include "core/base/fault.h"

/* What the flat lower end is like. */
typedef enum { BW_BASE_PLAIN, BW_BASE_FROSTED, BW_BASE_BROKEN } BwBaseSurface;

/* Plain data, copied by assignment. Amounts are 0 (none) to 1 (as much as is ever seen). */
typedef struct {
  double growth_lines; /* on the prism, as its mineral has them: see mineral-striae.h */
  double veils;        /* beyond those of the mineral */
  double needles;      /* of another mineral, grown in */
  double chips;        /* along its edges */
  BwBaseSurface base;
  int seed; /* which veils, needles and chips, 0..BW_LOOK_SEED_MAX */
} BwStoneLook;

#define BW_LOOK_SEED_MAX 9999

/* Ranges: faults at /stone/look/…. */
gboolean bw_stone_look_validate (const BwStoneLook *look, BwFault *fault);

gboolean bw_stone_look_is_quiet (const BwStoneLook *look);
gboolean bw_stone_look_equal (const BwStoneLook *a, const BwStoneLook *b);
