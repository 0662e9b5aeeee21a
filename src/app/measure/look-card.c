/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What nature gave the stone besides its shape: for the pictures. */
#include "config.h"

#include "app/measure/measure-cards.h"

#include <glib/gi18n-lib.h>

struct _BwLookCard {
  BwCard parent_instance;
  GtkWidget *lower;
  GtkDropDown *base;
  GtkWidget *scatter;
};

G_DEFINE_FINAL_TYPE (BwLookCard, bw_look_card, BW_TYPE_CARD)

static void
bw_look_card_refresh (BwCard *card)
{
  BwLookCard *self = BW_LOOK_CARD (card);
  const BwDesign *design = bw_card_get_design (card);
  const BwStoneLook *look = &design->look;
  gtk_drop_down_set_selected (self->base, (guint)look->base);
  gtk_widget_set_visible (self->lower, design->stone.base == BW_BASE_FLAT);
  gtk_widget_set_sensitive (self->scatter, look->veils > 0 || look->needles > 0 || look->chips > 0);
}

static void
base_chosen (BwLookCard *self)
{
  if (bw_card_is_refreshing (BW_CARD (self)))
    return;
  BwDesign design = *bw_card_get_design (BW_CARD (self));
  BwBaseSurface base = (BwBaseSurface)gtk_drop_down_get_selected (self->base);
  if (base == design.look.base)
    return;
  design.look.base = base;
  bw_card_apply (BW_CARD (self), _ ("Flat lower end"), &design);
}

static void
scatter_again (BwLookCard *self)
{
  BwDesign design = *bw_card_get_design (BW_CARD (self));
  design.look.seed = (design.look.seed + 1) % (BW_LOOK_SEED_MAX + 1);
  bw_card_apply (BW_CARD (self), _ ("Scatter Again"), &design);
}

static void
bw_look_card_class_init (BwLookCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  BW_CARD_CLASS (klass)->refresh = bw_look_card_refresh;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/look-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwLookCard, lower);
  gtk_widget_class_bind_template_child (widget_class, BwLookCard, base);
  gtk_widget_class_bind_template_child (widget_class, BwLookCard, scatter);
  gtk_widget_class_bind_template_callback (widget_class, base_chosen);
  gtk_widget_class_bind_template_callback (widget_class, scatter_again);
}

static void
bw_look_card_init (BwLookCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
