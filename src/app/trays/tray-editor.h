/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The colours of a tray, a line each, to be changed one by one; of no project.
 *
 * Signal "changed" (): the tray is another. */
#pragma once

#include "project/document/tray.h"
#include <gtk/gtk.h>

#define BW_TYPE_TRAY_EDITOR (bw_tray_editor_get_type ())
G_DECLARE_FINAL_TYPE (BwTrayEditor, bw_tray_editor, BW, TRAY_EDITOR, GtkWidget)

/* No signal. A tray without colours is shown as that. */
void bw_tray_editor_set (BwTrayEditor *self, const BwTray *tray);
const BwTray *bw_tray_editor_get (BwTrayEditor *self); /* borrowed */
