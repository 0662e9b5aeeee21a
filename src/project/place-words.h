/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where on the stone something lies, told by its faces as a maker numbers them, from 1. */
#pragma once

#include "project/project.h"

/* So near to a middle or an edge a maker says that it lies there: half a small bead's width. */
#define BW_PLACE_THERE_MM 0.5

/* What lies under an azimuth of the band: "middle of face 4", "face 4", "edge of faces 4 and 5".
 * azimuth_deg: any; 0 is the middle of face 1. Owned. */
char *bw_place_words (BwProject *project, double azimuth_deg);
