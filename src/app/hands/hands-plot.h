/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The pitch of piece after piece, and the band in which the next one is to be expected. */
#pragma once

#include "project/document/length.h"
#include <gtk/gtk.h>

#define BW_TYPE_HANDS_PLOT (bw_hands_plot_get_type ())
G_DECLARE_FINAL_TYPE (BwHandsPlot, bw_hands_plot, BW, HANDS_PLOT, GtkWidget)

typedef struct {
  double mm, sd_mm; /* mm 0: the piece says nothing of the pitch, and its place stays empty */
  gboolean left_out;
} BwHandsPoint;

typedef struct {
  double mm, sd_mm; /* of the next piece */
  double size_mm;   /* the bead's own */
} BwHandsNext;

/* points: of BwHandsPoint, in the order woven; taken. words: all of it, for who cannot see it. */
void bw_hands_plot_set (BwHandsPlot *self, GArray *points, BwHandsNext next, BwUnit unit,
                        const char *words);
/* The piece to be marked; −1: none. */
void bw_hands_plot_choose (BwHandsPlot *self, int at);
