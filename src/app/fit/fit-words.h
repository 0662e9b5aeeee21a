/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fit in words, translated, lengths in the unit asked for. All owned. */
#pragma once

#include "core/band/forecast.h"
#include "core/band/remedy.h"
#include "project/document/length.h"

/* "Snug", "Loose", "Will not close", "Odd rows". Borrowed. */
const char *bw_fit_words_verdict (BwVerdict verdict);
/* "0.3 mm slack to 0.6 mm pulled": least and greatest gap. */
char *bw_fit_words_gaps (double least_mm, double greatest_mm, BwUnit unit);
/* What the numbers mean for these rows: the column at fault and by how much, or the gaps. */
char *bw_fit_words_detail (const BwFit *fit, double slack_mm, BwUnit unit);
/* "116 rows recommended · 93 % chance that 114 close". beads_around and closes are those of the
 * band as it stands, so its rows are named wherever they are not the recommended ones. */
char *bw_fit_words_recommended (int recommended, int beads_around, double closes);

/* What to do, as on a button: "Weave 116 rows", "Make the bed 0.12 mm thinner". */
char *bw_remedy_words_do (const BwRemedy *remedy, const BwDesign *now, BwUnit unit);
/* What it gives: "Snug, gap −0.3 to 0.6 mm". */
char *bw_remedy_words_gives (const BwRemedy *remedy, BwUnit unit);

/* Where a gap lies on the scale of the fit line: 0 at the loose limit, 1 at the closing limit,
 * linear between; beyond them it runs out towards −1 and 2 without reaching them. pull + slack > 0.
 */
double bw_fit_scale (double gap_mm, double pull_mm, double slack_mm);
