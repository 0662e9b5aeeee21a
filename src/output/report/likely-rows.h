/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How many rows the band may want when the ends do not meet at the planned one, and the thread that
 * takes. */
#pragma once

#include "project/project.h"

/* The row counts, even ones, that may come out: all that are at all likely, and in any case those
 * within `BW_ROWS_NEAR` of the plan. first ≤ last; within what a band can have. */
typedef struct {
  int first, last;
} BwLikelyRows;

#define BW_ROWS_NEAR 4

BwLikelyRows bw_likely_rows (BwProject *project);

/* What of the length in the needle after the last row of the band is needed by what follows, with
 * the weaving-in of its end and its tail, millimetres. */
double bw_thread_rest_mm (BwProject *project);

/* The thread that likely further rows take. */
typedef struct {
  int rows;       /* beyond the planned ones, at most; 0: none */
  double left_mm; /* to be left in the needle after the planned last row, to do without a change */
  double cut_mm;  /* else the fresh length to cut, its ends included */
} BwFurtherThread;

BwFurtherThread bw_further_thread (BwProject *project);

/* That length as it is cut, for so many pieces; 0 pieces: the project's own count. Millimetres. */
double bw_further_thread_to_buy_mm (BwProject *project, int pieces);
