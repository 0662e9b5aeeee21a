/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The boards of the shelf and the wall behind them: one under every row of cards, from side to side
 * whether or not the row is full. */
#pragma once

#include "app/shelf/shelf-card.h"

#define BW_TYPE_SHELF_BOARDS (bw_shelf_boards_get_type ())
G_DECLARE_FINAL_TYPE (BwShelfBoards, bw_shelf_boards, BW, SHELF_BOARDS, GtkWidget)

/* Signal "chosen" (BwShelfCard *card): by a click, Enter or Space. */

/* name: what a screen reader calls it. */
void bw_shelf_boards_set_name (BwShelfBoards *self, const char *name);
/* Puts a card at the end. */
void bw_shelf_boards_add (BwShelfBoards *self, BwShelfCard *card);
void bw_shelf_boards_clear (BwShelfBoards *self);
/* Borrowed; NULL beyond the last. */
BwShelfCard *bw_shelf_boards_get (BwShelfBoards *self, int index);
