/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a maker does at the bench, each one step of undo: a row more, a row back, a length noted,
 * another number of rows. */
#pragma once

#include "core/refit.h"
#include "project/project.h"

/* The row in hand: 1 while the pick-up of rows 1 and 2 is still to be done, rows + 1 at the end. */
int bw_bench_row (BwProject *project);
/* Marks the row in hand as done; how many rows that were: 2, 1, or 0 at the end. */
int bw_bench_advance (BwProject *project);
/* FALSE when there is nothing to take back. */
gboolean bw_bench_back (BwProject *project);

/* The strip as it is now measures so much. A second length of the same rows replaces the first.
 * FALSE with *error before the pick-up, or when no such length can be. */
gboolean bw_bench_note (BwProject *project, double length_mm, GError **error);
/* The design as it would be believed with that length noted. The same faults. */
gboolean bw_bench_try_note (BwProject *project, double length_mm, BwDesign *design, GError **error);
gboolean bw_bench_drop_note (BwProject *project);

/* Another number of rows as one step, with the drawing fitted to it and, when length_mm > 0, that
 * length noted. Rows woven beyond the new last one are to be picked out and no longer count. */
gboolean bw_bench_take_rows (BwProject *project, int rows, BwRefit how, double length_mm,
                             GError **error);

/* "Row 12 of 120 ↑", "Pick-up, rows 1 and 2 of 120 ↑", or that all is woven. Owned. */
char *bw_bench_title (BwProject *project, int row);
