/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Motifs worked out by rule: choose one, see it on band and stone while its numbers change, lay it
 * as one step. */
#pragma once

#include "app/form/card.h"

#define BW_TYPE_MOTIF_PANEL (bw_motif_panel_get_type ())
G_DECLARE_FINAL_TYPE (BwMotifPanel, bw_motif_panel, BW, MOTIF_PANEL, BwCard)
