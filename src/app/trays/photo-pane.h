/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A photograph of beads, what of it is ground, and how many colours are wanted of the rest. It is
 * read and looked through on a thread.
 *
 * Signal "found" (): the colours are others. */
#pragma once

#include "core/pattern/photo-tray.h"
#include "project/document/tray.h"
#include <gtk/gtk.h>

#define BW_TYPE_PHOTO_PANE (bw_photo_pane_get_type ())
G_DECLARE_FINAL_TYPE (BwPhotoPane, bw_photo_pane, BW, PHOTO_PANE, GtkWidget)

void bw_photo_pane_open (BwPhotoPane *self, GFile *file);
/* The colours found last, each an opaque bead under the next letter; none before there are. */
void bw_photo_pane_get_tray (BwPhotoPane *self, BwTray *tray);
