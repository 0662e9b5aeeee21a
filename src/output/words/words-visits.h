/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stretches of the needle's path in words. */
#pragma once

#include "output/words/row-names.h"

/* Beads visited one after the other in one part and pass, with one length of thread. */
typedef struct {
  const BwVisit *visit;
  guint n;
} BwStretch;

/* The stretch that begins at visit i, 0 ≤ i < visits->len. */
BwStretch bw_stretch_at (const GArray *visits, guint i);

/* The beads of a stretch that are passed again, not picked up, in order. Two rows in turn read as
 * two lists: "band row 1, columns 14, 12 … 2, and band row L (114), columns 13, 11 … 1, one of each
 * in turn"; what is no such zigzag is a numbered chain. Owned. */
char *bw_stretch_words (const BwRowNames *names, BwStretch stretch);

/* Whether bw_stretch_words() numbers every single bead of it. */
gboolean bw_stretch_is_chain (BwStretch stretch);

/* How many beads of it are picked up. */
int bw_stretch_count_new (BwStretch stretch);

/* How often the needle turns round within a stretch that begins where `from` was left; NULL: where
 * its first bead lies. */
int bw_stretch_turns (BwStretch stretch, const BwVisit *from);
