/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A row on the needle: the beads to pick up on their thread, the raised beads they go between as
 * outlines, the needle at the end, and under each run of a colour how many and its name. */
#pragma once

#include "app/bench/needle-layout.h"
#include <gtk/gtk.h>

#define BW_TYPE_BENCH_NEEDLE (bw_bench_needle_get_type ())
G_DECLARE_FINAL_TYPE (BwBenchNeedle, bw_bench_needle, BW, BENCH_NEEDLE, GtkWidget)

/* Diameter of a bead where there is room. */
void bw_bench_needle_set_size (BwBenchNeedle *self, int bead_px);
/* What the pass that makes this row meets; nothing where there is no such row. */
void bw_bench_needle_set_row (BwBenchNeedle *self, BwProject *project, gboolean in_bail, int row);
/* What is drawn, as laid out last. Borrowed until the next change. */
const BwNeedleLayout *bw_bench_needle_get_layout (BwBenchNeedle *self);
const GArray *bw_bench_needle_get_beads (BwBenchNeedle *self);
