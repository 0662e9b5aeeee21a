/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a maker does at the bench, each one step of undo: a row more, a row back, a length noted,
 * another number of rows or a thicker bed. */
#pragma once

#include "core/band/refit.h"
#include "core/band/try-on.h"
#include "output/sheet/steps.h"
#include "project/project.h"

/* The row in hand: 1 while the pick-up of rows 1 and 2 is still to be done, rows + 1 at the end. */
int bw_bench_row (BwProject *project);
/* What is in hand: a row of the band or, once that is woven, a step of the join, then a row of the
 * bail. */
typedef struct {
  gboolean in_bail;
  int row;         /* the lowest of the rows that are strung together */
  int join;        /* which step of the join, from 1; 0: it is a row, which `row` means only then */
  gboolean is_end; /* nothing is left to weave; the rest means nothing then */
} BwBenchStep;
BwBenchStep bw_bench_step (BwProject *project);
/* What comes after this step. */
BwBenchStep bw_bench_step_after (BwProject *project, BwBenchStep step);
/* The join has a step before the needle moves, for the last look at the count and the stopper bead,
 * and then one for each of its passes: zip, return, anchors. 0 for a strip that cannot be joined.
 */
int bw_bench_join_steps (BwProject *project);
/* The pass of that step; FALSE for the first, which has none. */
gboolean bw_bench_join_pass (BwProject *project, int step, BwStep *pass);
/* Marks what is in hand as done; how many rows that were: 2, 1 (a step of the join counts as one),
 * or 0 at the end. */
int bw_bench_advance (BwProject *project);
/* FALSE when there is nothing to take back. */
gboolean bw_bench_back (BwProject *project);

/* The strip as it is now measures so much. A second length of the same rows replaces the first.
 * FALSE with *error before the pick-up, or when no such length can be. */
gboolean bw_bench_note (BwProject *project, double length_mm, GError **error);
/* The design as it would be believed with that length noted. The same faults. */
gboolean bw_bench_try_note (BwProject *project, double length_mm, BwDesign *design, GError **error);
gboolean bw_bench_drop_note (BwProject *project);

/* What to do with a strip that was read so when it was tried on. FALSE with *error before the
 * pick-up, or when the strip has not so many beads. */
gboolean bw_bench_try_on (BwProject *project, const BwReading *reading, BwTryOn *try_on,
                          GError **error);

/* What a strip check or a try-on comes to. */
typedef struct {
  int rows;                 /* of the band */
  BwRefit how;              /* the drawing is fitted to them */
  double length_mm;         /* noted with it; 0: none */
  const BwReading *reading; /* kept with it; NULL: none */
  double bed_mm;            /* the bed becomes so much thicker; 0: it stays */
} BwBenchChange;

/* Makes the change as one step. Rows woven beyond the new last one are to be picked out and no
 * longer count. FALSE with *error when it cannot stand; nothing has changed then. */
gboolean bw_bench_take (BwProject *project, const BwBenchChange *change, GError **error);
