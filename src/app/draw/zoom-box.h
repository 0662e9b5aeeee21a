/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How near the band is: a slider, a number one types into (times life size), a step nearer or
 * farther, and the whole band. */
#pragma once

#include "editor/band/band-canvas.h"

#define BW_TYPE_ZOOM_BOX (bw_zoom_box_get_type ())
G_DECLARE_FINAL_TYPE (BwZoomBox, bw_zoom_box, BW, ZOOM_BOX, GtkWidget)

/* Follows a canvas and moves it; once. */
void bw_zoom_box_bind (BwZoomBox *self, BwBandCanvas *canvas);
