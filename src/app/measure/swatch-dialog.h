/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The swatch helper: a flat woven sample measured edge to edge gives this maker's own gauge. */
#pragma once

#include "app/form/draft.h"
#include <gtk/gtk.h>

#define BW_TYPE_SWATCH_DIALOG (bw_swatch_dialog_get_type ())
G_DECLARE_FINAL_TYPE (BwSwatchDialog, bw_swatch_dialog, BW, SWATCH_DIALOG, GtkWindow)

void bw_swatch_dialog_show (GtkWindow *parent, BwDraft *draft);
