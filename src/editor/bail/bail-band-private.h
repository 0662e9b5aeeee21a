/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of the bail's band share among themselves. */
#pragma once

#include "editor/bail/bail-band.h"
#include "editor/cloth/band-faces.h"
#include "editor/cloth/band-style.h"
#include "editor/cloth/band-tiles.h"

#define BAIL_REACH_PX 7.0 /* an edge can be taken so far from it */

struct _BwBailBand {
  GtkWidget parent;

  BwSession *session;
  BwProject *project; /* the session's, with our handler on it */

  BwBandLayout layout;
  gboolean placed; /* rolled to the bail once the view had a size */
  BwBandFaces faces;
  BwDesign faces_of; /* the design the faces were taken from, but for its bail */
  gboolean faces_hold;
  BwBandTiles *tiles;
  BwBandStyle style;
  PangoLayout *text;
  char *words; /* the status told last */

  BwBailGrip over; /* under the pointer */
  /* One pull: its step of undo is open. */
  BwBailGrip held;
  BwDesign from;
  BwBandPoint took; /* where it was taken */
  double drag_x, drag_y;
  guint push; /* tick callback while it is held beyond the view, 0 otherwise */
  double push_x, push_y;
  gint64 push_last;
  /* Rolling by hand. */
  gboolean rolling;
  double rolled_px;

  gboolean stepping; /* a run of keys has its step of undo open */
  BwBailKnob knob;   /* which they turn */
  guint rest;        /* ends the run, 0 when none is open */
};

/* bail-band.c */
const BwBandFaces *bw_bail_band_faces (BwBailBand *self);
/* Rolls so that the bail is in the middle of the view, or as little as shows it whole. */
void bw_bail_band_centre (BwBailBand *self);
void bw_bail_band_reveal (BwBailBand *self);
/* Tells where the bail is; note, when not NULL, instead. */
void bw_bail_band_tell (BwBailBand *self, const char *note);
/* Sets the design inside the open step; what it cannot be is told. */
void bw_bail_band_put (BwBailBand *self, const BwDesign *design);

/* bail-band-draw.c */
void bw_bail_band_draw (BwBailBand *self, GtkSnapshot *snapshot);

/* bail-band-input.c */
void bw_bail_band_add_controllers (BwBailBand *self);
void bw_bail_band_revert (BwBailBand *self);
void bw_bail_band_stop_push (BwBailBand *self);
const char *bw_bail_band_tip (BwBailBand *self, double x, double y); /* NULL for none */

/* bail-words.c: "Bail from row 118 to row 4, columns 5 to 10, face 4"; owned. */
char *bw_bail_place_words (BwProject *project);
