/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Motifs worked out by rule: choose one, see it on band and stone while its numbers change, lay it
 * as one step. And those of the maker's own; signal "beads" (const char *beads): one is to be taken
 * to the band, as bw_clip_print() writes it. Signal "centred" (double pitches): look there. */
#pragma once

#include "app/form/card.h"

#define BW_TYPE_MOTIF_PANEL (bw_motif_panel_get_type ())
G_DECLARE_FINAL_TYPE (BwMotifPanel, bw_motif_panel, BW, MOTIF_PANEL, BwCard)

/* Looks again at what is in the maker's folder. */
void bw_motif_panel_look_at_own (BwMotifPanel *self);
