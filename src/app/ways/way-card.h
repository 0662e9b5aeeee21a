/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One way to set the stone: the piece as it would be, and what it costs. */
#pragma once

#include "app/ways/way-look.h"
#include <gtk/gtk.h>

#define BW_TYPE_WAY_CARD (bw_way_card_get_type ())
G_DECLARE_FINAL_TYPE (BwWayCard, bw_way_card, BW, WAY_CARD, GtkFlowBoxChild)

/* way is copied. */
GtkWidget *bw_way_card_new (const BwWay *way);
const BwWay *bw_way_card_get_way (BwWayCard *self); /* borrowed */
/* Shows what the way comes to; NULL: it cannot be worked out. */
void bw_way_card_show (BwWayCard *self, const BwWayLook *look);
