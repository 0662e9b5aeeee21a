/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the piece is called and what the stone is made of. */
#pragma once

#include "app/form/card.h"

#define BW_TYPE_STONE_CARD (bw_stone_card_get_type ())
G_DECLARE_FINAL_TYPE (BwStoneCard, bw_stone_card, BW, STONE_CARD, BwCard)
