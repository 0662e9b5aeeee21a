/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the bench helper says. All strings are owned by the caller. */
#pragma once

#include "core/band/try-on.h"
#include "project/project.h"

/* "Row 12 of 120", "Pick-up, rows 1 and 2 of 120", or that all is woven. */
char *bw_bench_name (BwProject *project, int row);
/* The same with the arrow of its direction. */
char *bw_bench_title (BwProject *project, int row);
/* Which way the needle runs; "" after the last row. */
const char *bw_bench_way (BwProject *project, int row);
/* The beads of a row by name, "" after the last. */
char *bw_bench_beads (BwProject *project, int row);

/* "1 h 40 min", "40 min", "20 s". */
char *bw_bench_duration (double seconds);

/* What to do after a try-on. */
char *bw_bench_try_on_words (const BwTryOn *try_on);
