/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The colours of a tray as beads strung on a thread. */
#pragma once

#include "project/document/tray.h"
#include <gtk/gtk.h>

/* From where the widget's script begins; as large as the height has room for and the width for all
 * of them. */
void bw_tray_strand_paint (GtkWidget *widget, cairo_t *cr, const BwTray *tray, int width,
                           int height);
