/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One entry for each value the way of measuring wants, no more and no fewer. */
#include "config.h"

#include "app/form/field-entry.h"
#include "app/form/measures.h"
#include "app/kit/words.h"
#include "app/measure/measure-cards.h"

#include <glib/gi18n-lib.h>

struct _BwSectionCard {
  BwCard parent_instance;
  GtkDropDown *way;
  GtkLabel *reason;
  GtkBox *values;
  GtkLabel *closing;
  GtkCheckButton *tapered;
  GtkWidget *second;
};

G_DEFINE_FINAL_TYPE (BwSectionCard, bw_section_card, BW_TYPE_CARD)

static char *
value_title (const BwStoneMeasures *stone, int i)
{
  switch (stone->measured) {
  case BW_MEASURED_ACROSS_FLATS:
    return g_strdup_printf (_ ("Across faces %d and %d"), i + 1, i + 1 + stone->faces / 2);
  case BW_MEASURED_FACE_WIDTHS:
    return g_strdup_printf (_ ("Width of face %d"), i + 1);
  case BW_MEASURED_GIRTH:
  default:
    return g_strdup (_ ("Girth by paper strip"));
  }
}

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
  int wanted = bw_stone_value_count (stone->measured, stone->faces);
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
    g_autofree char *title = value_title (stone, i);
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
  gtk_drop_down_set_selected (self->way, stone->measured);
  gtk_widget_set_visible (GTK_WIDGET (self->reason), FALSE);
  gtk_check_button_set_active (self->tapered, stone->has_second);
  gtk_widget_set_visible (self->second, stone->has_second);
  show_values (self, stone);
  show_closing (self);
}

static void
way_chosen (BwSectionCard *self)
{
  if (bw_card_is_refreshing (BW_CARD (self)))
    return;
  BwDesign design = *bw_card_get_design (BW_CARD (self));
  BwMeasured way = (BwMeasured)gtk_drop_down_get_selected (self->way);
  if (way == design.stone.measured)
    return;
  if (bw_measures_set_way (&design.stone, way)) {
    bw_card_apply (BW_CARD (self), _ ("Way of measuring"), &design);
    return;
  }
  bw_card_refresh (BW_CARD (self));
  gtk_widget_set_visible (GTK_WIDGET (self->reason), TRUE);
}

static void
taper_toggled (BwSectionCard *self)
{
  if (bw_card_is_refreshing (BW_CARD (self)))
    return;
  BwDesign design = *bw_card_get_design (BW_CARD (self));
  bw_measures_set_taper (&design.stone, gtk_check_button_get_active (self->tapered));
  bw_card_apply (BW_CARD (self), _ ("Taper"), &design);
}

static void
bw_section_card_class_init (BwSectionCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  BW_CARD_CLASS (klass)->refresh = bw_section_card_refresh;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/section-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwSectionCard, way);
  gtk_widget_class_bind_template_child (widget_class, BwSectionCard, reason);
  gtk_widget_class_bind_template_child (widget_class, BwSectionCard, values);
  gtk_widget_class_bind_template_child (widget_class, BwSectionCard, closing);
  gtk_widget_class_bind_template_child (widget_class, BwSectionCard, tapered);
  gtk_widget_class_bind_template_child (widget_class, BwSectionCard, second);
  gtk_widget_class_bind_template_callback (widget_class, way_chosen);
  gtk_widget_class_bind_template_callback (widget_class, taper_toggled);
}

static void
bw_section_card_init (BwSectionCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
