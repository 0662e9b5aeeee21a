/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stone from the side: prism, shoulder and point, the bed and the band in their place, the
 * heights written beside it. */
#pragma once

#include "app/form/sketch.h"

#define BW_TYPE_PROFILE_SKETCH (bw_profile_sketch_get_type ())
G_DECLARE_FINAL_TYPE (BwProfileSketch, bw_profile_sketch, BW, PROFILE_SKETCH, BwSketch)
