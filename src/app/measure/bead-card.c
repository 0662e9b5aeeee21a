/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A size from the table brings its own gauge: a gauge or swatch of other beads says nothing about
 * these. */
#include "config.h"

#include "app/keep/workbook.h"
#include "app/kit/long-list.h"
#include "app/kit/words.h"
#include "app/measure/measure-cards.h"
#include "app/measure/swatch-dialog.h"
#include "project/file/sizes.h"

#include <glib/gi18n-lib.h>
#include <string.h>

struct _BwBeadCard {
  BwCard parent_instance;
  GArray *sizes; /* of BwBead */
  GtkDropDown *size;
  GtkLabel *gauge;
  GtkButton *swatch;
  gboolean filling; /* the list changes, not the maker's mind */
};

G_DEFINE_FINAL_TYPE (BwBeadCard, bw_bead_card, BW_TYPE_CARD)

/* The size's place in the list; the one after the last is "another size". */
static guint
index_of (BwBeadCard *self, const char *name)
{
  for (guint i = 0; i < self->sizes->len; i++)
    if (g_str_equal (g_array_index (self->sizes, BwBead, i).name, name))
      return i;
  return self->sizes->len;
}

static char *
gauge_words (BwBeadCard *self)
{
  const BwDesign *design = bw_card_get_design (BW_CARD (self));
  int n_checks;
  bw_project_get_checks (bw_card_get_project (BW_CARD (self)), &n_checks);
  g_autofree char *pitch = bw_card_length (design->pitch.mm, 3);
  g_autofree char *sd = bw_card_length (design->pitch.sd_mm, 3);
  if (!design->gauge.has_swatch && n_checks == 0 && design->gauge.has_hands)
    return g_strdup_printf (
        _ ("Your hands make it %s ± %s from bead to bead, by the pieces you have "
           "woven. A swatch makes it surer."),
        pitch, sd);
  if (!design->gauge.has_swatch && n_checks == 0
      && bw_project_get_rows_done (bw_card_get_project (BW_CARD (self))) >= design->band.rows)
    return g_strdup_printf (_ ("%s is the bead’s size, not your hands’."), pitch);
  if (!design->gauge.has_swatch && n_checks == 0)
    return g_strdup_printf (_ ("%s is the bead’s size, not your hands’: weave a swatch."), pitch);
  const char *from = !design->gauge.has_swatch ? _ ("strip lengths")
                     : n_checks > 0            ? _ ("a swatch and strip lengths")
                                               : _ ("a swatch");
  return g_strdup_printf (_ ("The fit counts on %s ± %s from bead to bead, by %s."), pitch, sd,
                          from);
}

static void
bw_bead_card_refresh (BwCard *card)
{
  BwBeadCard *self = BW_BEAD_CARD (card);
  const BwDesign *design = bw_card_get_design (card);
  g_autofree char *words = gauge_words (self);
  gtk_drop_down_set_selected (self->size, index_of (self, design->bead.name));
  bw_label_set_words (self->gauge, words);
  bw_card_set_words (self->swatch,
                     design->gauge.has_swatch ? _ ("_Swatch…") : _ ("Measure a _Swatch…"));
}

static void
size_chosen (BwBeadCard *self)
{
  guint i = gtk_drop_down_get_selected (self->size);
  if (self->filling || bw_card_is_refreshing (BW_CARD (self)))
    return;
  BwDesign design = *bw_card_get_design (BW_CARD (self));
  if (i == index_of (self, design.bead.name))
    return;
  if (i >= self->sizes->len) {
    bw_bead_set_name (&design.bead, "");
  } else {
    design.bead = g_array_index (self->sizes, BwBead, i);
    design.gauge = bw_workbook_gauge (bw_workbook_get (), &design.bead);
    bw_workbook_price (bw_workbook_get (), &design.bead, &design.supply);
  }
  bw_card_apply (BW_CARD (self), _ ("Bead size"), &design);
}

static void
swatch_clicked (BwBeadCard *self)
{
  bw_swatch_dialog_show (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))),
                         bw_card_get_draft (BW_CARD (self)));
}

static void
fill_sizes (BwBeadCard *self)
{
  g_autofree char *warning = NULL;
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  g_clear_pointer (&self->sizes, g_array_unref);
  self->sizes = bw_sizes_load (&warning);
  for (guint i = 0; i < self->sizes->len; i++)
    gtk_string_list_append (names, g_array_index (self->sizes, BwBead, i).name);
  gtk_string_list_append (names, _ ("another size"));
  self->filling = TRUE;
  bw_long_list_fill (self->size, names);
  self->filling = FALSE;
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->size), warning);
}

static gboolean
has_other_sizes (BwBeadCard *self)
{
  g_autoptr (GArray) now = bw_sizes_load (NULL);
  return now->len != self->sizes->len
         || memcmp (now->data, self->sizes->data, now->len * sizeof (BwBead)) != 0;
}

/* The book's own kinds come and go while the card is there. */
static void
book_changed (BwBeadCard *self)
{
  if (!has_other_sizes (self))
    return;
  fill_sizes (self);
  if (bw_card_get_project (BW_CARD (self)))
    bw_card_refresh (BW_CARD (self));
}

static void
bw_bead_card_finalize (GObject *object)
{
  g_clear_pointer (&BW_BEAD_CARD (object)->sizes, g_array_unref);
  G_OBJECT_CLASS (bw_bead_card_parent_class)->finalize (object);
}

static void
bw_bead_card_class_init (BwBeadCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->finalize = bw_bead_card_finalize;
  BW_CARD_CLASS (klass)->refresh = bw_bead_card_refresh;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/bead-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwBeadCard, size);
  gtk_widget_class_bind_template_child (widget_class, BwBeadCard, gauge);
  gtk_widget_class_bind_template_child (widget_class, BwBeadCard, swatch);
  gtk_widget_class_bind_template_callback (widget_class, size_chosen);
  gtk_widget_class_bind_template_callback (widget_class, swatch_clicked);
}

static void
bw_bead_card_init (BwBeadCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  fill_sizes (self);
  g_signal_connect_object (bw_workbook_get (), "changed", G_CALLBACK (book_changed), self,
                           G_CONNECT_SWAPPED);
}
