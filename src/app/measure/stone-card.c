/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Mineral and density. A mineral of the table brings its density along. */
#include "config.h"

#include "output/sheet/minerals.h"
#include "app/form/typed.h"
#include "app/kit/put-text.h"
#include "app/kit/words.h"
#include "app/measure/measure-cards.h"

#include <glib/gi18n-lib.h>

struct _BwStoneCard {
  BwCard parent_instance;
  GtkEntry *mineral;
  GtkMenuButton *known;
  GtkLabel *result;
};

G_DEFINE_FINAL_TYPE (BwStoneCard, bw_stone_card, BW_TYPE_CARD)

static void
show_text (GtkEntry *entry, const char *text)
{
  if (g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (entry)), text) != 0)
    bw_put_text (GTK_EDITABLE (entry), text);
}

static void
bw_stone_card_refresh (BwCard *card)
{
  BwStoneCard *self = BW_STONE_CARD (card);
  BwProject *project = bw_card_get_project (card);
  const BwStone *stone = bw_project_stone (project);
  g_autofree char *result
      = g_strdup_printf (_ ("%.1f cm³, %.1f g"), stone->volume_mm3 / 1000, stone->mass_g);
  show_text (self->mineral, bw_project_get_mineral (project));
  bw_label_set_words (self->result, result);
}

/* Name and density of a mineral are one step. */
static void
set_mineral (BwStoneCard *self, const char *name)
{
  BwProject *project = bw_card_get_project (BW_CARD (self));
  const BwMineral *mineral = bw_mineral_find (name);
  BwDesign design = *bw_project_get_design (project);
  bw_draft_settle (bw_card_get_draft (BW_CARD (self)));
  bw_project_begin (project, _ ("Mineral"));
  bw_project_set_mineral (project, "", name);
  if (mineral && mineral->density_g_cm3 > 0) {
    design.stone.density_g_cm3 = mineral->density_g_cm3;
    bw_project_set_design (project, "", &design, NULL);
  }
  bw_project_commit (project);
}

static void
mineral_typed (BwStoneCard *self)
{
  BwProject *project = bw_card_get_project (BW_CARD (self));
  const char *name = gtk_editable_get_text (GTK_EDITABLE (self->mineral));
  if (project && g_strcmp0 (name, bw_project_get_mineral (project)) != 0)
    set_mineral (self, name);
}

static void
mineral_chosen (GtkWidget *widget, const char *action, GVariant *parameter)
{
  set_mineral (BW_STONE_CARD (widget), g_variant_get_string (parameter, NULL));
}

static void
fill_known (BwStoneCard *self)
{
  g_autoptr (GMenu) menu = g_menu_new ();
  int n;
  const BwMineral *minerals = bw_minerals (&n);
  for (int i = 0; i < n; i++) {
    g_autoptr (GMenuItem) item = g_menu_item_new (_ (minerals[i].name), NULL);
    g_menu_item_set_action_and_target (item, "mineral.choose", "s", minerals[i].name);
    if (minerals[i].density_g_cm3 > 0)
      g_menu_append_item (menu, item);
  }
  gtk_menu_button_set_menu_model (self->known, G_MENU_MODEL (menu));
}

static void
take_typed (GtkWidget *widget, const char *action, GVariant *parameter)
{
  mineral_typed (BW_STONE_CARD (widget));
}

static void
bw_stone_card_class_init (BwStoneCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  BW_CARD_CLASS (klass)->refresh = bw_stone_card_refresh;
  gtk_widget_class_install_action (widget_class, BW_TYPED_ACTION, NULL, take_typed);
  gtk_widget_class_install_action (widget_class, "mineral.choose", "s", mineral_chosen);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/stone-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwStoneCard, mineral);
  gtk_widget_class_bind_template_child (widget_class, BwStoneCard, known);
  gtk_widget_class_bind_template_child (widget_class, BwStoneCard, result);
  gtk_widget_class_bind_template_callback (widget_class, mineral_typed);
}

static void
bw_stone_card_init (BwStoneCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  fill_known (self);
}
