/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bail: the beaded loop the pendant hangs by.
 *
 * The loop's centre line has length L = (rows + 1) p/2 over a base b; as a circular arc of
 * half-angle φ and radius r: L = 2rφ, b = 2r sin φ (φ may exceed 90°).
 *
 * A loop over the tip springs from the band's upper edge, goes over the stone's end and comes back
 * to the edge: b is the straight way between its feet. A limp strip under load is pulled into a
 * taller figure than the arc, so the arc is the careful one: less opening, more lean. */
#pragma once

#include "core/design/bead.h"
#include "core/design/gauge.h"

typedef enum {
  BW_BAIL_NONE,
  BW_BAIL_FLAP,
  BW_BAIL_UPRIGHT,
  BW_BAIL_RING,
  BW_BAIL_OVER, /* a loop over the tip, from the upper edge to the upper edge */
} BwBailStyle;

typedef struct {
  BwBailStyle style;
  int columns;         /* m, even, ≥ 2; flap and ring: ≤ W − 2 */
  int rows;            /* ≥ 1 */
  double base_beads;   /* in beads, a whole number of half beads, > 0; over: along the edge, more
                          than half round counts as half round */
  double at_deg;       /* azimuth */
  double cord_mm;      /* the cord it shall hang on */
  double clearance_mm; /* 2 mm is common practice, no source */
} BwBail;

typedef struct {
  double length_mm;       /* L */
  double base_mm;         /* b */
  double radius_mm;       /* r */
  double half_angle;      /* φ, radians, 0..π */
  double opening_mm;      /* d = r(1 − cos φ) − taken; may be negative: nothing passes */
  double largest_cord_mm; /* d − clearance */
  int rows_needed; /* least rows of right parity that let cord_mm through; 0 when none ≤ 20000 */
  gboolean parity_right; /* always TRUE for a strip of its own */
  int rows_below,
      rows_above; /* nearest row counts of right parity (rows itself when it is right) */
} BwLoop;

/* A strip of its own, woven apart and sewn down at both ends: upright or over the tip. The others
 * go on from the band's beads. */
gboolean bw_bail_is_strip (const BwBail *bail);

/* What a loop stands on. */
typedef struct {
  double base_mm;  /* b > 0 */
  double taken_mm; /* what beads and stone take of the height of the crest over the base */
} BwLoopSite;

/* Solves the loop over its site. Fault at /bail/rows when L ≤ b: too short to arch. A loop over the
 * tip that is too short is no fault, for the band's width is the stone's and not the bail's: it
 * lies as good as straight, and nothing passes. Not to be called with BW_BAIL_NONE. */
gboolean bw_loop_solve (BwLoop *loop, const BwBail *bail, BwLoopSite site, const BwGauge *gauge,
                        BwFault *fault);

/* The same where bead and gauge alone tell the site: base is base_beads·p for flap and ring,
 * base_beads·w for upright, and D is taken. Not to be called with BW_BAIL_OVER, whose site the
 * stone tells: bw_bail_loop_init(). */
gboolean bw_loop_init (BwLoop *loop, const BwBail *bail, const BwBead *bead, const BwGauge *gauge,
                       BwFault *fault);

/* Beads in the bail: rows·columns/2; 0 for BW_BAIL_NONE. */
int bw_bail_bead_count (const BwBail *bail);

/* Ranges, and m ≤ W − 2 for a flap, which leaves a margin on both sides (the width of a strip lies
 * round the stone): faults of the bail. */
gboolean bw_bail_validate (const BwBail *bail, int band_columns, BwFault *fault);
