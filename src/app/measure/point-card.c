/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ends of the stone. */
#include "config.h"

#include "app/form/measures.h"
#include "app/measure/measure-cards.h"

#include <glib/gi18n-lib.h>

struct _BwPointCard {
  BwCard parent_instance;
  GtkDropDown *given;
  GtkDropDown *base;
  GtkWidget *lower;
};

G_DEFINE_FINAL_TYPE (BwPointCard, bw_point_card, BW_TYPE_CARD)

static void
bw_point_card_refresh (BwCard *card)
{
  BwPointCard *self = BW_POINT_CARD (card);
  const BwStoneMeasures *stone = &bw_card_get_design (card)->stone;
  gtk_drop_down_set_selected (self->given, stone->has_shoulder ? 0 : 1);
  gtk_drop_down_set_selected (self->base, stone->base == BW_BASE_POINT ? 1 : 0);
  gtk_widget_set_visible (self->lower, stone->base == BW_BASE_POINT);
}

static void
given_chosen (BwPointCard *self)
{
  if (bw_card_is_refreshing (BW_CARD (self)))
    return;
  BwDesign design = *bw_card_get_design (BW_CARD (self));
  gboolean by_angle = gtk_drop_down_get_selected (self->given) == 1;
  if (by_angle == !design.stone.has_shoulder)
    return;
  bw_measures_set_point (&design.stone, by_angle);
  bw_card_apply (BW_CARD (self), _ ("How the point is given"), &design);
}

static void
base_chosen (BwPointCard *self)
{
  if (bw_card_is_refreshing (BW_CARD (self)))
    return;
  BwDesign design = *bw_card_get_design (BW_CARD (self));
  BwBase base = gtk_drop_down_get_selected (self->base) == 1 ? BW_BASE_POINT : BW_BASE_FLAT;
  if (base == design.stone.base)
    return;
  bw_measures_set_base (&design.stone, base);
  bw_card_apply (BW_CARD (self), _ ("Lower end"), &design);
}

static void
bw_point_card_class_init (BwPointCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  BW_CARD_CLASS (klass)->refresh = bw_point_card_refresh;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/point-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwPointCard, given);
  gtk_widget_class_bind_template_child (widget_class, BwPointCard, base);
  gtk_widget_class_bind_template_child (widget_class, BwPointCard, lower);
  gtk_widget_class_bind_template_callback (widget_class, given_chosen);
  gtk_widget_class_bind_template_callback (widget_class, base_chosen);
}

static void
bw_point_card_init (BwPointCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
