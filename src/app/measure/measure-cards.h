/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cards of the Measure stage. */
#pragma once

#include "app/form/card.h"

/* The band: how many rows, and what comes of them. */
#define BW_TYPE_BAND_CARD (bw_band_card_get_type ())
G_DECLARE_FINAL_TYPE (BwBandCard, bw_band_card, BW, BAND_CARD, BwCard)

/* The bead, and the gauge at which these hands set it. */
#define BW_TYPE_BEAD_CARD (bw_bead_card_get_type ())
G_DECLARE_FINAL_TYPE (BwBeadCard, bw_bead_card, BW, BEAD_CARD, BwCard)

/* The bed of waxed cord, and what it comes to. */
#define BW_TYPE_BED_CARD (bw_bed_card_get_type ())
G_DECLARE_FINAL_TYPE (BwBedCard, bw_bed_card, BW, BED_CARD, BwCard)

/* What the piece is called. */
#define BW_TYPE_PIECE_CARD (bw_piece_card_get_type ())
G_DECLARE_FINAL_TYPE (BwPieceCard, bw_piece_card, BW, PIECE_CARD, BwCard)

/* How the point is told, whether the tip is off the axis, and what the lower end is like. */
#define BW_TYPE_POINT_CARD (bw_point_card_get_type ())
G_DECLARE_FINAL_TYPE (BwPointCard, bw_point_card, BW, POINT_CARD, BwCard)

/* How well the section is known, and its values where they are too many for the sheet. */
#define BW_TYPE_SECTION_CARD (bw_section_card_get_type ())
G_DECLARE_FINAL_TYPE (BwSectionCard, bw_section_card, BW, SECTION_CARD, BwCard)

/* What the stone looks like beyond what it is made of. */
#define BW_TYPE_LOOK_CARD (bw_look_card_get_type ())
G_DECLARE_FINAL_TYPE (BwLookCard, bw_look_card, BW, LOOK_CARD, BwCard)

/* What the stone is made of. */
#define BW_TYPE_STONE_CARD (bw_stone_card_get_type ())
G_DECLARE_FINAL_TYPE (BwStoneCard, bw_stone_card, BW, STONE_CARD, BwCard)

/* How sure the row count is: the chance of each count, and what would make it surer. */
#define BW_TYPE_SURE_CARD (bw_sure_card_get_type ())
G_DECLARE_FINAL_TYPE (BwSureCard, bw_sure_card, BW, SURE_CARD, BwCard)
