/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What can be done with a selection. What cannot be done is said in the status line. */
#pragma once

#include "editor/band/band-work.h"

typedef enum {
  BW_BAND_COPY,
  BW_BAND_CUT,
  BW_BAND_PASTE,
  BW_BAND_ERASE, /* with nothing selected: the keyboard's bead */
  BW_BAND_SELECT_ALL,
  BW_BAND_SELECT_NONE,
  BW_BAND_LIFT, /* to be walked or dragged about until it is laid down */
  BW_BAND_LIFT_COPY,
  BW_BAND_FLIP_ROUND,
  BW_BAND_FLIP_UP,
  BW_BAND_TURN,
  BW_BAND_LOCK, /* or unlock: the keyboard's column, else the one pointed at */
} BwBandDeed;

/* Locks a column, or unlocks it, and says so. */
void bw_band_deeds_lock (BwBandWork *work, int column);

/* Lays the colour in hand on all these beads, locked columns spared. */
void bw_band_deeds_fill (BwBandWork *work, const BwRegion *region);

void bw_band_deeds_do (BwBandWork *work, BwBandDeed deed);

/* Pastes beads as bw_clip_print() writes them. */
void bw_band_deeds_paste_text (BwBandWork *work, const char *text);
