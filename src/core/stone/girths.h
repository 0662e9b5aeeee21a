/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether the two girths that a stone is measured by agree: the one that its flats, its faces or a
 * strip of paper tell at one height, and the second one, which tells the taper.
 *
 * What lies between them is taper and error. A tape errs by girth_sd_mm, callipers on the stone by
 * half of that; three times both together is all that errors explain. A prism tapers, but not by
 * more than BW_TAPER_STEEP of its girth over the length of its stone. */
#pragma once

#include "core/stone/stone.h"

/* As steep as crystals are that hardly have a prism (common practice, no source). */
#define BW_TAPER_STEEP 0.4
#define BW_GIRTH_ERRORS 3

typedef struct {
  double first_mm, second_mm; /* both girths */
  double rise_mm;             /* from the first to the second, < 0: downwards */
  double most_mm;             /* by so much they may differ */
} BwGirths;

/* FALSE: there is one girth alone, and nothing to compare. Else whether they disagree. */
gboolean bw_girths_disagree (BwGirths *girths, const BwStone *stone,
                             const BwStoneMeasures *measures);
