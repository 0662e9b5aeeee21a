/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ends of the thread in words: where a length gives way to the next, and how an end is woven
 * in, with as many beads and turns as the path has there. All owned, translated. */
#pragma once

#include "output/words/words-visits.h"
#include "project/document/length.h"

/* That length number `length` (from 1 on) of the path is to be taken. */
char *bw_words_change (BwProject *project, int length, BwUnit unit);

/* "through 16 beads, turning 3 times": how a stretch goes that begins where `from` was left. */
char *bw_words_way (BwStretch stretch, const BwVisit *from);

/* The end in the needle when all is sewn, and the tail of the beginning. `from`: the bead each was
 * left at. FALSE when the path ends without. */
gboolean bw_words_last_ends (const BwPath *path, BwStretch end[2], BwVisit from[2]);
