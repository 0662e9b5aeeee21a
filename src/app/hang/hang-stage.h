/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Hang: the bail, and how the finished piece comes to rest. */
#pragma once

#include "app/form/draft.h"
#include <gtk/gtk.h>

#define BW_TYPE_HANG_STAGE (bw_hang_stage_get_type ())
G_DECLARE_FINAL_TYPE (BwHangStage, bw_hang_stage, BW, HANG_STAGE, GtkWidget)

void bw_hang_stage_bind (BwHangStage *self, BwDraft *draft);
