/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The band: how wide, how many rows, where on the stone. */
#pragma once

#include "app/form/card.h"

#define BW_TYPE_BAND_CARD (bw_band_card_get_type ())
G_DECLARE_FINAL_TYPE (BwBandCard, bw_band_card, BW, BAND_CARD, BwCard)
