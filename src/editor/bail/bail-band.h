/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The unrolled band with the bail outlined on it, to be taken hold of: dragged round the stone,
 * made wider or narrower at its edges, stepped by keys. Everything is live; one pull, or one run of
 * keys, is one step of undo. The band itself cannot be drawn on here. */
#pragma once

#include "editor/bail/bail-grip.h"
#include "editor/cloth/unrolled.h"

#define BW_TYPE_BAIL_BAND (bw_bail_band_get_type ())
G_DECLARE_FINAL_TYPE (BwBailBand, bw_bail_band, BW, BAIL_BAND, BwUnrolled)

/* "status" tells where the bail is. */
GtkWidget *bw_bail_band_new (BwSession *session);

/* What the status says now; owned by the caller. */
char *bw_bail_band_dup_words (BwBailBand *self);

/* How the band lies in the widget now; borrowed. */
const BwBandLayout *bw_bail_band_get_layout (BwBailBand *self);

/* Where to take a grip: the middle of the bail or of an edge, in the image nearest to the middle of
 * the view. FALSE without a bail. */
gboolean bw_bail_band_grip_point (BwBailBand *self, BwBailGrip grip, double *x, double *y);

/* Ends what is under way as letting go would. */
void bw_bail_band_settle (BwBailBand *self);
