/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a shop is to send: what the pieces take, less what is in hand. Of what the maker's stash
 * tells, that is in hand; of colours it does not tell, what the tray says. Costs are no part of it.
 */
#pragma once

#include "project/book/stash-item.h"
#include "project/project.h"

typedef struct {
  int colour;          /* of the tray */
  guint64 beads;       /* what all pieces take, spare included */
  double grams;        /* of these */
  double in_hand_g;    /* as the stash or the tray says */
  gboolean in_stash;   /* it is the stash that says it */
  double order_g;      /* grams less what is in hand, never below 0 */
  guint64 order_beads; /* so many are these, up to the next whole one */
  guint64 packs;       /* whole packs to order */
} BwOrderBead;

/* Cord, thread and findings: mm or pieces, of all pieces. */
typedef struct {
  gboolean in_stash;
  double wanted, in_hand, order;
} BwOrderThing;

typedef struct {
  BwMaterials materials;
  int pieces;
  int n;                          /* colours the pieces use */
  BwOrderBead bead[BW_TRAY_MAX];  /* in the order of the tray */
  BwOrderBead total;              /* colour -1 */
  BwOrderThing thing[BW_N_STASH]; /* by BwStashWhat; beads are told above */
  BwOrderThing further;           /* thread for further rows that are likely, held against what
 the pieces leave of it */
  gboolean has_stash;             /* anything of it is in the stash, or was */
} BwOrder;

/* pieces 0: the project's own count. */
void bw_order_init (BwOrder *order, BwProject *project, int pieces);
