/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One colour in the tray: the bead and its name; how many beads have it is told beside the pointer.
 */
#pragma once

#include "project/document/tray.h"
#include <gtk/gtk.h>

#define BW_TYPE_TRAY_ROW (bw_tray_row_get_type ())
G_DECLARE_FINAL_TYPE (BwTrayRow, bw_tray_row, BW, TRAY_ROW, GtkListBoxRow)

GtkWidget *bw_tray_row_new (void);
void bw_tray_row_show (BwTrayRow *self, const BwColour *colour, guint64 count);

/* The colour's name, or its finish and letter when it has none. Owned. */
char *bw_colour_words (const BwColour *colour);
/* The finish as a translated word. Borrowed. */
const char *bw_finish_words (BwFinish finish);
/* Folded, its bead alone is seen. */
void bw_tray_row_set_folded (BwTrayRow *self, gboolean folded);
