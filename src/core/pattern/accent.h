/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The marks above a letter: grave, acute, circumflex, tilde, diaeresis and caron, for both
 * alphabets. */
#pragma once

#include "core/pattern/alphabet.h"
#include "core/pattern/letter-cuts.h"

/* How far an accent reaches above a letter, in units of the stroke alphabet's box, its gap
 * included. */
#define BW_ACCENT_UNITS 2.0

typedef struct {
  gunichar letter; /* what stands under it */
  gunichar mark;   /* 0: none */
} BwAccented;

/* Takes a letter and its accent apart; a letter without one is itself. What has other marks than
 * these stays whole, so that no alphabet knows it. */
BwAccented bw_accent_apart (gunichar character);

/* Columns that a mark takes above a letter drawn bead for bead, the one left free included; 0:
 * none. */
int bw_accent_columns (gunichar mark);

/* Writes the mark's beads over a letter that is `width` half pitches wide and `height` columns high
 * (odd), returns how many. beads has room for 5. */
int bw_accent_beads (gunichar mark, int width, int height, BwLetterBead *beads);

/* The same in strokes over the box, at most max of them, over a letter `width` units wide. */
int bw_accent_strokes (gunichar mark, double width, BwStroke *strokes, int max);
