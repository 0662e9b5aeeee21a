/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What had been told of pieces against what came of them: on the slant line both agree. */
#pragma once

#include "project/book/book-done.h"
#include <gtk/gtk.h>

#define BW_TYPE_TOLD_PLOT (bw_told_plot_get_type ())
G_DECLARE_FINAL_TYPE (BwToldPlot, bw_told_plot, BW, TOLD_PLOT, GtkWidget)

/* all is copied; words: the same for who cannot see it. */
void bw_told_plot_set (BwToldPlot *self, const BwBookDone *all, const char *words);
