/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The keyboard's bead: where it is, where a tool led by it is on the endless band, and the box that
 * Shift and the arrows pull from an anchor. Plain values, no widget. */
#pragma once

#include "editor/cloth/band-layout.h"
#include "editor/tool/shape.h"

typedef struct {
  BwBeadAt at;        /* always on the band */
  gboolean shown;     /* the keyboard was used last */
  double u;           /* where the keys have led it, through the repeats */
  gboolean extending; /* Shift and the arrows are selecting, */
  BwBeadAt anchor;    /* from this long row and column */
} BwBandCursor;

/* Back to the first bead when the band no longer has it. */
void bw_band_cursor_keep_on (BwBandCursor *cursor, const BwBandLayout *layout);

/* The image of its bead nearest to a place of the endless band. */
BwBandPoint bw_band_cursor_point (const BwBandCursor *cursor, const BwBandLayout *layout,
                                  double near);
/* The same nearest to where it has been led, which this goes on from. */
BwBandPoint bw_band_cursor_lead (BwBandCursor *cursor, const BwBandLayout *layout);

/* Sets the anchor here unless a box is being pulled already. */
void bw_band_cursor_anchor (BwBandCursor *cursor, const BwBandLayout *layout);
BwShapeBox bw_band_cursor_box (const BwBandCursor *cursor, const BwBandLayout *layout);
