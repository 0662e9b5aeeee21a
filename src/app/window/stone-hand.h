/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tool in hand at work on the turning stone: what is done there is done to the band, as on the
 * canvas, and is one step of undo. Beads of the bail are laid, rubbed out or picked up. */
#pragma once

#include "preview/view/stone-view.h"

typedef struct _BwStoneHand BwStoneHand;

BwStoneHand *bw_stone_hand_new (BwSession *session); /* keeps a reference */
void bw_stone_hand_free (BwStoneHand *hand);         /* what is under way is taken back */

/* What the view asks of it; data: the hand. */
extern const BwStoneBrush bw_stone_hand_brush;
