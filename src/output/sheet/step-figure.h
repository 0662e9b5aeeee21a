/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One step of the needle drawn: the beads there, those passed, the thread through them. */
#pragma once

#include "output/sheet/step-layout.h"
#include <cairo.h>

/* Draws what was laid out, with the box's top left corner at (0, 0). */
void bw_step_draw (cairo_t *cr, const BwStepLayout *layout);
