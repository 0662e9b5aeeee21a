/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stone beside every stage: the live view, and what of it is shown in which light. */
#pragma once

#include "project/session.h"
#include <gtk/gtk.h>

#define BW_TYPE_STONE_PANEL (bw_stone_panel_get_type ())
G_DECLARE_FINAL_TYPE (BwStonePanel, bw_stone_panel, BW, STONE_PANEL, GtkWidget)

void bw_stone_panel_bind (BwStonePanel *self, BwSession *session);
/* TRUE on the stage where the piece hangs: there it is shown at rest, unless the maker wants it
 * upright; the button for that is shown there alone. */
void bw_stone_panel_set_hanging (BwStonePanel *self, gboolean hanging);
