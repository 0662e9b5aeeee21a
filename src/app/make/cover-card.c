/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The texts of the cover. Each is a line of its own; one that is left empty is left out there. */
#include "config.h"

#include "app/form/typed.h"
#include "app/make/make-cards.h"
#include "project/document/line.h"

#include <glib/gi18n-lib.h>

struct _BwCoverCard {
  BwCard parent_instance;
  GtkGrid *grid;
  GtkEntry *entry[BW_N_ABOUT];
};

G_DEFINE_FINAL_TYPE (BwCoverCard, bw_cover_card, BW_TYPE_CARD)

static void
bw_cover_card_refresh (BwCard *card)
{
  BwCoverCard *self = BW_COVER_CARD (card);
  for (BwAbout about = 0; about < BW_N_ABOUT; about++) {
    GtkEditable *entry = GTK_EDITABLE (self->entry[about]);
    const char *words = bw_project_get_about (bw_card_get_project (card), about);
    if (!g_str_equal (gtk_editable_get_text (entry), words))
      gtk_editable_set_text (entry, words);
  }
}

static void
take (BwCoverCard *self, BwAbout about)
{
  const char *typed = gtk_editable_get_text (GTK_EDITABLE (self->entry[about]));
  BwProject *project = bw_card_get_project (BW_CARD (self));
  if (bw_card_is_refreshing (BW_CARD (self)) || !project
      || g_str_equal (typed, bw_project_get_about (project, about)))
    return;
  bw_project_set_about (project, bw_about_name (about), about, typed);
}

static void
take_all (BwCoverCard *self)
{
  for (BwAbout about = 0; about < BW_N_ABOUT; about++)
    take (self, about);
}

static void
take_typed (GtkWidget *widget, const char *action, GVariant *parameter)
{
  take_all (BW_COVER_CARD (widget));
}

static const char *
hint_of (BwAbout about)
{
  switch (about) {
  case BW_ABOUT_LICENCE:
    return _ ("what others may do with it");
  case BW_ABOUT_SKILL:
    return _ ("what one should have done before");
  case BW_ABOUT_HOURS:
    return _ ("as you would tell a buyer of the pattern");
  default:
    return "";
  }
}

static void
add_line (BwCoverCard *self, BwAbout about)
{
  GtkWidget *name = gtk_label_new (bw_about_name (about)), *entry = gtk_entry_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();
  gtk_label_set_xalign (GTK_LABEL (name), 0);
  gtk_widget_set_hexpand (entry, TRUE);
  gtk_entry_set_max_length (GTK_ENTRY (entry), BW_LINE_MAX);
  gtk_editable_set_width_chars (GTK_EDITABLE (entry), 8);
  gtk_entry_set_placeholder_text (GTK_ENTRY (entry), hint_of (about));
  gtk_accessible_update_relation (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_RELATION_LABELLED_BY, name,
                                  NULL, -1);
  g_signal_connect_swapped (entry, "activate", G_CALLBACK (take_all), self);
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (take_all), self);
  gtk_widget_add_controller (entry, focus);
  gtk_grid_attach (self->grid, name, 0, (int)about, 1, 1);
  gtk_grid_attach (self->grid, entry, 1, (int)about, 1, 1);
  self->entry[about] = GTK_ENTRY (entry);
}

static void
bw_cover_card_class_init (BwCoverCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  BW_CARD_CLASS (klass)->refresh = bw_cover_card_refresh;
  gtk_widget_class_install_action (widget_class, BW_TYPED_ACTION, NULL, take_typed);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/cover-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwCoverCard, grid);
}

static void
bw_cover_card_init (BwCoverCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  for (BwAbout about = 0; about < BW_N_ABOUT; about++)
    add_line (self, about);
}
