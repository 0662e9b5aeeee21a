/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The half-drop lattice of even-count peyote: which bead of which row lies in which column.
 *
 * Rows count from 1 in the order woven, columns from 1 at the tail side (the lowest). Odd rows fill
 * even columns, even rows fill odd columns, columns/2 beads each. Bead j (0-based, lowest first) of
 * a row is the j-th letter of that row's string in the project file. One row is half a pitch. */
#pragma once

#include <glib.h>
#include <math.h>

/* One bead's place on a lattice. */
typedef struct {
  int row, column;
} BwBeadAt;

/* Column of bead j of a row: 2j + 2 in odd rows, 2j + 1 in even rows. */
static inline int
bw_lattice_column (int row, int j)
{
  return row % 2 ? 2 * j + 2 : 2 * j + 1;
}

/* Whether a row has a bead in this column. */
static inline gboolean
bw_lattice_has (int row, int column)
{
  return (row + column) % 2 != 0;
}

/* Which bead (0-based, lowest first) of its row a bead in this column is. */
static inline int
bw_lattice_index (int column)
{
  return (column - 1) / 2;
}

/* Position round the ring in pitches: (row − 1)/2. */
static inline double
bw_lattice_pitches (int row)
{
  return (row - 1) / 2.0;
}

/* Which way the needle runs in a row: +1 from column 1 upward (even rows), −1 downward (odd rows
 * from row 3 on). Rows 1 and 2 are picked up together, 1 → W: +1 for both. */
static inline int
bw_lattice_direction (int row)
{
  return row <= 2 || row % 2 == 0 ? 1 : -1;
}

/* A row counted on round a ring of `period` rows, in 1..period. */
static inline int
bw_lattice_wrap (int row, int period)
{
  int back = (row - 1) % period;
  return (back < 0 ? back + period : back) + 1;
}

/* Beads around for a row count: rows/2, odd counts rounded up. */
static inline int
bw_lattice_beads_around (int rows)
{
  return (rows + 1) / 2;
}

/* The whole number nearest to x that is even (parity 0) or odd (1). */
static inline int
bw_lattice_nearest (double x, int parity)
{
  return 2 * (int)lround ((x - parity) / 2) + parity;
}
