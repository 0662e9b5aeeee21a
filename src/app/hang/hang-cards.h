/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cards of the Hang stage, and the words two of them share with others. */
#pragma once

#include "app/form/card.h"

/* The bail's own beads and the colours to lay on them. */
#define BW_TYPE_BAIL_BEADS_CARD (bw_bail_beads_card_get_type ())
G_DECLARE_FINAL_TYPE (BwBailBeadsCard, bw_bail_beads_card, BW, BAIL_BEADS_CARD, BwCard)

/* The bail: its style and measures, what goes through it, and rows that would let the cord through.
 */
#define BW_TYPE_BAIL_CARD (bw_bail_card_get_type ())
G_DECLARE_FINAL_TYPE (BwBailCard, bw_bail_card, BW, BAIL_CARD, BwCard)

/* What passes through the loop, in words, lengths by `unit`. Owned. */
char *bw_bail_words_opening (const BwLoop *loop, BwUnit unit);
/* Whether the cord it shall hang on passes, and by how much. Owned. */
char *bw_bail_words_cord (const BwLoop *loop, double cord_mm, BwUnit unit);

/* How the piece comes to rest, heights that would hang it otherwise, and whether the band stays. */
#define BW_TYPE_REST_CARD (bw_rest_card_get_type ())
G_DECLARE_FINAL_TYPE (BwRestCard, bw_rest_card, BW, REST_CARD, BwCard)

/* "Hangs tip up, 12° from upright." Owned. */
char *bw_rest_words (const BwHang *hang);
/* "The stone thins 1.2° towards the tip; the band may slip that way." Owned. */
char *bw_rest_words_wedge (const BwWedge *wedge);
