/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What lies over the beads for the tools' sake. */
#pragma once

#include "editor/cloth/band-paint.h"

void bw_band_paint_selection (const BwBandPaint *paint, const BwRegion *region);
void bw_band_paint_symmetry (const BwBandPaint *paint, BwSession *session);
void bw_band_paint_broken (const BwBandPaint *paint, BwSession *session);
