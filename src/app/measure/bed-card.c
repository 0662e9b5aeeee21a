/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bed fields are the template's; this file tells what they come to. */
#include "config.h"

#include "app/kit/words.h"
#include "output/report/give-words.h"
#include "app/measure/measure-cards.h"
#include "app/measure/squeeze-dialog.h"

#include <glib/gi18n-lib.h>

struct _BwBedCard {
  BwCard parent_instance;
  GtkLabel *result;
};

G_DEFINE_FINAL_TYPE (BwBedCard, bw_bed_card, BW_TYPE_CARD)

static void
bw_bed_card_refresh (BwCard *card)
{
  BwBedCard *self = BW_BED_CARD (card);
  const BwDesign *design = bw_card_get_design (card);
  const BwStone *stone = bw_project_stone (bw_card_get_project (card));
  BwBandSpan span = bw_design_span (design);
  BwBedding bedding;
  if (!bw_bedding_init (&bedding, &design->bed, stone, span, NULL))
    return;
  double z = bw_band_span_mid (span);
  g_autofree char *thick = bw_card_length (bw_bedding_thickness (&bedding, z), 2);
  g_autofree char *squeezed = bw_card_length (bw_bedding_squeezed (&bedding, z), 2);
  g_autofree char *cord = bw_card_length (bw_bed_cord_mm (&design->bed, stone, span), 0);
  g_autofree char *text = g_strdup_printf (
      _ ("%s thick at the band’s middle, %s under the closed band. Cord to cut: %s."), thick,
      squeezed, cord);
  g_autofree char *learnt = bw_give_words_learnt (design);
  g_autofree char *all = learnt ? g_strconcat (text, " ", learnt, NULL) : NULL;
  bw_label_set_words (self->result, all ? all : text);
}

static void
squeeze_clicked (BwBedCard *self)
{
  bw_squeeze_dialog_show (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))),
                          bw_card_get_draft (BW_CARD (self)));
}

static void
bw_bed_card_class_init (BwBedCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  BW_CARD_CLASS (klass)->refresh = bw_bed_card_refresh;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/bed-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwBedCard, result);
  gtk_widget_class_bind_template_callback (widget_class, squeeze_clicked);
}

static void
bw_bed_card_init (BwBedCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
