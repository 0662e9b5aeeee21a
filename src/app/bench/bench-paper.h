/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the work sheet draws of a step that is no row of the band, on a paper of its own beside the
 * words: a pass of the join, or the bail's own chart with what is woven paled and the row in hand
 * framed. */
#pragma once

#include "app/bench/bench-steps.h"
#include <gtk/gtk.h>

#define BW_TYPE_BENCH_PAPER (bw_bench_paper_get_type ())
G_DECLARE_FINAL_TYPE (BwBenchPaper, bw_bench_paper, BW, BENCH_PAPER, GtkWidget)

/* Whether there is a drawing of this step. */
gboolean bw_bench_paper_has (BwProject *project, BwBenchStep step);
/* Draws this step from now on; nothing where there is no drawing of it. */
void bw_bench_paper_set_step (BwBenchPaper *self, BwProject *project, BwBenchStep step);
