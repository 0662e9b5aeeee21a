/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether the band closes and grips, column by column. */
#pragma once

#include "core/design/design.h"

typedef enum {
  BW_VERDICT_SNUG,
  BW_VERDICT_WILL_NOT_CLOSE,
  BW_VERDICT_LOOSE,
  BW_VERDICT_ODD_ROWS,
} BwVerdict;

/* The word of the command line and of JSON: "snug", "will-not-close", "loose", "odd-rows". */
const char *bw_verdict_word (BwVerdict verdict);

typedef struct {
  int column; /* from 1, lowest first */
  double height_mm;
  double girth_mm;
  gboolean has_chord; /* FALSE for partial work, which is no ring yet: chord_mm is 0 then */
  double chord_mm;    /* relaxed, chord(n, t + D/2), mean of both starts */
  double gap_mm;   /* n (chord − p): positive = relaxed strip short; partial work: Λ − n p */
  double pull_mm;  /* what pulling gives; partial work: ε n p */
  gboolean closes; /* gap ≤ pull: chord(n, t(1 − q) + D/2) ≤ (1 + ε) p */
  gboolean grips;  /* gap ≥ −slack */
} BwFitColumn;

typedef struct {
  int rows;
  int beads_around; /* n; (rows + 1)/2 for odd rows */
  gboolean partial; /* n p < Λ/2 in some column: no chord there */
  BwVerdict verdict;
  double gap_min_mm, gap_max_mm;
  int n_columns;
  BwFitColumn column[BW_COLUMNS_MAX];
} BwFit;

/* Fit of `rows` rows of this design (design->band.rows is not looked at) with its posterior pitch.
 * The design must be valid; the bed is solved from it. */
void bw_fit_init (BwFit *fit, const BwDesign *design, const BwStone *stone, int rows);

/* The verdict of `rows` rows and its gaps alone, stopping early when it can: same answer as
 * bw_fit_init(). */
BwVerdict bw_fit_verdict (const BwDesign *design, const BwStone *stone, int rows,
                          double *gap_min_mm, double *gap_max_mm);

/* Whether the verdict is BW_VERDICT_SNUG, stopping at the first column that does not close or does
 * not grip. */
gboolean bw_fit_is_snug (const BwDesign *design, const BwStone *stone, int rows);

/* The smallest n at which every column closes. At least 3. */
int bw_fit_recommended (const BwDesign *design, const BwStone *stone);

/* λ_n: the scale of the section (about the axis, bed unchanged) at which n just closes: the least
 * over the columns. 0 when n cannot close round even a vanishing stone. */
double bw_fit_closing_scale (const BwDesign *design, const BwStone *stone, int n);
