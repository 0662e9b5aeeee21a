/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cards of the Make stage. */
#pragma once

#include "app/form/card.h"

/* What is to be minded with flame, needle, cord, children and this mineral. */
#define BW_TYPE_CAUTIONS_CARD (bw_cautions_card_get_type ())
G_DECLARE_FINAL_TYPE (BwCautionsCard, bw_cautions_card, BW, CAUTIONS_CARD, BwCard)

/* What the pieces cost, by what they are made of; empty where that is not worked out. */
#define BW_TYPE_COST_CARD (bw_cost_card_get_type ())
G_DECLARE_FINAL_TYPE (BwCostCard, bw_cost_card, BW, COST_CARD, BwCard)

/* What the cover of the printed pages tells of the piece and its maker. */
#define BW_TYPE_COVER_CARD (bw_cover_card_get_type ())
G_DECLARE_FINAL_TYPE (BwCoverCard, bw_cover_card, BW, COVER_CARD, BwCard)

/* What a shop is to send: beads by colour, cord and thread, what is in hand taken off. */
#define BW_TYPE_LIST_CARD (bw_list_card_get_type ())
G_DECLARE_FINAL_TYPE (BwListCard, bw_list_card, BW, LIST_CARD, BwCard)

/* The cord the pendant hangs on: how long, and how it is closed. */
#define BW_TYPE_NECKLACE_CARD (bw_necklace_card_get_type ())
G_DECLARE_FINAL_TYPE (BwNecklaceCard, bw_necklace_card, BW, NECKLACE_CARD, BwCard)

/* What is asked for a piece: its cost with mark-up, rounded. */
#define BW_TYPE_PRICE_CARD (bw_price_card_get_type ())
G_DECLARE_FINAL_TYPE (BwPriceCard, bw_price_card, BW, PRICE_CARD, BwCard)

/* What can be printed, within reach of the Make stage. */
#define BW_TYPE_PRINT_CARD (bw_print_card_get_type ())
G_DECLARE_FINAL_TYPE (BwPrintCard, bw_print_card, BW, PRINT_CARD, BwCard)

/* How many pieces, how much to spare, and what things cost. */
#define BW_TYPE_SUPPLY_CARD (bw_supply_card_get_type ())
G_DECLARE_FINAL_TYPE (BwSupplyCard, bw_supply_card, BW, SUPPLY_CARD, BwCard)

/* The band row by row, as read at the bench. */
#define BW_TYPE_WORDS_CARD (bw_words_card_get_type ())
G_DECLARE_FINAL_TYPE (BwWordsCard, bw_words_card, BW, WORDS_CARD, BwCard)
