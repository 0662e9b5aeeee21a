/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The beads of one colour that hang together: each touches six others, also across the join. */
#pragma once

#include "core/pattern/region.h"

/* The bead's own connected part, the bead itself included. With an odd number of rows the last row
 * touches the first along the band. */
BwRegion *bw_flood (const BwDrawing *drawing, int row, int column);
