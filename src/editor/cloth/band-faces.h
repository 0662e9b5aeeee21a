/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What lies under the unrolled band: the stone's faces, their middles and edges along every column,
 * how far it reaches beyond the band, and the place of the bail. */
#pragma once

#include "core/bail/bail-place.h"
#include "core/band/places.h"

/* One face along one column, u: left < middle < right. Not reduced to one turn: from column to
 * column the places of a face lie together. */
typedef struct {
  double left, middle, right;
} BwBandFace;

typedef struct {
  int faces, columns;
  int around;       /* n: the period of all places, pitches */
  BwBandFace *face; /* columns × faces; face f along column c at [(c − 1) faces + f] */
  gboolean has_bail;
  double bail_left, bail_right; /* u; through the join beyond 0 .. around */
  double bail_bottom, bail_top; /* v */
  /* The stone along its axis, v: where it begins, where its prism begins (the same with a flat
   * base), where its point begins, and its tip. */
  double foot, heel, shoulder, tip;
} BwBandFaces;

/* The design must be valid. Bands of fewer than three beads around have
 * no faces to speak of: faces is 0 then. */
void bw_band_faces_init (BwBandFaces *faces, const BwDesign *design, const BwStone *stone,
                         const BwBailBase *base);
void bw_band_faces_clear (BwBandFaces *faces);

const BwBandFace *bw_band_faces_get (const BwBandFaces *faces, int column, int face);

/* The next face middle after u (dir 1) or before it (dir −1) along a column, at least a hair away.
 */
double bw_band_faces_next (const BwBandFaces *faces, int column, double u, int dir);
