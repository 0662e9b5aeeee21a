/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The forecast on the Measure stage. */
#include "config.h"

#include "app/fit/chance-bars.h"
#include "app/kit/words.h"
#include "app/measure/measure-cards.h"
#include "app/fit/sure-words.h"

#include "output/report/fit-sentence.h"

#include <glib/gi18n-lib.h>

struct _BwSureCard {
  BwCard parent_instance;
  BwChanceBars *bars;
  GtkLabel *words;
  GtkLabel *try_on;
};

G_DEFINE_FINAL_TYPE (BwSureCard, bw_sure_card, BW_TYPE_CARD)

static char *
try_on_words (int row, int rows_done)
{
  if (rows_done >= row)
    return g_strdup (_ ("Try the strip on now, then at every second row."));
  return g_strdup_printf (_ ("Try the strip on at row %d, then at every second row."), row);
}

static void
bw_sure_card_refresh (BwCard *card)
{
  BwSureCard *self = BW_SURE_CARD (card);
  BwProject *project = bw_card_get_project (card);
  const BwForecast *forecast = bw_project_forecast (project);
  const BwDesign *design = bw_project_get_design (project);
  int row = forecast->try_on_row, done = bw_project_get_rows_done (project);
  gboolean woven = done >= design->band.rows;
  g_autofree char *words
      = woven ? bw_fit_words_woven (design->band.rows)
              : bw_sure_words_helps (design, bw_project_stone (project), row, done);
  g_autofree char *try_on = try_on_words (row, done);
  bw_chance_bars_set (self->bars, forecast, design->band.rows);
  bw_label_set_words (self->words, words);
  bw_label_set_words (self->try_on, try_on);
  gtk_widget_set_visible (GTK_WIDGET (self->try_on), !woven);
}

static void
bw_sure_card_class_init (BwSureCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  BW_CARD_CLASS (klass)->refresh = bw_sure_card_refresh;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/sure-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwSureCard, bars);
  gtk_widget_class_bind_template_child (widget_class, BwSureCard, words);
  gtk_widget_class_bind_template_child (widget_class, BwSureCard, try_on);
}

static void
bw_sure_card_init (BwSureCard *self)
{
  g_type_ensure (BW_TYPE_CHANCE_BARS);
  gtk_widget_init_template (GTK_WIDGET (self));
}
