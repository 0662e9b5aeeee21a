/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Prices are optional: without them there is no cost, not a cost of nothing. */
#include "config.h"

#include "app/supply-card.h"

#include <glib/gi18n-lib.h>

struct _BwSupplyCard {
  BwCard parent_instance;
  GtkCheckButton *priced;
  GtkWidget *prices;
  GtkEntry *currency;
};

G_DEFINE_FINAL_TYPE (BwSupplyCard, bw_supply_card, BW_TYPE_CARD)

static void
bw_supply_card_refresh (BwCard *card)
{
  BwSupplyCard *self = BW_SUPPLY_CARD (card);
  const BwSupply *supply = &bw_card_get_design (card)->supply;
  gtk_check_button_set_active (self->priced, supply->has_prices);
  gtk_widget_set_visible (self->prices, supply->has_prices);
  if (g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (self->currency)), supply->currency) != 0)
    gtk_editable_set_text (GTK_EDITABLE (self->currency), supply->currency);
}

static void
priced_toggled (BwSupplyCard *self)
{
  if (bw_card_is_refreshing (BW_CARD (self)))
    return;
  BwDesign design = *bw_card_get_design (BW_CARD (self));
  design.supply.has_prices = gtk_check_button_get_active (self->priced);
  if (design.supply.has_prices && design.supply.rows_per_hour <= 0)
    design.supply.rows_per_hour = 20;
  bw_card_apply (BW_CARD (self), _ ("Prices"), &design);
}

static void
currency_typed (BwSupplyCard *self)
{
  const char *typed = gtk_editable_get_text (GTK_EDITABLE (self->currency));
  if (bw_card_is_refreshing (BW_CARD (self)))
    return;
  BwDesign design = *bw_card_get_design (BW_CARD (self));
  if (g_str_equal (typed, design.supply.currency))
    return;
  /* Too long a word is shown as it was, not cut. */
  if (strlen (typed) < sizeof design.supply.currency)
    g_strlcpy (design.supply.currency, typed, sizeof design.supply.currency);
  bw_card_apply (BW_CARD (self), _ ("Currency"), &design);
  bw_card_refresh (BW_CARD (self));
}

static void
bw_supply_card_class_init (BwSupplyCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  BW_CARD_CLASS (klass)->refresh = bw_supply_card_refresh;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/supply-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwSupplyCard, priced);
  gtk_widget_class_bind_template_child (widget_class, BwSupplyCard, prices);
  gtk_widget_class_bind_template_child (widget_class, BwSupplyCard, currency);
  gtk_widget_class_bind_template_callback (widget_class, priced_toggled);
  gtk_widget_class_bind_template_callback (widget_class, currency_typed);
}

static void
bw_supply_card_init (BwSupplyCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
