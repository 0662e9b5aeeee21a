/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is woven when the ends do not meet at the planned row, and what the pattern does at the join
 * with another count: the count is known for certain only when they meet. */
#pragma once

#include "output/report/likely-rows.h"
#include "project/document/length.h"

/* The drawing with so many rows: cut, or carried on by its repeat, in its ground where it has none,
 * as the project itself goes on. Owned. */
BwDrawing *bw_drawing_run_on (const BwDrawing *drawing, int rows);

/* Where a drawing breaks at the join, were it run on to `rows` rows. */
typedef struct {
  int beads;               /* of the beginning that do not go on from the end; 0: none */
  int first_row, last_row; /* where they lie */
  int first_column, last_column;
} BwBreak;

/* Only for a drawing that repeats every `repeat` rows, and even `rows`. */
BwBreak bw_drawing_break (const BwDrawing *drawing, int repeat, int rows);

/* The section of the further rows; and, as items, what the pattern does at the join. */
void bw_words_append_further_rows (GString *text, BwProject *project, char **labels, BwUnit unit);
void bw_words_append_pattern (GString *text, BwProject *project);
