/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A whole band in little: each bead a dab of its colour, as the strip lies from row 1 on. */
#pragma once

#include "project/project.h"
#include <gtk/gtk.h>

#define BW_TYPE_BAND_THUMB (bw_band_thumb_get_type ())
G_DECLARE_FINAL_TYPE (BwBandThumb, bw_band_thumb, BW, BAND_THUMB, GtkWidget)

/* NULL shows nothing. Both are copied. */
void bw_band_thumb_set (BwBandThumb *self, const BwDrawing *drawing, const BwTray *tray);
/* What it shows; borrowed. */
const BwDrawing *bw_band_thumb_get (BwBandThumb *self);
