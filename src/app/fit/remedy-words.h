/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What helps, in words, translated, lengths in the unit asked for. All owned. */
#pragma once

#include "core/band/remedy.h"
#include "output/report/fit-sentence.h"

/* What to do, as on a button: "Weave 116 rows (2 more)", "Make the bed 0.12 mm thinner". */
char *bw_remedy_words_do (const BwRemedy *remedy, const BwDesign *now, BwUnit unit);
/* What it gives by the measurements: "Snug on paper, 0.3 mm slack to 0.6 mm pulled". */
char *bw_remedy_words_gives (const BwRemedy *remedy, BwUnit unit);
/* The same with what is known of the odds: of the safer count, that it is that. */
char *bw_remedy_words_promise (const BwRemedy *remedy, const BwFitTold *told, BwUnit unit);
