/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A short list of colours chosen from the tray, each a bead and its name; more and fewer of them by
 * two buttons. Signal "changed" (): the maker has chosen. */
#pragma once

#include "core/pattern/motif.h"
#include "project/document/tray.h"
#include <gtk/gtk.h>

#define BW_TYPE_COLOUR_ROWS (bw_colour_rows_get_type ())
G_DECLARE_FINAL_TYPE (BwColourRows, bw_colour_rows, BW, COLOUR_ROWS, GtkWidget)

/* Shows n colours (1..BW_MOTIF_COLOURS) of the tray; the maker may have least..most of them. One
 * more is a colour that is not among them, and `spared` (-1: none) only where no other is left. */
void bw_colour_rows_show (BwColourRows *self, const BwTray *tray, const guint8 *colours, int n,
                          int least, int most, int spared);
/* What is chosen; returns how many. */
int bw_colour_rows_get (BwColourRows *self, guint8 colours[BW_MOTIF_COLOURS]);
