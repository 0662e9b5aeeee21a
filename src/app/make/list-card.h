/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What to buy: beads by colour, cord and thread, and what it costs. */
#pragma once

#include "app/form/card.h"

#define BW_TYPE_LIST_CARD (bw_list_card_get_type ())
G_DECLARE_FINAL_TYPE (BwListCard, bw_list_card, BW, LIST_CARD, BwCard)
