/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The finished piece at rest on its cord, with the point it turns about and its balance point. */
#pragma once

#include "app/form/sketch.h"

#define BW_TYPE_HANG_SKETCH (bw_hang_sketch_get_type ())
G_DECLARE_FINAL_TYPE (BwHangSketch, bw_hang_sketch, BW, HANG_SKETCH, BwSketch)

/* Turn of the picture, radians counter-clockwise, that brings the stone (drawn with its axis up and
 * the bail to the right) to rest as `hang` tells. Without a bail 0. */
double bw_hang_sketch_turn (const BwHang *hang, const BwBail *bail);

/* What points to the right then, degrees: the bail's azimuth. A loop over the tip is seen as the
 * arc it is, or from its edge where the piece leans more that way. */
double bw_hang_sketch_azimuth (const BwHang *hang, const BwBail *bail);
