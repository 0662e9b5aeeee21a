/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two alphabets drawn bead for bead, our own: capitals, ẞ, numerals and a few signs, five and seven
 * columns high. */
#pragma once

#include <glib.h>

#define BW_CUT_SMALL 5
#define BW_CUT_TALL 7
#define BW_CUT_BEADS 32 /* no letter has as many */

/* A bead of a letter: the half pitch at which it begins, and its column, from 0 at the left and the
 * foot. x + y is even. */
typedef struct {
  int x, y;
} BwLetterBead;

/* Writes the beads of a letter of this cut (lower case counts as upper case) and returns how many;
 * −1 when the alphabet lacks it. beads has room for BW_CUT_BEADS. */
int bw_letter_cut (gunichar letter, int height, BwLetterBead *beads);
