/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Trays to start from, invented for the Tidewrack workshop's weather. */
#pragma once

#include "project/document/tray.h"

int bw_tray_starts_count (void);
/* Translated, borrowed. */
const char *bw_tray_start_name (int start);

/* Lays another tray, or a starting one, out in place of the present one: bead by bead the first
 * colour takes the place of the first, and so on. Colours beyond it that have beads (counts[i] > 0)
 * stay, at the end of the tray, and map tells where each colour of the old tray is in the new one.
 * other: 1 to BW_TRAY_MAX colours. */
void bw_tray_lay (BwTray *tray, const BwTray *other, const guint64 counts[256], guint8 map[256]);
void bw_tray_start_lay (BwTray *tray, int start, const guint64 counts[256], guint8 map[256]);
