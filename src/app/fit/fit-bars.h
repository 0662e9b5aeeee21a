/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fit as a picture: one short bar per column, the lowest column lowest, placed from loose over
 * snug to will-not-close. Place and shape say it, colour only helps. */
#pragma once

#include "core/band/fit.h"
#include <gtk/gtk.h>

#define BW_TYPE_FIT_BARS (bw_fit_bars_get_type ())
G_DECLARE_FINAL_TYPE (BwFitBars, bw_fit_bars, BW, FIT_BARS, GtkWidget)

/* The fit is copied. */
void bw_fit_bars_set_fit (BwFitBars *self, const BwFit *fit, double slack_mm);
