/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a joint remedy changes besides what its kind names, in words. */
#pragma once

#include "core/band/remedy.h"
#include "project/document/length.h"

/* "Move the band up to 12 mm; with it 2 layers of cord, 116 rows": what is passed in, and after it
 * what else differs from the design as it is. Takes what; owned. */
char *bw_remedy_with_also (char *what, const BwRemedy *remedy, const BwDesign *now, BwUnit unit);
