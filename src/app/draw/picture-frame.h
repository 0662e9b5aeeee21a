/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The outline of the picture over the canvas, to take hold of: inside it moves, a corner makes it
 * larger or smaller, the knob above turns it; the wheel does the one and with Shift the other.
 * Everywhere else the canvas is what the pointer meets. The same can be typed in the panel. */
#pragma once

#include "app/draw/picture-panel.h"
#include "editor/band/band-canvas.h"

#define BW_TYPE_PICTURE_FRAME (bw_picture_frame_get_type ())
G_DECLARE_FINAL_TYPE (BwPictureFrame, bw_picture_frame, BW, PICTURE_FRAME, GtkWidget)

/* To lie over the canvas, of the same size. Keeps references to both. */
GtkWidget *bw_picture_frame_new (BwBandCanvas *canvas, BwPicturePanel *panel);
