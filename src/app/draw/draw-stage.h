/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Draw: the unrolled band and the tray. */
#pragma once

#include "app/form/draft.h"
#include <gtk/gtk.h>

#define BW_TYPE_DRAW_STAGE (bw_draw_stage_get_type ())
G_DECLARE_FINAL_TYPE (BwDrawStage, bw_draw_stage, BW, DRAW_STAGE, GtkWidget)

void bw_draw_stage_bind (BwDrawStage *self, BwDraft *draft);
/* Comes nearer by a factor; 0 shows the whole band. */
void bw_draw_stage_zoom (BwDrawStage *self, double by);
