/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The section from above, as measured: faces numbered, the measures written on it, the beads of a
 * middle column round it, the join and the bail marked, corners that show thread pointed out. */
#pragma once

#include "app/form/sketch.h"

#define BW_TYPE_SECTION_SKETCH (bw_section_sketch_get_type ())
G_DECLARE_FINAL_TYPE (BwSectionSketch, bw_section_sketch, BW, SECTION_SKETCH, BwSketch)
