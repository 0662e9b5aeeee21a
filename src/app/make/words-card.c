/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The words are written anew only when they differ, so that reading is not thrown back to the top.
 */
#include "config.h"

#include "app/kit/settings.h"
#include "app/make/make-cards.h"
#include "output/report/report.h"
#include "project/document/units.h"

struct _BwWordsCard {
  BwCard parent_instance;
  GtkTextView *view;
  char *shown;
};

G_DEFINE_FINAL_TYPE (BwWordsCard, bw_words_card, BW_TYPE_CARD)

static void
bw_words_card_refresh (BwCard *card)
{
  BwWordsCard *self = BW_WORDS_CARD (card);
  g_autofree char *plain
      = bw_words_flowing (bw_card_get_project (card), bw_settings_get_unit (bw_settings_get ()));
  g_autofree char *words = bw_units_kept (plain);
  if (g_strcmp0 (words, self->shown) == 0)
    return;
  gtk_text_buffer_set_text (gtk_text_view_get_buffer (self->view), words, -1);
  g_free (self->shown);
  self->shown = g_steal_pointer (&words);
}

static void
bw_words_card_finalize (GObject *object)
{
  g_free (BW_WORDS_CARD (object)->shown);
  G_OBJECT_CLASS (bw_words_card_parent_class)->finalize (object);
}

static void
bw_words_card_class_init (BwWordsCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->finalize = bw_words_card_finalize;
  BW_CARD_CLASS (klass)->refresh = bw_words_card_refresh;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/words-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwWordsCard, view);
}

static void
bw_words_card_init (BwWordsCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
