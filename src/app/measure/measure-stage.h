/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measure: the stone as sketched at the bench, and every number it is made of. */
#pragma once

#include "app/form/draft.h"
#include <gtk/gtk.h>

#define BW_TYPE_MEASURE_STAGE (bw_measure_stage_get_type ())
G_DECLARE_FINAL_TYPE (BwMeasureStage, bw_measure_stage, BW, MEASURE_STAGE, GtkWidget)

void bw_measure_stage_bind (BwMeasureStage *self, BwDraft *draft);
