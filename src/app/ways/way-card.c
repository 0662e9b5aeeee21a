/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/ways/way-card.h"

#include "app/kit/settings.h"
#include "app/kit/words.h"
#include "app/shelf/shelf-stand.h"
#include "app/ways/way-words.h"

#include <glib/gi18n-lib.h>

#define WHOLE_MM 1000.0 /* as high as its place: all are of one stone */

struct _BwWayCard {
  GtkFlowBoxChild parent_instance;
  BwWay way;
  BwShelfStand *stand;
  GtkLabel *band, *bed, *chance, *hang, *price, *cover;
};

G_DEFINE_FINAL_TYPE (BwWayCard, bw_way_card, GTK_TYPE_FLOW_BOX_CHILD)

const BwWay *
bw_way_card_get_way (BwWayCard *self)
{
  g_return_val_if_fail (BW_IS_WAY_CARD (self), NULL);
  return &self->way;
}

/* All that it says, for who hears it. */
static void
name_it (BwWayCard *self)
{
  GtkLabel *lines[] = { self->band, self->chance, self->bed, self->hang, self->cover, self->price };
  g_autoptr (GString) name = g_string_new (NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (lines); i++)
    g_string_append_printf (name, "%s%s", i ? ". " : "", gtk_label_get_text (lines[i]));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name->str,
                                  -1);
}

static void
say (BwWayCard *self, const BwWayLook *look)
{
  const BwWay *way = &self->way;
  BwUnit unit = bw_settings_get_unit (bw_settings_get ());
  g_autofree char *band = bw_way_words_band (&way->design);
  g_autofree char *bed = bw_way_words_bed (&way->design, unit);
  g_autofree char *hang = bw_way_words_hang (way);
  g_autofree char *price = bw_way_words_price (way, look);
  g_autofree char *cover = bw_way_words_cover (way);
  g_autofree char *chance
      = g_strdup_printf (_ ("%.0f %% right the first time"), 100 * way->worth.chance);
  bw_label_set_words (self->band, band);
  bw_label_set_words (self->bed, bed);
  bw_label_set_words (self->chance, chance);
  bw_label_set_words (self->hang, hang);
  bw_label_set_words (self->price, price);
  bw_label_set_words (self->cover, cover);
  name_it (self);
}

void
bw_way_card_show (BwWayCard *self, const BwWayLook *look)
{
  g_return_if_fail (BW_IS_WAY_CARD (self));
  if (look)
    bw_shelf_stand_set (self->stand, BW_STAND_PIECE, look->picture, WHOLE_MM);
  say (self, look);
}

static void
bw_way_card_class_init (BwWayCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/way-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwWayCard, stand);
  gtk_widget_class_bind_template_child (widget_class, BwWayCard, band);
  gtk_widget_class_bind_template_child (widget_class, BwWayCard, bed);
  gtk_widget_class_bind_template_child (widget_class, BwWayCard, chance);
  gtk_widget_class_bind_template_child (widget_class, BwWayCard, hang);
  gtk_widget_class_bind_template_child (widget_class, BwWayCard, price);
  gtk_widget_class_bind_template_child (widget_class, BwWayCard, cover);
}

static void
bw_way_card_init (BwWayCard *self)
{
  g_type_ensure (BW_TYPE_SHELF_STAND);
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
bw_way_card_new (const BwWay *way)
{
  BwWayCard *self = g_object_new (BW_TYPE_WAY_CARD, NULL);
  self->way = *way;
  bw_shelf_stand_set (self->stand, BW_STAND_WAITS, NULL, WHOLE_MM);
  say (self, NULL);
  return GTK_WIDGET (self);
}
