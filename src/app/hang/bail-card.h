/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bail: its style and measures, what goes through it, and rows that would let the cord through.
 */
#pragma once

#include "app/form/card.h"

#define BW_TYPE_BAIL_CARD (bw_bail_card_get_type ())
G_DECLARE_FINAL_TYPE (BwBailCard, bw_bail_card, BW, BAIL_CARD, BwCard)

/* What passes through the loop, in words, lengths by `unit`. Owned. */
char *bw_bail_words_opening (const BwLoop *loop, BwUnit unit);
/* Whether the cord it shall hang on passes, and by how much. Owned. */
char *bw_bail_words_cord (const BwLoop *loop, double cord_mm, BwUnit unit);
