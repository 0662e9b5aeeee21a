/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The band row by row, as read at the bench. */
#pragma once

#include "app/form/card.h"

#define BW_TYPE_WORDS_CARD (bw_words_card_get_type ())
G_DECLARE_FINAL_TYPE (BwWordsCard, bw_words_card, BW, WORDS_CARD, BwCard)
