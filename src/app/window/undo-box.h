/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Back, forth and the steps by name: the buttons, and the window's commands behind them. */
#pragma once

#include "app/form/draft.h"
#include <gtk/gtk.h>

#define BW_TYPE_UNDO_BOX (bw_undo_box_get_type ())
G_DECLARE_FINAL_TYPE (BwUndoBox, bw_undo_box, BW, UNDO_BOX, GtkWidget)

/* Adds "undo", "redo" and "history" to the actions, which must outlive the box, and follows the
 * draft's project. */
void bw_undo_box_bind (BwUndoBox *self, BwDraft *draft, GActionMap *actions);
