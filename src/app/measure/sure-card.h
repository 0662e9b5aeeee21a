/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How sure the row count is: the chance of each count, and what would make it surer. */
#pragma once

#include "app/form/card.h"

#define BW_TYPE_SURE_CARD (bw_sure_card_get_type ())
G_DECLARE_FINAL_TYPE (BwSureCard, bw_sure_card, BW, SURE_CARD, BwCard)
