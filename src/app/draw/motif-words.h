/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The kinds of motif in words, and which of its numbers each kind heeds. */
#pragma once

#include "core/pattern/motif.h"

typedef enum {
  BW_MOTIF_HAS_SIZE = 1 << 0,
  BW_MOTIF_HAS_REACH = 1 << 1,
  BW_MOTIF_HAS_SLOPE = 1 << 2,
  BW_MOTIF_HAS_LEAN = 1 << 3, /* the sign of the slope alone */
  BW_MOTIF_HAS_DENSITY = 1 << 4,
  BW_MOTIF_HAS_SEED = 1 << 5,
  BW_MOTIF_HAS_DITHER = 1 << 6,
  BW_MOTIF_HAS_TEXT = 1 << 7,
  BW_MOTIF_HAS_REPEATS = 1 << 8, /* repeats and where their middle lies */
} BwMotifParts;

guint bw_motif_parts (BwMotifKind kind);
/* Translated, borrowed. size: what the kind's size is; reach likewise, "" where it has none. */
const char *bw_motif_words_kind (BwMotifKind kind);
const char *bw_motif_words_size (BwMotifKind kind);
const char *bw_motif_words_reach (BwMotifKind kind);
/* The label of the undo step: "Motif: Chevrons". Owned. */
char *bw_motif_words_step (BwMotifKind kind);
/* How many colours the kind can use. */
void bw_motif_colour_range (BwMotifKind kind, int *least, int *most);

/* How much of the ring a text takes, in words; to be freed. */
char *bw_motif_words_room (const BwMotifRoom *room);
