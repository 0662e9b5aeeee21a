/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the bench helper says. All strings are owned by the caller. */
#pragma once

#include "app/bench/bench-steps.h"
#include "project/project.h"

/* "Row 12 of 120", "Pick-up, rows 1 and 2 of 120", "Join, 2 of 4: the zip", "Bail, row 3 of 23", or
 * that all is woven. */
char *bw_bench_name (BwProject *project, BwBenchStep step);
/* The same with the arrow of its direction, where it has one. */
char *bw_bench_title (BwProject *project, BwBenchStep step);
/* Which way the needle runs; for a step of the join that nothing is picked up; "" at the end. */
const char *bw_bench_way (BwProject *project, BwBenchStep step);
/* "↑" or "↓"; "" at the end and for steps of the join that run both ways. */
const char *bw_bench_arrow (BwProject *project, BwBenchStep step);
/* The beads to pick up by name, in the order of the needle; "" where there are none. */
char *bw_bench_beads (BwProject *project, BwBenchStep step);
/* What is to be known or done before this step; at the end all that is still to be done. */
char *bw_bench_note_words (BwProject *project, BwBenchStep step);

/* What is left of the band or of the bail: "12 rows to go."; "" where nothing is, or the join is in
 * hand. */
char *bw_bench_left (BwProject *project, BwBenchStep step);
/* How woven rows, and those that are drawn twice, are told from the others in the picture beside
 * the step; "" where there are none such. */
const char *bw_bench_legend (BwBenchStep step);

/* "1 h 40 min", "40 min", "20 s". */
char *bw_bench_duration (double seconds);

/* What to do after a try-on. */
char *bw_bench_try_on_words (const BwTryOn *try_on);
