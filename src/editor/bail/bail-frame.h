/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the band lies while its bail is worked on: the whole turn if there is room, rolled so that
 * the bail is in sight. */
#pragma once

#include "editor/bail/bail-grip.h"
#include "editor/cloth/band-view.h"

#define BW_BAIL_REACH_PX 7.0 /* an edge can be taken so far from it */

/* The bail's outline in the image nearest to the middle of the view; FALSE without a bail. */
gboolean bw_bail_frame_box (const BwBandView *view, BwBailBox *box);

/* Rolls so that the bail is in the middle of the view, or as little as shows it whole. */
void bw_bail_frame_centre (BwBandView *view);
void bw_bail_frame_reveal (BwBandView *view);

/* As high as the band is when its whole turn fills the width; pixels. */
int bw_bail_frame_height (const BwBandView *view, int width);
