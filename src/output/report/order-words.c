/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "output/report/order-words.h"

#include "output/report/likely-rows.h"
#include "output/report/material-words.h"

#include <glib/gi18n-lib.h>

static char *
amount_words (double amount, gboolean counted, BwUnit unit)
{
  return counted ? g_strdup_printf ("%.0f", amount) : bw_cut_words (amount, unit);
}

char *
bw_order_words (char *wanted, const BwOrderThing *thing, gboolean counted, BwUnit unit)
{
  g_autofree char *own = wanted;
  if (!own || !thing->in_stash)
    return g_steal_pointer (&own);
  g_autofree char *there = amount_words (thing->in_hand, counted, unit);
  g_autofree char *lack = amount_words (thing->order, counted, unit);
  if (thing->order > 0)
    return g_strdup_printf (_ ("%s · %s in the stash, buy %s"), own, there, lack);
  return g_strdup_printf (_ ("%s · %s in the stash"), own, there);
}

char *
bw_order_reserve_words (BwProject *project, int pieces, const BwOrderThing *held, BwUnit unit)
{
  int rows = bw_further_thread (project).rows;
  if (rows <= 0)
    return NULL;
  g_autofree char *length = bw_cut_words (bw_further_thread_to_buy_mm (project, pieces), unit);
  char *words
      = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%s, should the ends want up to %d row more",
                                      "%s, should the ends want up to %d rows more", (gulong)rows),
                         length, rows);
  return held ? bw_order_words (words, held, FALSE, unit) : words;
}
