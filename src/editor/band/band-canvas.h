/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The band unrolled as worn: the stone's axis runs up, round the stone runs across; row 1 follows
 * row 2n again and again, so that it rolls round for ever. Draws with GtkSnapshot; only what shows.
 */
#pragma once

#include "editor/band/band-deeds.h"
#include "editor/cloth/unrolled.h"

#define BW_TYPE_BAND_CANVAS (bw_band_canvas_get_type ())
G_DECLARE_FINAL_TYPE (BwBandCanvas, bw_band_canvas, BW, BAND_CANVAS, BwUnrolled)

/* "status" tells what is under the pointer or the cursor. Signal "menu" (double x, double y, int
 * row, int column): the maker asks for the menu of a bead at a point of the widget; of a whole row
 * where the column is 0, of a column where the row is, of none where both are. */
GtkWidget *bw_band_canvas_new (BwSession *session);

/* How the band lies in the widget now, "view" is emitted when it is another; and the stone's faces
 * on it. Borrowed. */
const BwBandLayout *bw_band_canvas_get_layout (BwBandCanvas *self);
const BwBandFaces *bw_band_canvas_get_faces (BwBandCanvas *self);

/* 1 = life size at 96 dpi × 4; 0.25..16 of that. About a point of the widget, or its middle. */
double bw_band_canvas_get_zoom (BwBandCanvas *self);
void bw_band_canvas_set_zoom (BwBandCanvas *self, double zoom);
void bw_band_canvas_fit (BwBandCanvas *self);
/* Rolls so that this position (pitches from row 1) lies in the middle. */
void bw_band_canvas_roll_to (BwBandCanvas *self, double pitches);
/* Rolls on by so much, at once. */
void bw_band_canvas_roll_by (BwBandCanvas *self, double pitches);
/* Letters on the beads. */
void bw_band_canvas_set_letters (BwBandCanvas *self, gboolean letters);
/* The bead under a point of the widget; FALSE for none. Also the inverse: the middle of a bead's
 * nearest image to the middle of the view. */
gboolean bw_band_canvas_bead_at (BwBandCanvas *self, double x, double y, int *row, int *column);
gboolean bw_band_canvas_bead_point (BwBandCanvas *self, int row, int column, double *x, double *y);

void bw_band_canvas_do (BwBandCanvas *self, BwBandDeed deed);
/* Takes the colour of a bead in hand, or says why not; locks a column, or unlocks it. */
void bw_band_canvas_pick_up (BwBandCanvas *self, int row, int column);
void bw_band_canvas_lock (BwBandCanvas *self, int column);
/* Tells a sentence in the status line until the maker goes on. */
void bw_band_canvas_say (BwBandCanvas *self, const char *sentence);

/* Takes back what was laid down because the maker went on, while that is the last step. FALSE when
 * it is not. */
gboolean bw_band_canvas_take_up (BwBandCanvas *self);
/* Lays the colour in hand on all these beads. */
void bw_band_canvas_fill (BwBandCanvas *self, const BwRegion *region);

/* Pastes beads as bw_clip_print() writes them; anything else is refused in the status line. */
void bw_band_canvas_paste_text (BwBandCanvas *self, const char *text);
/* Whether a piece lies on top, not laid down yet. */
gboolean bw_band_canvas_has_piece (BwBandCanvas *self);
