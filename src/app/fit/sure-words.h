/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How sure the row count is, in words. All owned. */
#pragma once

#include "core/band/forecast.h"

/* A typical swatch: ten columns of twenty-four rows. */
#define BW_SWATCH_COLUMNS 10
#define BW_SWATCH_ROWS 24

/* The pitch's standard error if such a swatch (or a strip of `rows` rows) were measured besides
 * what is known already. */
double bw_sure_sd_after (const BwDesign *design, int rows);

/* "Right first time: 41 % now, 77 % with a swatch, 85 % with a try-on at row 112." A swatch is not
 * offered where there is one. */
char *bw_sure_words_chance (const BwDesign *design, const BwStone *stone, int try_on_row);
/* "Right first time: 41 %. What helps most:" and a line for each of the best measurements not
 * yet made, three at most: "Measure the girth over the bed: 61 %"; where none would, the above.
 * What is past with so many rows woven is not told. */
char *bw_sure_words_helps (const BwDesign *design, const BwStone *stone, int try_on_row,
                           int rows_done);
/* "Right first time: 77 % instead of 41 %." */
char *bw_sure_words_gain (const BwDesign *before, const BwDesign *after, const BwStone *stone);
