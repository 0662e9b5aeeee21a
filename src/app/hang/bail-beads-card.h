/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bail's own beads and the colours to lay on them. */
#pragma once

#include "app/form/card.h"

#define BW_TYPE_BAIL_BEADS_CARD (bw_bail_beads_card_get_type ())
G_DECLARE_FINAL_TYPE (BwBailBeadsCard, bw_bail_beads_card, BW, BAIL_BEADS_CARD, BwCard)
