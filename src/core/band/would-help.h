/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What would help most: how likely the likeliest count would be the fewest rows that close, were
 * this or that measured first.
 *
 * What a measurement will say is not known, but how sure it will leave the count is: a normal
 * belief of error σ becomes one of error τ < σ about a mean that will itself be normal with
 * variance σ² − τ². So the chance to be had is
 *
 *   ∫ φ(m; 0, σ² − τ²) max_n (Φ((e_n − m)/τ) − Φ((e_{n−1} − m)/τ)) dm,   e_n = (λ_n − 1) g1,
 *
 * σ and τ as "core/band/forecast.h" has them before and after. */
#pragma once

#include "core/band/fit.h"

typedef enum {
  BW_HELP_SWATCH,          /* a swatch of so many rows by ruler */
  BW_HELP_SWATCH_CALLIPER, /* by calliper */
  BW_HELP_STRIP,           /* the strip's own length once so many rows are woven, by ruler */
  BW_HELP_FLATS,           /* the stone across its flats by calliper, not by a strip of paper */
  BW_HELP_GIRTH_AGAIN,     /* the strip of paper once more, and the mean of both */
  BW_HELP_GIRTH_OVER,      /* the girth over the bed by a strip of paper */
  BW_HELP_STRETCH,         /* a swatch of so many rows pulled, by calliper */
  BW_HELP_SQUEEZE,         /* the girth over the bed slack and under a pulled strip, by calliper */
} BwHelpKind;

/* "swatch", "swatch", "strip", "flats", "girth-again", "girth-over", "stretch", "squeeze". */
const char *bw_help_word (BwHelpKind kind);

#define BW_HELP_SWATCH_ROWS 24
#define BW_HELP_LONG_SWATCH_ROWS 60
#define BW_HELPS_MAX 10
#define BW_HELP_LEAST 0.01 /* a gain of less is not worth the walk to the drawer: judgement */

typedef struct {
  BwHelpKind kind;
  int rows;      /* of swatch or strip; else 0 */
  double chance; /* to be had, 0..1 */
} BwHelp;

typedef struct {
  double now; /* the chance of the likeliest count as it is */
  int n;
  BwHelp help[BW_HELPS_MAX]; /* the most helpful first; none gains less than BW_HELP_LEAST */
} BwHelps;

/* The design must be valid, its pitch and its bed as known now. What is there already is not asked
 * for again: no shorter swatch and none by a coarser tool, no girth over a bed that has one, no
 * stretch and no squeeze of a strip and a bed that were pulled. After a try-on nothing is offered,
 * for the strip round the stone knows better than all of these. */
void bw_helps_init (BwHelps *helps, const BwDesign *design, const BwStone *stone);

/* Drops what is past with so many rows woven: a strip's length at a row that lies behind. */
void bw_helps_drop_past (BwHelps *helps, int rows_done);
