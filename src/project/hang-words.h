/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the piece hangs, in a maker's words: the same on screen, on the sheet and from the tool. */
#pragma once

#include "core/bail/hang.h"

/* The angle that is told: from level where the axis is nearer to it, else from upright. */
double bw_hang_off_deg (double tilt_deg);
/* "level", "nearly level, tip 6° low", "tip down, 12° from upright": angles count from level where
 * the axis is nearer to it, else from upright. tilt_deg: the axis from the vertical, 0..90. Owned.
 */
char *bw_hang_words (BwUp up, double tilt_deg);
/* "Hangs nearly level, tip 6° low." Owned. */
char *bw_hang_sentence (BwUp up, double tilt_deg);
