/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One bead, reckoned as a tube: its size, its mass, and the table of sizes a maker finds in a
 * drawer. */
#pragma once

#include "core/base/fault.h"
#include "core/base/limits.h"
#include <glib.h>

typedef struct {
  char name[BW_NAME_BYTES]; /* UTF-8, NUL-terminated, e.g. "11/0 cylinder"; may be "" */
  double diameter_mm;       /* D, outside, > hole */
  double length_mm;         /* ℓ, along the hole, > 0 */
  double hole_mm;           /* d_hole, > 0 */
  double glass_g_cm3;       /* density of the glass; soda-lime 2.5 */
} BwBead;

/* Whether both are of one size, whatever they are called: diameter, length and hole. */
gboolean bw_bead_same_size (const BwBead *a, const BwBead *b);

/* Mass of one bead in grams: density × π/4 (D² − d_hole²) ℓ. */
double bw_bead_mass_g (const BwBead *bead);

/* The built-in table: cylinder beads 15/0, 11/0, 10/0, 8/0, then round seed beads 15/0, 11/0, 8/0,
 * 6/0 (common practice, no source, from memory; the user's own file extends it). Borrowed, *n_sizes
 * entries. */
const BwBead *bw_bead_sizes (int *n_sizes);

/* Sets name, cut at a character boundary when it does not fit. */
void bw_bead_set_name (BwBead *bead, const char *name);

/* Ranges: faults of the bead. */
gboolean bw_bead_validate (const BwBead *bead, BwFault *fault);
