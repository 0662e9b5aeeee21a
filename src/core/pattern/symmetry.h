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

#include "core/base/lattice.h"
#include "core/pattern/drawing.h"

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

typedef enum {
  BW_FRIEZE_FITS,
  BW_FRIEZE_NEVER,      /* the lattice itself forbids it (W even) */
  BW_FRIEZE_ODD_REPEAT, /* needs a repeat with an odd number of beads a column */
  BW_FRIEZE_OPEN, /* the repeat is odd or does not divide the row count: it breaks at the join */
} BwFriezeFit;

/* A live symmetry. Plain data. */
typedef struct {
  BwFrieze frieze;
  int repeat_rows; /* k, even, ≥ 2; 0: once round the ring */
  int centre;      /* a (half pitches, 0..R−1) near which the mirror or turn centre lies */
} BwSymmetry;

/* Whether this symmetry can be had on a ring of `rows` rows. With BW_FRIEZE_OPEN strokes still
 * repeat from row 1 to the last row, unless the repeat is odd. */
BwFriezeFit bw_symmetry_fit (const BwSymmetry *symmetry, int rows);

typedef void (*BwBeadVisit) (int row, int column, gpointer data);

/* Visits every bead that (row, column) is carried to, itself first; a bead on an axis may be
 * visited more than once. Repeats that do not divide the row count, and odd row counts, run from
 * row 1 as far as there are rows and break at the join; otherwise everything runs on round the
 * ring. Beads visited from one another have the same beads to visit. */
void bw_symmetry_each (const BwSymmetry *symmetry, int columns, int rows, int row, int column,
                       BwBeadVisit visit, gpointer data);

/* The same, each bead once. Returns a GArray of BwBeadAt, owned. */
GArray *bw_symmetry_orbit (const BwSymmetry *symmetry, int columns, int rows, int row, int column);

/* Whether a drawing has the symmetry already. */
gboolean bw_symmetry_holds (const BwSymmetry *symmetry, const BwDrawing *drawing);
