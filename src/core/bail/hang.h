/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the finished piece hangs at rest, and whether the band stays where it is.
 *
 * G is the balance point of stone, band, bed and bail. Bead mass = glass × π/4 (D² − d_hole²) ℓ;
 * bed and band act on the axis at z_mid, the bail in its loop's plane r(sin φ/φ − cos φ) over the
 * middle of its base. The cord bears at A, under the middle of the crest: r(1 − cos φ) − D/2 over
 * the middle of the base. Thread, cord and ring weigh nothing. */
#pragma once

#include "core/bail/bail-loop.h"

typedef enum { BW_UP_TIP, BW_UP_BASE, BW_UP_LEVEL } BwUp;

typedef enum { BW_THIN_NEITHER, BW_THIN_TIP, BW_THIN_BASE } BwThinEnd;

/* Wedge of the stone under the band: α = atan(−(dg/dz)/2π) at z_mid, positive when thin towards the
 * tip; it may slip towards the thin end when |tan α| > μ. μ is a setting, no promise. */
typedef struct {
  double alpha_deg;
  BwThinEnd thin_end;
  gboolean slips;
} BwWedge;

typedef struct {
  double stone_g, band_g, bed_g, bail_g, mass_g;
  BwVec3 centroid;   /* G, of the whole piece; with no bail that of stone, bed and band */
  gboolean has_bail; /* FALSE: everything from here to level means nothing */
  BwLoop loop;
  BwBailFrame frame; /* where that loop stands */
  BwVec3 pivot;      /* A */
  double tilt_deg;   /* axis from the vertical, 0..90 */
  BwUp up;
  gboolean level;
  gboolean has_margin; /* of a flap alone; else margin_mm is 0 and means nothing */
  double margin_mm;    /* m w/2 − |z_G − z_mid| */
  /* The same rest in space. vertical: which way is up, unit, in the stone's own axes; it makes the
   * angle tilt_deg with the axis (180° less that when the base is up), and round the axis the piece
   * rolls until G is under the cord. hold: the point of the cord straight above G: A, but for a
   * flap that point of the crest's line (through A along the axis). Level, it lies between the
   * flap's edges; else at the edge the piece tips about, short of it by as little as G's offset s
   * from the bail's plane lengthens the drop: |margin| (√(1 + (s/drop)²) − 1). */
  BwVec3 vertical, hold;
  BwWedge wedge;
} BwHang;

/* The design must be valid. Fault at /bail/rows when the loop cannot arch. */
gboolean bw_hang_init (BwHang *hang, const BwDesign *design, const BwStone *stone, BwFault *fault);

typedef enum { BW_WANT_LEVEL, BW_WANT_TIP_DOWN, BW_WANT_TIP_UP } BwWant;

typedef struct {
  BwWant want;
  double bottom_mm; /* level: the band height that comes nearest; else one that comes within 5°,
                       nearest first, or the best there is */
  double tilt_deg;
  BwUp up;
  gboolean reached;
} BwHangHeight;

/* One for each want, three in all. Heights in steps of 0.5 mm from the present one with the band
 * wholly on the prism; where it is wider than the prism the present height alone. 0 written when
 * there is no bail. Returns how many were written. */
int bw_hang_suggest (BwHangHeight heights[3], const BwDesign *design, const BwStone *stone);
