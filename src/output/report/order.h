/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a shop is to send: what the pieces take, less what is in hand. Costs are no part of it. */
#pragma once

#include "project/project.h"

typedef struct {
  int colour;          /* of the tray */
  guint64 beads;       /* what all pieces take, spare included */
  double grams;        /* of these */
  double in_hand_g;    /* as the maker says */
  double order_g;      /* grams less what is in hand, never below 0 */
  guint64 order_beads; /* so many are these, up to the next whole one */
  guint64 packs;       /* whole packs to order */
} BwOrderBead;

typedef struct {
  BwMaterials materials;
  int pieces;
  int n;                         /* colours the pieces use */
  BwOrderBead bead[BW_TRAY_MAX]; /* in the order of the tray */
  BwOrderBead total;             /* colour -1 */
} BwOrder;

/* pieces 0: the project's own count. */
void bw_order_init (BwOrder *order, BwProject *project, int pieces);
