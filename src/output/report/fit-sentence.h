/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fit in a maker's words, the same on screen, on the sheet and from the tool. Translated,
 * lengths in the unit asked for; what is not borrowed is owned. */
#pragma once

#include "output/report/fit-told.h"
#include "project/document/length.h"

/* By the measurements alone: "Snug", "Loose", "Will not close", "Odd rows". Borrowed. */
const char *bw_fit_words_verdict (BwVerdict verdict);
/* "0.3 mm slack to 0.6 mm pulled": least and greatest gap. */
char *bw_fit_words_gaps (double least_mm, double greatest_mm, BwUnit unit);

/* The verdict with the odds in it: "Snug", "Snug on paper", "Short on paper", … Borrowed. */
const char *bw_fit_words_head (const BwFitTold *told);
/* What is so and what to do, with no chance in it: "Weave 98 or 100: try on at row 94, then
 * decide." */
char *bw_fit_words_sentence (const BwFitTold *told, const BwFit *fit, double slack_mm, BwUnit unit);
/* Instead of any advice for the weaving, once these rows are all woven. */
char *bw_fit_words_woven (int rows);
/* What each chance is the chance of: "98 rows turn out right with 52 %, 100 with 31 %." */
char *bw_fit_words_odds (const BwFitTold *told);
/* How the two chances of the project's own rows belong together: "98 rows close with 70 %: just
 * right with 52 %, longer than need be with 18 %." */
char *bw_fit_words_chances (const BwFitTold *told);
