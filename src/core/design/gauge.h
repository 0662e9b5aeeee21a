/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The gauge: how closely this maker's hands set beads of this size, and how sure that is. */
#pragma once

#include "core/base/fault.h"
#include "core/base/limits.h"
#include <glib.h>

/* What a strip was measured with. */
typedef enum { BW_STRIP_BY_RULER, BW_STRIP_BY_CALLIPER } BwStripTool;

/* "ruler", "calliper", NULL. */
extern const char *const bw_strip_tool_words[];

/* Standard error of a strip's length: 0.3 mm by ruler, 0.1 mm by calliper (common practice, no
 * source). */
double bw_strip_error_mm (BwStripTool tool);

/* A flat woven sample, measured edge to edge. */
typedef struct {
  int columns, rows; /* columns even ≥ 2, rows ≥ 2 */
  double width_mm, length_mm;
  BwStripTool tool;
} BwSwatch;

/* What the pieces woven before say of this one: "core/workshop/hands.h". */
typedef struct {
  double pitch_mm, pitch_sd_mm; /* sd from 1e-4 to a fifth of the pitch */
} BwGaugeHands;

typedef struct {
  double column_mm; /* w, distance between neighbouring columns */
  double pitch_mm;  /* p, distance between neighbouring beads of one column; a row advances p/2 */
  gboolean has_hands;
  BwGaugeHands hands; /* when set and there is no swatch, pitch_mm equals hands.pitch_mm */
  gboolean has_swatch;
  BwSwatch swatch; /* when set, column_mm and pitch_mm equal what it gives */
} BwGauge;

/* A strip of `rows` rows found to measure length_mm from edge to edge. */
typedef struct {
  int rows;
  double length_mm;
} BwCheck;

/* The pitch as believed after all measurements: a normal distribution. */
typedef struct {
  double mm; /* mean */
  double sd_mm;
} BwPitch;

/* w = width / columns and p = 2 length / (rows + 1): a strip of r rows is (r + 1)/2 pitches long.
 */
double bw_swatch_column_mm (const BwSwatch *swatch);
double bw_swatch_pitch_mm (const BwSwatch *swatch);

/* The posterior pitch. Prior: the hands when there are any; else mean p0 = gauge's pitch, sd 2 % of
 * it (common practice, no source). Every check, and the swatch when there is one, is a reading with
 * error e, 0.3 mm for a check, bw_strip_error_mm() for the swatch: precision = 1/sd² +
 * Σ((r+1)/2)²/e². checks may be NULL when n_checks is 0. */
BwPitch bw_gauge_pitch (const BwGauge *gauge, const BwCheck *checks, int n_checks);

/* Ranges: faults of the gauge. */
gboolean bw_gauge_validate (const BwGauge *gauge, BwFault *fault);
