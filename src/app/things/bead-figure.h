/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bead drawn to scale: from the side, its hole upright, and beside that from its end. */
#pragma once

#include "core/design/bead.h"
#include "project/document/tray.h"
#include <gtk/gtk.h>

/* In the middle of width × height, never larger than fits; beads of everyday sizes are drawn on one
 * scale, so that they can be compared. */
void bw_bead_figure_draw (GtkWidget *widget, cairo_t *cr, const BwBead *bead, BwFinish finish,
                          int width, int height);
