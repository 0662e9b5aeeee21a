/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where a stone's needles and chips lie: drawn by the seed of its look, the same everywhere. A
 * larger amount adds to those that a smaller one had. Sizes and places are common practice, no
 * source: how such stones look in the hand. */
#pragma once

#include "core/stone/stone.h"
#include "core/stone/stone-look.h"

#define BW_NEEDLES_MAX 24
#define BW_CHIPS_MAX 12

/* A straight needle, wholly inside the stone. Lengths are mm. */
typedef struct {
  BwVec3 from, to;
  double radius;
} BwNeedle;

/* A shell-shaped hollow on an edge: what lies within its radius of a point of the edge. */
typedef struct {
  BwVec3 at;
  BwVec3 out; /* unit, between the normals of the two faces */
  double radius;
} BwChip;

/* Plain data, no pointers. */
typedef struct {
  int n_needles, n_chips;
  BwNeedle needle[BW_NEEDLES_MAX];
  BwChip chip[BW_CHIPS_MAX];
} BwNature;

void bw_nature_init (BwNature *nature, const BwStone *stone, const BwStoneLook *look);
