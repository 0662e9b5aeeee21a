/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the pieces cost, by what they are made of: for the maker, and no part of any order. */
#include "config.h"

#include "app/make/list-lines.h"
#include "app/make/make-cards.h"
#include "output/report/material-words.h"

#include <glib/gi18n-lib.h>

struct _BwCostCard {
  BwCard parent_instance;
  GtkGrid *grid;
};

G_DEFINE_FINAL_TYPE (BwCostCard, bw_cost_card, BW_TYPE_CARD)

static void
put_cost (BwCostCard *self, int *row, const char *what, double amount, const char *currency,
          const char *style)
{
  bw_list_put (self->grid, 0, *row, what, 0, style);
  bw_list_put_number (self->grid, 1, *row, style, "%.2f %s", amount, currency);
  (*row)++;
}

static void
put_sums (BwCostCard *self, int *row, const BwSupply *supply, const BwMaterials *m)
{
  g_autofree char *all = g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "All of %d piece", "All of %d pieces", (gulong)supply->pieces),
      supply->pieces);
  g_autofree char *hours = bw_hours_words (m->hours);
  if (supply->pieces > 1)
    put_cost (self, row, all, m->cost.total, supply->currency, "total");
  put_cost (self, row, _ ("One piece"), m->cost.piece, supply->currency, "total");
  bw_list_put (self->grid, 0, *row, _ ("Time at the beads"), 0, NULL);
  bw_list_put (self->grid, 1, (*row)++, hours, 1, NULL);
}

static void
show_cost (BwCostCard *self, const BwDesign *design, const BwMaterials *m)
{
  const char *currency = design->supply.currency;
  int row = 0;
  bw_list_clear (self->grid);
  gtk_widget_set_visible (GTK_WIDGET (self->grid), m->has_cost);
  if (!m->has_cost)
    return;
  put_cost (self, &row, _ ("Beads"), m->cost.beads, currency, NULL);
  put_cost (self, &row, _ ("Thread"), m->cost.thread, currency, NULL);
  put_cost (self, &row, _ ("Bed cord"), m->cost.bed_cord, currency, NULL);
  if (m->cost.hanging_cord > 0)
    put_cost (self, &row, _ ("Hanging cord"), m->cost.hanging_cord, currency, NULL);
  if (m->cost.findings > 0)
    put_cost (self, &row, _ ("Ring and clasp"), m->cost.findings, currency, NULL);
  put_cost (self, &row, _ ("Stone"), m->cost.stone, currency, NULL);
  put_cost (self, &row, _ ("Work"), m->cost.labour, currency, NULL);
  put_sums (self, &row, &design->supply, m);
  put_cost (self, &row, _ ("Asked for one"), bw_asking_price (m, &design->supply), currency,
            "total");
}

static void
bw_cost_card_refresh (BwCard *card)
{
  show_cost (BW_COST_CARD (card), bw_card_get_design (card),
             bw_project_materials (bw_card_get_project (card)));
}

static void
bw_cost_card_class_init (BwCostCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  BW_CARD_CLASS (klass)->refresh = bw_cost_card_refresh;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/cost-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwCostCard, grid);
}

static void
bw_cost_card_init (BwCostCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
