/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the piece comes to rest, heights that would hang it otherwise, and whether the band stays. */
#pragma once

#include "app/form/card.h"

#define BW_TYPE_REST_CARD (bw_rest_card_get_type ())
G_DECLARE_FINAL_TYPE (BwRestCard, bw_rest_card, BW, REST_CARD, BwCard)

/* "Hangs with its tip up, 12° off the vertical." Owned. */
char *bw_rest_words (const BwHang *hang);
/* "The stone thins 1.2° towards the tip; the band may slip that way." Owned. */
char *bw_rest_words_wedge (const BwWedge *wedge);
