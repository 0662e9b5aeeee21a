/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Marks that follow the stone from column to column: as few rectangles as do. */
#pragma once

#include "editor/cloth/band-paint.h"

/* A mark between two places that vary from column to column. */
typedef struct {
  const double *left, *right; /* of column 1; u; one of each a column, `stride` apart */
  int stride;
  double shift; /* pitches: which image of the band */
  double extra; /* pitches beyond the places on both sides */
} BwBandStrip;

/* left and right: members of the face's entry in column 1. */
BwBandStrip bw_band_strip (const BwBandPaint *paint, const double *left, const double *right,
                           int image);

typedef void (*BwBandStripPiece) (const BwBandPaint *paint, const graphene_rect_t *rect,
                                  gpointer data);

/* One rectangle for each run of columns in view in which neither place moves by a pixel. */
void bw_band_each_run (const BwBandPaint *paint, const BwBandStrip *strip, BwBandStripPiece piece,
                       gpointer data);

/* A gradient from the rectangle's left to its right. */
void bw_band_paint_across (const BwBandPaint *paint, const graphene_rect_t *rect,
                           const GskColorStop *stops, gsize n_stops);
