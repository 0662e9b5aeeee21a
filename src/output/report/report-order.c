/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The order list as text, for a message to a shop. What it costs is nobody else's affair. */
#include "config.h"

#include "output/report/order.h"
#include "output/report/report-parts.h"
#include "output/report/report.h"

#include <glib/gi18n-lib.h>

static void
add_bead (BwTable *table, const BwColour *colour, const BwOrderBead *bead)
{
  bw_table_add (table, g_strdup (colour->name), g_strdup (_ (bw_finish_word (colour->finish))),
                g_strdup_printf ("#%06x", colour->srgb), g_strdup (colour->article),
                bw_text_number (bead->grams, 2), bw_text_number (bead->in_hand_g, 2),
                bw_text_number (bead->order_g, 2), bw_text_count (bead->packs));
}

static void
text_beads (GString *text, const BwTray *tray, const BwOrder *order)
{
  g_auto (BwTable) table = { 0 };
  bw_table_init (&table, "llllrrrr");
  bw_table_add (&table, g_strdup (_ ("Beads")), g_strdup (_ ("Finish")), g_strdup (_ ("Colour")),
                g_strdup (_ ("Article no.")), g_strdup (_ ("takes, g")),
                g_strdup (_ ("in hand, g")), g_strdup (_ ("to order, g")), g_strdup (_ ("packs")));
  for (int i = 0; i < order->n; i++)
    add_bead (&table, &tray->colour[order->bead[i].colour], &order->bead[i]);
  bw_table_add (&table, g_strdup (_ ("in all")), g_strdup (""), g_strdup (""), g_strdup (""),
                bw_text_number (order->total.grams, 2), bw_text_number (order->total.in_hand_g, 2),
                bw_text_number (order->total.order_g, 2), bw_text_count (order->total.packs));
  bw_table_write (&table, text, 0);
}

char *
bw_order_text (BwProject *project, BwUnit unit)
{
  g_autofree BwOrder *order = g_new (BwOrder, 1);
  g_auto (BwTable) other = { 0 };
  bw_order_init (order, project, 0);
  g_autofree char *what
      = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "order list for %d piece",
                                      "order list for %d pieces", (gulong)order->pieces),
                         order->pieces);
  GString *text = g_string_new (NULL);
  bw_text_heading (text, project, what);
  text_beads (text, bw_project_get_tray (project), order);
  g_string_append_c (text, '\n');
  bw_table_init (&other, "ll");
  bw_materials_add_other (&other, &order->materials, bw_project_get_design (project), order, unit);
  bw_materials_add_reserve (&other, project, order->pieces, order, unit);
  bw_table_write (&other, text, 0);
  return bw_text_done (text);
}
