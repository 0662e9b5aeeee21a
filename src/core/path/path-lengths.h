/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside the thread's path only: the length of thread in the needle, and when it gives way to a
 * fresh one. */
#pragma once

#include "core/path/path-needle.h"

/* Whether a pass still fits on the length in the needle. */
gboolean bw_needle_has_room (const BwNeedle *needle, double mm);

/* Whether so much fits on a length of its own. */
gboolean bw_needle_has_length_for (const BwNeedle *needle, double mm);

/* Before a pass of `mm` millimetres that ends at row `to`: takes a fresh length when it does not
 * fit. */
void bw_needle_reserve (BwNeedle *needle, double mm, int from, int to);
/* Weaves in the end of the length and begins a fresh one, so that the needle leaves bead `from`. */
void bw_needle_change (BwNeedle *needle, BwStitch from);
void bw_needle_begin (BwNeedle *needle);
void bw_needle_finish (BwNeedle *needle);
