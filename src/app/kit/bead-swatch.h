/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A colour of the tray as the bead it is, with its finish; its letter on it when asked. */
#pragma once

#include "project/document/tray.h"
#include <gtk/gtk.h>

#define BW_TYPE_BEAD_SWATCH (bw_bead_swatch_get_type ())
G_DECLARE_FINAL_TYPE (BwBeadSwatch, bw_bead_swatch, BW, BEAD_SWATCH, GtkWidget)

GtkWidget *bw_bead_swatch_new (void);
/* The colour is copied. */
void bw_bead_swatch_set_colour (BwBeadSwatch *self, const BwColour *colour);

/* The picture of such a bead, side pixels of the widget wide and high at this scale factor. Owned.
 */
cairo_surface_t *bw_bead_surface (const BwColour *colour, double side, int scale);
