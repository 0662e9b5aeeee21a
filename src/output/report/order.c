/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Beads are weighed, not counted, at home as in a shop: what is in hand is taken off by weight. */
#include "output/report/order.h"

#include "core/base/tolerance.h"
#include "output/report/likely-rows.h"
#include "output/report/shopping.h"
#include "project/stash-wants.h"

#include <math.h>

static BwOrderBead
bead_of (const BwColour *colour, int i, const BwBeadNeed *need, const BwStashWant *want,
         double pack_g)
{
  double in_hand_g = want->is_known ? want->there : colour->in_hand_g;
  BwOrderBead bead = { .colour = i,
                       .beads = need->with_spare,
                       .grams = need->grams,
                       .in_hand_g = in_hand_g,
                       .in_stash = want->is_known,
                       .order_g = fmax (need->grams - in_hand_g, 0) };
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

static BwOrderThing
thing_of (const BwStashWant *want)
{
  return (BwOrderThing){ want->is_known, want->wanted, want->there,
                         fmax (want->wanted - want->there, 0) };
}

static void
add_beads (BwOrder *order, const BwTray *tray, const BwStashWant *wants, double pack_g)
{
  for (int i = 0; i < order->materials.n_colours; i++) {
    const BwBeadNeed *need = &order->materials.need[i];
    if (need->count == 0)
      continue;
    const BwStashWant *want = &wants[order->n];
    order->bead[order->n] = bead_of (&tray->colour[i], i, need, want, pack_g);
    order->has_stash |= want->is_known;
    add_to (&order->total, &order->bead[order->n++]);
  }
}

/* The stash's thread goes into the pieces first. */
static BwOrderThing
further_of (BwProject *project, const BwOrder *order)
{
  const BwOrderThing *thread = &order->thing[BW_STASH_THREAD];
  double wanted = bw_further_thread_to_buy_mm (project, order->pieces);
  double left = fmax (thread->in_hand - thread->wanted, 0);
  return (BwOrderThing){ thread->in_stash, wanted, left, fmax (wanted - left, 0) };
}

void
bw_order_init (BwOrder *order, BwProject *project, int pieces)
{
  const BwSupply *supply = &bw_project_get_design (project)->supply;
  const BwTray *tray = bw_project_get_tray (project);
  order->pieces = pieces > 0 ? pieces : supply->pieces;
  order->n = 0;
  order->has_stash = FALSE;
  order->total = (BwOrderBead){ .colour = -1 };
  bw_shopping_init (&order->materials, project, pieces);
  g_autoptr (BwStash) stash = bw_stash_dup_own ();
  g_autoptr (GArray) wants = bw_stash_wants_new (project, &order->materials);
  const BwStashWant *want = (const BwStashWant *)(void *)wants->data;
  bw_stash_hold (stash, (BwStashWant *)(void *)wants->data, wants->len, NULL);
  add_beads (order, tray, want, supply->pack_g);
  order->thing[BW_STASH_BEADS] = (BwOrderThing){ FALSE };
  for (guint i = (guint)order->n; i < wants->len; i++) {
    order->thing[want[i].what] = thing_of (&want[i]);
    order->has_stash |= want[i].is_known;
  }
  order->further = further_of (project, order);
}
