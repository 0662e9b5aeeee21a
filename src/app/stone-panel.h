/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stone beside every stage: the live view, and what of it is shown in which light. */
#pragma once

#include "project/session.h"
#include <gtk/gtk.h>

#define BW_TYPE_STONE_PANEL (bw_stone_panel_get_type ())
G_DECLARE_FINAL_TYPE (BwStonePanel, bw_stone_panel, BW, STONE_PANEL, GtkWidget)

void bw_stone_panel_bind (BwStonePanel *self, BwSession *session);
