/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How well the section is known. Values that are too many to lie on the sheet are listed here. */
#include "config.h"

#include "app/form/field-entry.h"
#include "app/kit/words.h"
#include "app/form/measures.h"
#include "app/measure/measure-cards.h"
#include "app/measure/sheet-plan.h"

#include <glib/gi18n-lib.h>

struct _BwSectionCard {
  BwCard parent_instance;
  GtkBox *values;
  GtkLabel *closing;
};

G_DEFINE_FINAL_TYPE (BwSectionCard, bw_section_card, BW_TYPE_CARD)

static int
count_children (GtkWidget *widget)
{
  int n = 0;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child;
       child = gtk_widget_get_next_sibling (child))
    n++;
  return n;
}

/* Entries stay where they are as long as they are wanted, so that the one being typed in keeps what
 * is typed. */
static void
show_values (BwSectionCard *self, const BwStoneMeasures *stone)
{
  int all = bw_stone_value_count (stone->measured, stone->faces);
  int wanted = all > BW_SHEET_VALUES_MOST ? all : 0;
  int have = count_children (GTK_WIDGET (self->values));
  for (; have < wanted; have++) {
    g_autofree char *pointer = g_strdup_printf ("/stone/values_mm/%d", have);
    GtkWidget *entry = bw_field_entry_new (pointer);
    gtk_box_append (self->values, entry);
    bw_field_entry_bind (BW_FIELD_ENTRY (entry), bw_card_get_draft (BW_CARD (self)));
  }
  for (; have > wanted; have--)
    gtk_box_remove (self->values, gtk_widget_get_last_child (GTK_WIDGET (self->values)));
  GtkWidget *entry = gtk_widget_get_first_child (GTK_WIDGET (self->values));
  for (int i = 0; i < wanted; i++, entry = gtk_widget_get_next_sibling (entry)) {
    g_autofree char *title = bw_value_title (stone, i);
    bw_field_entry_set_title (BW_FIELD_ENTRY (entry), title);
  }
}

static void
show_closing (BwSectionCard *self)
{
  const BwStone *stone = bw_project_stone (bw_card_get_project (BW_CARD (self)));
  gboolean widths = bw_card_get_design (BW_CARD (self))->stone.measured == BW_MEASURED_FACE_WIDTHS;
  gtk_widget_set_visible (GTK_WIDGET (self->closing), widths);
  if (!widths)
    return;
  g_autofree char *error = bw_card_length (stone->closing_error_mm, 2);
  double share = 100 * stone->closing_error_mm / stone->girth_mm;
  g_autofree char *text
      = stone->closing_error_large
            ? g_strdup_printf (
                _ ("The widths miss each other by %s, %.1f %% of the girth. Measure "
                   "again; if the corners are not alike, measure the girth instead."),
                error, share)
            : g_strdup_printf (_ ("The widths meet to within %s, %.1f %% of the girth."), error,
                               share);
  bw_label_set_words (self->closing, text);
  if (stone->closing_error_large)
    gtk_widget_add_css_class (GTK_WIDGET (self->closing), "reason");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->closing), "reason");
}

static void
bw_section_card_refresh (BwCard *card)
{
  BwSectionCard *self = BW_SECTION_CARD (card);
  const BwStoneMeasures *stone = &bw_card_get_design (card)->stone;
  show_values (self, stone);
  show_closing (self);
}

static void
bw_section_card_class_init (BwSectionCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  BW_CARD_CLASS (klass)->refresh = bw_section_card_refresh;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/section-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwSectionCard, values);
  gtk_widget_class_bind_template_child (widget_class, BwSectionCard, closing);
}

static void
bw_section_card_init (BwSectionCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
