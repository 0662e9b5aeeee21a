/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A page of cards: as many columns as find room, each card under the column that is shortest so
 * far. One column in a narrow window or with large text; no card is ever squeezed below its own
 * size. */
#pragma once

#include <gtk/gtk.h>

#define BW_TYPE_CARDS (bw_cards_get_type ())
G_DECLARE_FINAL_TYPE (BwCards, bw_cards, BW, CARDS, GtkWidget)

/* How many columns of at least `column` pixels with gaps of `gap` find room: 1..most. */
int bw_cards_column_count (int width, int column, int gap, int most);
