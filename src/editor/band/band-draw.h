/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One frame of the canvas. */
#pragma once

#include "editor/cloth/band-view.h"

/* What lies over the beads besides the marks of the band itself. */
typedef struct {
  BwBandView *view;
  gboolean letters;
  const BwBeadAt *hover, *cursor; /* NULL for none */
  int drop;                       /* the colour a press would lay on hover, −1 for none */
  int drop_row;                   /* the long row it would be laid in */
} BwBandShown;

void bw_band_draw (const BwBandShown *shown, GtkSnapshot *snapshot);
