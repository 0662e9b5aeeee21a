/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is asked for one piece: its cost, the mark-up on it, and where it is rounded to. What beads
 * and hours cost stands with the pieces on the Make stage. */
#include "config.h"

#include "app/kit/words.h"
#include "app/make/make-cards.h"
#include "app/make/price-book.h"
#include "output/sheet/tags.h"

#include <glib/gi18n-lib.h>

struct _BwPriceCard {
  BwCard parent_instance;
  GtkLabel *words;
  GtkWidget *begin, *fields;
};

G_DEFINE_FINAL_TYPE (BwPriceCard, bw_price_card, BW_TYPE_CARD)

static char *
price_words (BwProject *project)
{
  const BwSupply *supply = &bw_project_get_design (project)->supply;
  const BwMaterials *materials = bw_project_materials (project);
  g_autofree char *price = bw_tag_price_words (project);
  if (!materials->has_cost)
    return g_strdup (_ ("What the piece costs is not worked out, so there is no price."));
  /* Translators: an amount with its currency, the price with its currency. */
  return g_strdup_printf (_ ("One piece costs %.2f %s; asked for it: %s."), materials->cost.piece,
                          supply->currency, price);
}

static void
bw_price_card_refresh (BwCard *card)
{
  BwPriceCard *self = BW_PRICE_CARD (card);
  gboolean priced = bw_card_get_design (card)->supply.has_prices;
  g_autofree char *words = price_words (bw_card_get_project (card));
  bw_label_set_words (self->words, words);
  gtk_widget_set_visible (self->begin, !priced);
  gtk_widget_set_visible (self->fields, priced);
}

static void
begin_clicked (BwPriceCard *self)
{
  BwDesign design = *bw_card_get_design (BW_CARD (self));
  bw_price_book_begin (bw_price_book_get (), &design.supply);
  bw_card_apply (BW_CARD (self), _ ("Prices"), &design);
}

static void
bw_price_card_class_init (BwPriceCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  BW_CARD_CLASS (klass)->refresh = bw_price_card_refresh;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/price-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwPriceCard, words);
  gtk_widget_class_bind_template_child (widget_class, BwPriceCard, begin);
  gtk_widget_class_bind_template_child (widget_class, BwPriceCard, fields);
  gtk_widget_class_bind_template_callback (widget_class, begin_clicked);
}

static void
bw_price_card_init (BwPriceCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
