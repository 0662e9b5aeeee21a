/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The section as measured: how, how many faces, the values, the taper. */
#pragma once

#include "app/form/card.h"

#define BW_TYPE_SECTION_CARD (bw_section_card_get_type ())
G_DECLARE_FINAL_TYPE (BwSectionCard, bw_section_card, BW, SECTION_CARD, BwCard)
