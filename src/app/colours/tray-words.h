/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is doubtful about the colours of a tray: pairs that can hardly be told apart, by everybody
 * or by those who see fewer colours. */
#pragma once

#include "core/pattern/colour.h"
#include "project/document/tray.h"

typedef struct {
  int a, b; /* places in the tray, a < b */
  guint
      sights; /* bit 1 << BwSight for each sight by which they look alike; all when the first is */
} BwAlike;

/* Of BwAlike, those alike to everybody first; never NULL. Looks the same when the CIEDE2000
 * difference is below BW_COLOUR_HARDLY. A finish of another kind tells two beads apart for
 * everybody, so only colours of one finish are compared. Owned. */
GArray *bw_tray_alike (const BwTray *tray);

/* As sentences, at most `most` and one that counts the rest; NULL when there is nothing to say.
 * Owned. */
char *bw_tray_words_alike (const BwTray *tray, int most);
