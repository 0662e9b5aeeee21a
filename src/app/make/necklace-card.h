/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cord the pendant hangs on: how long, and how it is closed. */
#pragma once

#include "app/form/card.h"

#define BW_TYPE_NECKLACE_CARD (bw_necklace_card_get_type ())
G_DECLARE_FINAL_TYPE (BwNecklaceCard, bw_necklace_card, BW, NECKLACE_CARD, BwCard)
