/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Buttons for the window's own commands; only the kit sheet has a number to tell. */
#include "config.h"

#include "app/make/make-cards.h"

#include <glib/gi18n-lib.h>

struct _BwPrintCard {
  BwCard parent_instance;
  GtkButton *kit;
};

G_DEFINE_FINAL_TYPE (BwPrintCard, bw_print_card, BW_TYPE_CARD)

static void
bw_print_card_refresh (BwCard *card)
{
  int pieces = bw_card_get_design (card)->supply.pieces;
  g_autofree char *words
      = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "_Kit Sheet for %d Piece…",
                                      "_Kit Sheet for %d Pieces…", (gulong)pieces),
                         pieces);
  bw_card_set_words (BW_PRINT_CARD (card)->kit, words);
}

static void
bw_print_card_class_init (BwPrintCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  BW_CARD_CLASS (klass)->refresh = bw_print_card_refresh;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/print-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwPrintCard, kit);
}

static void
bw_print_card_init (BwPrintCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
