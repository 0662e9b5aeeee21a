/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A group of cards that folds away to its title and one line that says what is in it. */
#pragma once

#include "app/form/card.h"

#define BW_TYPE_FOLD_CARD (bw_fold_card_get_type ())
G_DECLARE_FINAL_TYPE (BwFoldCard, bw_fold_card, BW, FOLD_CARD, BwCard)

gboolean bw_fold_card_get_open (BwFoldCard *self);
/* Makes what is in it, where it was never opened. */
void bw_fold_card_fill (BwFoldCard *self);
