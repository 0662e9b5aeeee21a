/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One row as big beads, from left to right in the order the needle meets them. */
#pragma once

#include "project/document/tray.h"
#include <gtk/gtk.h>

#define BW_TYPE_BENCH_ROW (bw_bench_row_get_type ())
G_DECLARE_FINAL_TYPE (BwBenchRow, bw_bench_row, BW, BENCH_ROW, GtkWidget)

/* bead_px: height of a bead, where there is room for all in the widget's lines. */
void bw_bench_row_set_size (BwBenchRow *self, int bead_px);
/* Tray indices, copied; n 0: nothing. */
void bw_bench_row_set_beads (BwBenchRow *self, const BwTray *tray, const guint8 *colours, int n);
