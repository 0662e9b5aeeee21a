/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rows as they are read at an arm's length: large type, each colour by the letter on its bead, a
 * box for every row, every tenth ruled, and a repeat written once. Private to the sheets of this
 * room. */
#pragma once

#include "output/page/page.h"
#include "output/sheet/bead-words.h"

typedef struct {
  BwFlow *flow;
  BwProject *project;
  BwBeadWords *beads;
  int repeat;       /* of the band, while its rows are told; 0: every row is written */
  int first, last;  /* rows told or passed over */
  int lines;        /* that are still to tell them */
  gboolean folded;  /* the repeat was told, and rows are passed over */
  gboolean keyless; /* too many colours for a key on every page */
} BwBenchRows;

/* Begins the rows of the band (in_band) or others. */
void bw_bench_rows_begin (BwBenchRows *rows, gboolean in_band);
/* A line of the words' plain text that tells a row, or goes on with one. */
void bw_bench_rows_line (BwBenchRows *rows, const char *line);
/* What is told between rows, with the row it comes after where that is not seen. Owned. */
char *bw_bench_rows_event (const BwBenchRows *rows, const char *sentence);
