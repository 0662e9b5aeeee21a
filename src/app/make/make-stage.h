/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Make: what to buy, the band row by row, the bench helper, and what to mind. */
#pragma once

#include "app/form/draft.h"
#include <gtk/gtk.h>

#define BW_TYPE_MAKE_STAGE (bw_make_stage_get_type ())
G_DECLARE_FINAL_TYPE (BwMakeStage, bw_make_stage, BW, MAKE_STAGE, GtkWidget)

void bw_make_stage_bind (BwMakeStage *self, BwDraft *draft);
