/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The squeeze helper: the way round the bed, slack and under a pulled strip, says how much it gives
 * under this maker's hands. */
#pragma once

#include "app/form/draft.h"
#include <gtk/gtk.h>

#define BW_TYPE_SQUEEZE_DIALOG (bw_squeeze_dialog_get_type ())
G_DECLARE_FINAL_TYPE (BwSqueezeDialog, bw_squeeze_dialog, BW, SQUEEZE_DIALOG, GtkWindow)

void bw_squeeze_dialog_show (GtkWindow *parent, BwDraft *draft);
