/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What lies beside the band: the tray, motifs, a picture. Property "folded": only the tray is seen,
 * as a column of swatches. */
#pragma once

#include "app/draw/picture-panel.h"

#define BW_TYPE_SIDE_PANEL (bw_side_panel_get_type ())
G_DECLARE_FINAL_TYPE (BwSidePanel, bw_side_panel, BW, SIDE_PANEL, GtkWidget)

/* "tray", "motif" or "picture". */
void bw_side_panel_show (BwSidePanel *self, const char *name);
/* The page after the one shown, before it (-1), or this one (0), round and round; its first control
 * has the keyboard then. */
void bw_side_panel_turn (BwSidePanel *self, int by);
/* Another motif of the maker's own has been kept: it is shown among them. */
void bw_side_panel_look_at_own (BwSidePanel *self);
/* The canvas with the picture's outline over it; pictures can be dropped on it. Takes the canvas as
 * its child; floating. */
GtkWidget *bw_side_panel_frame_canvas (BwSidePanel *self, GtkWidget *canvas, BwSession *session);
