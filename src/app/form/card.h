/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A card: one matter of a stage, with its fields and what follows from them. Subclasses bring a
 * template and say how they show the project; the card binds the fields below it, follows the
 * project, and shows anew only while somebody can see it. */
#pragma once

#include "app/form/draft.h"
#include <gtk/gtk.h>

#define BW_TYPE_CARD (bw_card_get_type ())
G_DECLARE_DERIVABLE_TYPE (BwCard, bw_card, BW, CARD, GtkWidget)

struct _BwCardClass {
  GtkWidgetClass parent_class;
  /* Shows the project. Changes of controls made in here are not the maker's:
   * bw_card_is_refreshing() is TRUE. May be NULL. */
  void (*refresh) (BwCard *self);
};

/* Binds every card and every field entry below (and with) root. */
void bw_cards_bind (GtkWidget *root, BwDraft *draft);

BwDraft *bw_card_get_draft (BwCard *self);     /* borrowed; NULL before it is bound */
BwProject *bw_card_get_project (BwCard *self); /* borrowed */
const BwDesign *bw_card_get_design (BwCard *self);
gboolean bw_card_is_refreshing (BwCard *self);
void bw_card_refresh (BwCard *self);
/* Sets a design as one step; where that cannot be the card is shown anew, and says why until the
 * project changes. */
gboolean bw_card_apply (BwCard *self, const char *label, const BwDesign *design);

/* A length in the preferred unit. Owned. */
char *bw_card_length (double mm, int decimals);

/* Words on a button that may break over several lines, with a mnemonic. */
void bw_card_set_words (GtkButton *button, const char *words);
