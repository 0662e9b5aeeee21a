/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stretches of the needle's path in words. */
#pragma once

#include "core/path/path.h"

/* Beads visited one after the other in one part and pass, with one length of thread. */
typedef struct {
  const BwVisit *visit;
  guint n;
} BwStretch;

/* The stretch that begins at visit i, 0 ≤ i < visits->len. */
BwStretch bw_stretch_at (const GArray *visits, guint i);

/* The beads of a stretch that are passed again, not picked up, in order: "band row 1 (columns 14,
 * 12 … 2) and band row 114 (columns 13, 11 … 1) in turn". Owned. */
char *bw_stretch_words (BwStretch stretch);

/* How many beads of it are picked up. */
int bw_stretch_count_new (BwStretch stretch);
