/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bead, and the gauge at which these hands set it. */
#pragma once

#include "app/form/card.h"

#define BW_TYPE_BEAD_CARD (bw_bead_card_get_type ())
G_DECLARE_FINAL_TYPE (BwBeadCard, bw_bead_card, BW, BEAD_CARD, BwCard)
