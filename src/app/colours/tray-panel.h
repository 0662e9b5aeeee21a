/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tray beside the band: pick a colour to draw with, and change what is in the tray. */
#pragma once

#include "app/form/card.h"

#define BW_TYPE_TRAY_PANEL (bw_tray_panel_get_type ())
G_DECLARE_FINAL_TYPE (BwTrayPanel, bw_tray_panel, BW, TRAY_PANEL, BwCard)

/* Folded, only a column of swatches is left. */
void bw_tray_panel_set_folded (BwTrayPanel *self, gboolean folded);
