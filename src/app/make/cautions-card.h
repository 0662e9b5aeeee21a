/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is to be minded with flame, needle, cord, children and this mineral. */
#pragma once

#include "app/form/card.h"

#define BW_TYPE_CAUTIONS_CARD (bw_cautions_card_get_type ())
G_DECLARE_FINAL_TYPE (BwCautionsCard, bw_cautions_card, BW, CAUTIONS_CARD, BwCard)
