/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Length, shoulder and tip, and what the lower end is like. */
#pragma once

#include "app/form/card.h"

#define BW_TYPE_POINT_CARD (bw_point_card_get_type ())
G_DECLARE_FINAL_TYPE (BwPointCard, bw_point_card, BW, POINT_CARD, BwCard)
