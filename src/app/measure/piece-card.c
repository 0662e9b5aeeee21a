/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the piece is called. */
#include "config.h"

#include "app/form/typed.h"
#include "app/kit/put-text.h"
#include "app/measure/measure-cards.h"

#include <glib/gi18n-lib.h>

struct _BwPieceCard {
  BwCard parent_instance;
  GtkEntry *title;
};

G_DEFINE_FINAL_TYPE (BwPieceCard, bw_piece_card, BW_TYPE_CARD)

static void
bw_piece_card_refresh (BwCard *card)
{
  GtkEditable *title = GTK_EDITABLE (BW_PIECE_CARD (card)->title);
  const char *text = bw_project_get_title (bw_card_get_project (card));
  if (g_strcmp0 (gtk_editable_get_text (title), text) != 0)
    bw_put_text (title, text);
}

static void
title_typed (BwPieceCard *self)
{
  BwProject *project = bw_card_get_project (BW_CARD (self));
  const char *title = gtk_editable_get_text (GTK_EDITABLE (self->title));
  if (project && g_strcmp0 (title, bw_project_get_title (project)) != 0)
    bw_project_set_title (project, _ ("Title"), title);
}

static void
take_typed (GtkWidget *widget, const char *action, GVariant *parameter)
{
  title_typed (BW_PIECE_CARD (widget));
}

static void
bw_piece_card_class_init (BwPieceCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  BW_CARD_CLASS (klass)->refresh = bw_piece_card_refresh;
  gtk_widget_class_install_action (widget_class, BW_TYPED_ACTION, NULL, take_typed);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/piece-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwPieceCard, title);
  gtk_widget_class_bind_template_callback (widget_class, title_typed);
}

static void
bw_piece_card_init (BwPieceCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
