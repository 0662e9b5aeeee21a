/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The slim handle at the inner edge of one side of the window: a press folds that side away or
 * brings it back. Down while the side is folded; its action (or whoever listens to "toggled") does
 * the folding. */
#pragma once

#include <gtk/gtk.h>

#define BW_TYPE_FOLD_HANDLE (bw_fold_handle_get_type ())
G_DECLARE_FINAL_TYPE (BwFoldHandle, bw_fold_handle, BW, FOLD_HANDLE, GtkToggleButton)

/* at_end: the side lies at the end of the line (right, where words run from the left). What it
 * does is told in words: "Fold the tray away", "Bring the tray back", and the key. */
void bw_fold_handle_say (BwFoldHandle *self, gboolean at_end, const char *fold, const char *unfold,
                         const char *key);
