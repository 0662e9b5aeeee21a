/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The piece is done: what it really took, and what became of it. */
#pragma once

#include "app/form/draft.h"
#include <gtk/gtk.h>

#define BW_TYPE_DONE_DIALOG (bw_done_dialog_get_type ())
G_DECLARE_FINAL_TYPE (BwDoneDialog, bw_done_dialog, BW, DONE_DIALOG, GtkWindow)

void bw_done_dialog_show (GtkWindow *parent, BwDraft *draft);
