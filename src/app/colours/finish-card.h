/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The finish of a colour, and a card of all finishes to choose from, each as it looks when it is
 * woven. */
#pragma once

#include "project/document/tray.h"
#include <gtk/gtk.h>

#define BW_TYPE_FINISH_CARD (bw_finish_card_get_type ())
G_DECLARE_FINAL_TYPE (BwFinishCard, bw_finish_card, BW, FINISH_CARD, GtkWidget)

/* Signal "chosen" (guint finish): the maker has taken another one. */

/* Shows the finish and colour of this one. */
void bw_finish_card_show (BwFinishCard *self, const BwColour *colour);
/* What it is called before the finish, where there are several of them: "Finish of Dusk". */
void bw_finish_card_set_title (BwFinishCard *self, const char *title);
