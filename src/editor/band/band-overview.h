/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One whole turn of the band, small, beneath the canvas: which part of it is in view, and a way to
 * any other part by a press, a drag, the wheel or the arrow keys. */
#pragma once

#include "editor/band/band-canvas.h"

#define BW_TYPE_BAND_OVERVIEW (bw_band_overview_get_type ())
G_DECLARE_FINAL_TYPE (BwBandOverview, bw_band_overview, BW, BAND_OVERVIEW, BwUnrolled)

/* Both must show the same session. Keeps a reference to the canvas. */
GtkWidget *bw_band_overview_new (BwBandCanvas *canvas, BwSession *session);

/* The place on the band, in pitches from the middle of row 1, at x of the widget; and back, for
 * places reduced to −0.5 .. n − 0.5. */
double bw_band_overview_place (BwBandOverview *self, double x);
double bw_band_overview_x (BwBandOverview *self, double pitches);

/* How many pixels were mixed of beads so far: what a test counts. */
guint64 bw_band_overview_mixed (BwBandOverview *self);
