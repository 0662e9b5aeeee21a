/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The chance of each row count as a bar with its number and its per cent. */
#pragma once

#include "core/band/forecast.h"
#include <gtk/gtk.h>

#define BW_TYPE_CHANCE_BARS (bw_chance_bars_get_type ())
G_DECLARE_FINAL_TYPE (BwChanceBars, bw_chance_bars, BW, CHANCE_BARS, GtkWidget)

/* The forecast is copied. rows: the project's own count, marked. */
void bw_chance_bars_set (BwChanceBars *self, const BwForecast *forecast, int rows);
