/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Size and place of the band, with the two places a maker asks for most: the middle of the prism
 * and the recommended rows. */
#include "config.h"

#include "app/kit/words.h"
#include "app/measure/measure-cards.h"

#include "app/kit/settings.h"

#include <glib/gi18n-lib.h>

struct _BwBandCard {
  BwCard parent_instance;
  GtkLabel *result;
  GtkLabel *warnings;
  GtkButton *recommended;
};

G_DEFINE_FINAL_TYPE (BwBandCard, bw_band_card, BW_TYPE_CARD)

static void
show_warnings (BwBandCard *self)
{
  BwProject *project = bw_card_get_project (BW_CARD (self));
  g_auto (GStrv) warnings = bw_project_warnings_about (project, BW_TOPIC_FIT | BW_TOPIC_STONE,
                                                       bw_settings_get_unit (bw_settings_get ()));
  g_autofree char *text = g_strjoinv ("\n", warnings);
  bw_label_set_words (self->warnings, text);
  gtk_widget_set_visible (GTK_WIDGET (self->warnings), *text != '\0');
}

static void
bw_band_card_refresh (BwCard *card)
{
  BwBandCard *self = BW_BAND_CARD (card);
  BwProject *project = bw_card_get_project (card);
  const BwDesign *design = bw_project_get_design (project);
  int rows = 2 * bw_project_forecast (project)->recommended;
  BwBandSpan span = bw_design_span (design);
  g_autofree char *width = bw_card_length (span.width_mm, 1);
  g_autofree char *length = bw_card_length ((design->band.rows + 1) / 2.0 * design->pitch.mm, 1);
  g_autofree char *text = g_strdup_printf (_ ("%s wide, the flat strip %s long."), width, length);
  g_autofree char *button = g_strdup_printf (_ ("Use the _recommended %d rows"), rows);
  bw_label_set_words (self->result, text);
  bw_card_set_words (self->recommended, button);
  gtk_widget_set_sensitive (GTK_WIDGET (self->recommended), rows != design->band.rows);
  show_warnings (self);
}

static void
centre_clicked (BwBandCard *self)
{
  BwDesign design = *bw_card_get_design (BW_CARD (self));
  const BwStone *stone = bw_project_stone (bw_card_get_project (BW_CARD (self)));
  design.band.bottom_mm = bw_design_centred_bottom (&design, stone);
  bw_card_apply (BW_CARD (self), _ ("Centre the band"), &design);
}

static void
recommended_clicked (BwBandCard *self)
{
  BwDesign design = *bw_card_get_design (BW_CARD (self));
  design.band.rows = 2 * bw_project_forecast (bw_card_get_project (BW_CARD (self)))->recommended;
  bw_card_apply (BW_CARD (self), _ ("Recommended rows"), &design);
}

static void
bw_band_card_class_init (BwBandCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  BW_CARD_CLASS (klass)->refresh = bw_band_card_refresh;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/band-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwBandCard, result);
  gtk_widget_class_bind_template_child (widget_class, BwBandCard, warnings);
  gtk_widget_class_bind_template_child (widget_class, BwBandCard, recommended);
  gtk_widget_class_bind_template_callback (widget_class, centre_clicked);
  gtk_widget_class_bind_template_callback (widget_class, recommended_clicked);
}

static void
bw_band_card_init (BwBandCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
