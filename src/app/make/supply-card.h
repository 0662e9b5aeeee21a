/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How many pieces, how much to spare, and what things cost. */
#pragma once

#include "app/form/card.h"

#define BW_TYPE_SUPPLY_CARD (bw_supply_card_get_type ())
G_DECLARE_FINAL_TYPE (BwSupplyCard, bw_supply_card, BW, SUPPLY_CARD, BwCard)
