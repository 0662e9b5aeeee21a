/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of the bail's strip share among themselves. */
#pragma once

#include "editor/bail/bail-strip.h"
#include "editor/cloth/band-style.h"
#include "editor/cloth/band-tiles.h"

struct _BwBailStrip {
  GtkWidget parent;

  BwSession *session;
  BwProject *project; /* the session's, with our handler on it */
  BwDrawing *cloth;   /* bail and lead; NULL without a bail, or when it must be made anew */
  int lead;
  BwBandLayout layout; /* of the cloth */
  BwBandTiles *tiles;
  BwBandStyle style;
  PangoLayout *text;
  char *words;

  BwBeadAt cursor; /* the keyboard's bead, row of the bail */
  gboolean cursor_shown;
  gboolean drawing; /* a stroke's step of undo is open */
  BwBandPoint last;
  double drag_x, drag_y;
};

/* bail-strip.c: the bail's drawing, NULL without a bail; borrowed. */
const BwDrawing *bw_bail_strip_drawing (BwBailStrip *self);
void bw_bail_strip_set_cursor (BwBailStrip *self, BwBeadAt bead, gboolean shown);
void bw_bail_strip_tell (BwBailStrip *self);

/* bail-strip-input.c */
void bw_bail_strip_add_controllers (BwBailStrip *self);
/* Ends the stroke under way, if any; keeps it or takes it back. */
void bw_bail_strip_end (BwBailStrip *self, gboolean keep);
