/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Beads are weighed, not counted, at home as in a shop: what is in hand is taken off by weight. */
#include "output/report/order.h"

#include "core/base/tolerance.h"
#include "output/report/shopping.h"

#include <math.h>

static BwOrderBead
bead_of (const BwColour *colour, int i, const BwBeadNeed *need, double pack_g)
{
  BwOrderBead bead = { .colour = i,
                       .beads = need->with_spare,
                       .grams = need->grams,
                       .in_hand_g = colour->in_hand_g,
                       .order_g = fmax (need->grams - colour->in_hand_g, 0) };
  double each = need->grams / (double)need->with_spare;
  bead.order_beads = (guint64)ceil (bead.order_g / each - BW_ROUNDING_MM);
  bead.packs = (guint64)ceil (bead.order_g / pack_g - BW_ROUNDING_MM);
  return bead;
}

static void
add_to (BwOrderBead *total, const BwOrderBead *bead)
{
  total->beads += bead->beads;
  total->grams += bead->grams;
  total->in_hand_g += bead->in_hand_g;
  total->order_g += bead->order_g;
  total->order_beads += bead->order_beads;
  total->packs += bead->packs;
}

void
bw_order_init (BwOrder *order, BwProject *project, int pieces)
{
  const BwSupply *supply = &bw_project_get_design (project)->supply;
  const BwTray *tray = bw_project_get_tray (project);
  order->pieces = pieces > 0 ? pieces : supply->pieces;
  order->n = 0;
  order->total = (BwOrderBead){ .colour = -1 };
  bw_shopping_init (&order->materials, project, pieces);
  for (int i = 0; i < order->materials.n_colours; i++) {
    const BwBeadNeed *need = &order->materials.need[i];
    if (need->count == 0)
      continue;
    order->bead[order->n] = bead_of (&tray->colour[i], i, need, supply->pack_g);
    add_to (&order->total, &order->bead[order->n++]);
  }
}
