/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A piece of weaving as it lies in a widget: what is shown, how near and where, in which colours
 * and letters. Plain values that the parts of such a widget share; the widget alone owns them. */
#pragma once

#include "editor/cloth/band-paint.h"

typedef struct {
  GtkWidget *widget; /* that shows it; not owned */
  BwSession *session;
  BwProject *project; /* the session's */

  BwBandLayout layout;
  BwBandStyle style;
  PangoLayout *text;
  BwBandTiles *tiles;

  BwBandFaces faces;
  gboolean faces_hold;
} BwBandView;

void bw_band_view_init (BwBandView *view, GtkWidget *widget);
void bw_band_view_clear (BwBandView *view);

/* Colours and letters as the widget's theme has them now. */
void bw_band_view_take_style (BwBandView *view);

/* Lattice and gauge of the project's band; TRUE when any of it is another. */
gboolean bw_band_view_take_band (BwBandView *view);

/* The widget but for the rulers is the view's. */
void bw_band_view_place_in_rulers (BwBandView *view);

/* Solved when they are asked for; after spoil_faces() anew. Borrowed. */
const BwBandFaces *bw_band_view_faces (BwBandView *view);
void bw_band_view_spoil_faces (BwBandView *view);

/* Whether a point of the widget lies in the view, and the bead of the band under it. */
gboolean bw_band_view_has (const BwBandView *view, double x, double y);
gboolean bw_band_view_bead (const BwBandView *view, double x, double y, BwBeadAt *bead);

/* One frame of it; the faces are asked for. FALSE where the view has no size. */
gboolean bw_band_view_paint (BwBandView *view, GtkSnapshot *snapshot, BwBandPaint *paint);
