/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A graded bed in whole turns of cord: which layer goes from where to where. */
#pragma once

#include "core/design/bed.h"

/* One layer, wound side by side; layers count from the stone outwards. */
typedef struct {
  double low_mm, high_mm; /* heights above the base */
  int turns;              /* of the cord's width, at least 1 */
} BwBedLayer;

#define BW_BED_LAYERS_LISTED 16

/* A layer is wound wherever the bed should be thicker than the middle of that layer, so that the
 * bed comes within half a cord of what was reckoned. How many there are, at most
 * BW_BED_LAYERS_LISTED; a layer that no turn's width is left for is none. */
int bw_bed_layers (const BwBed *bed, const BwStone *stone, BwBandSpan span,
                   BwBedLayer layers[BW_BED_LAYERS_LISTED]);
