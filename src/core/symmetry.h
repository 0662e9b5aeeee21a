/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The symmetries a closed half-drop band can have, and the beads a bead is carried to.
 *
 * Along the ring a bead's place is a = row − 1, in half pitches, taken modulo R = rows (even);
 * across it is the column c, 1..W, W even. The lattice has beads where row + column is odd. What
 * keeps it: repeat   a → a + k            k even mirror   a → s − a            s even: the line
 * passes through bead centres turn     a → s − a, c → W+1−c s odd: centres lie on the midline, a
 * quarter pitch off a bead glide    a → a + g, c → W+1−c g odd, so the repeat 2g holds an odd
 * number of beads a column Mirrors along the band would carry a column of beads onto gaps: with W
 * even they are impossible, and so of the seven strip groups (International Tables for
 * Crystallography, vol. E, 2nd ed. 2010, frieze groups) only p1, p2, p1m1, p11g and p2mg occur. */
#pragma once

#include "drawing.h"

typedef enum {
  BW_FRIEZE_P1,   /* repeat alone, or nothing */
  BW_FRIEZE_P1M1, /* mirror across the band */
  BW_FRIEZE_P2,   /* half-turn */
  BW_FRIEZE_P11G, /* glide */
  BW_FRIEZE_P2MG, /* mirror, glide and half-turn */
  BW_FRIEZE_P11M, /* mirror along the band: impossible here */
  BW_FRIEZE_P2MM, /* both mirrors: impossible here */
  BW_N_FRIEZES,
} BwFrieze;

/* "p1", "p1m1", … as the International Tables write them. */
const char *bw_frieze_word (BwFrieze frieze);

typedef enum {
  BW_FRIEZE_FITS,
  BW_FRIEZE_NEVER,      /* the lattice itself forbids it (W even) */
  BW_FRIEZE_ODD_REPEAT, /* needs a repeat with an odd number of beads a column */
  BW_FRIEZE_OPEN,       /* the repeat does not divide the row count: breaks at the join */
} BwFriezeFit;

/* A live symmetry. Plain data. */
typedef struct {
  BwFrieze frieze;
  int repeat_rows; /* k, even, ≥ 2; 0: once round the ring */
  int centre;      /* a (half pitches, 0..R−1) near which the mirror or turn centre lies */
} BwSymmetry;

/* Whether this symmetry can be had on a ring of `rows` rows. With BW_FRIEZE_OPEN strokes still
 * repeat as far as whole repeats reach. */
BwFriezeFit bw_symmetry_fit (const BwSymmetry *symmetry, int rows);

typedef struct {
  int row, column;
} BwBeadPlace;

/* Every bead that (row, column) is carried to, itself first, each once. Returns a GArray of
 * BwBeadPlace, owned. Linear in its own length. Odd row counts take part as an open strip. */
GArray *bw_symmetry_orbit (const BwSymmetry *symmetry, int columns, int rows, int row, int column);

/* Whether a drawing has the symmetry already. */
gboolean bw_symmetry_holds (const BwSymmetry *symmetry, const BwDrawing *drawing);
