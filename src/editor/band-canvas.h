/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The band unrolled as worn: the stone's axis runs up, round the stone runs across; row 1 follows
 * row 2n again and again, so that it rolls round for ever. Draws with GtkSnapshot; only what shows.
 */
#pragma once

#include "project/session.h"
#include <gtk/gtk.h>

#define BW_TYPE_BAND_CANVAS (bw_band_canvas_get_type ())
G_DECLARE_FINAL_TYPE (BwBandCanvas, bw_band_canvas, BW, BAND_CANVAS, GtkWidget)

/* Signals: "status" (const char *words): what is under the pointer or the cursor, for a status
 * label. */
GtkWidget *bw_band_canvas_new (BwSession *session);

/* 1 = life size at 96 dpi × 4; 0.25..16 of that. About a point of the widget, or its middle. */
double bw_band_canvas_get_zoom (BwBandCanvas *self);
void bw_band_canvas_set_zoom (BwBandCanvas *self, double zoom);
void bw_band_canvas_fit (BwBandCanvas *self);
/* Rolls so that this position (pitches from row 1) lies in the middle. */
void bw_band_canvas_roll_to (BwBandCanvas *self, double pitches);
/* Letters on the beads. */
void bw_band_canvas_set_letters (BwBandCanvas *self, gboolean letters);
/* The bead under a point of the widget; FALSE for none. Also the inverse: the middle of a bead's
 * nearest image to the middle of the view. */
gboolean bw_band_canvas_bead_at (BwBandCanvas *self, double x, double y, int *row, int *column);
gboolean bw_band_canvas_bead_point (BwBandCanvas *self, int row, int column, double *x, double *y);
