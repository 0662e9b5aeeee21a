/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bed of waxed cord, and what it comes to. */
#pragma once

#include "app/form/card.h"

#define BW_TYPE_BED_CARD (bw_bed_card_get_type ())
G_DECLARE_FINAL_TYPE (BwBedCard, bw_bed_card, BW, BED_CARD, BwCard)
