/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Ways to set the stone in hand: six to twelve that differ, each a card with the piece as it would
 * be. A click makes one the project. */
#pragma once

#include "app/form/draft.h"
#include <gtk/gtk.h>

#define BW_TYPE_WAYS_WINDOW (bw_ways_window_get_type ())
G_DECLARE_FINAL_TYPE (BwWaysWindow, bw_ways_window, BW, WAYS_WINDOW, GtkWindow)

/* One for each parent: what is open already comes to the front. */
void bw_ways_window_show (GtkWindow *parent, BwDraft *draft);
