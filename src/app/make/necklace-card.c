/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A length from the list is a start; whoever has measured a neck types it. */
#include "config.h"

#include "app/make/make-cards.h"
#include "project/document/filled.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Choker 14 to 16 in, princess 18, matinee 20 to 24, opera 28 to 32, rope over 32: International
 * Gem Society, bead and necklace size charts. */
static const struct {
  const char *name;
  double inches;
} lengths[] = {
  { N_ ("choker, %s"), 16 },  { N_ ("princess, %s"), 18 }, { N_ ("matinee, %s"), 20 },
  { N_ ("matinee, %s"), 24 }, { N_ ("opera, %s"), 30 },    { N_ ("rope, %s"), 36 },
};

struct _BwNecklaceCard {
  BwCard parent_instance;
  GtkDropDown *length;
  GtkDropDown *closing;
  GtkWidget *fields;
  GtkWidget *nothing;
  GtkStringList *names;
};

G_DEFINE_FINAL_TYPE (BwNecklaceCard, bw_necklace_card, BW_TYPE_CARD)

static char *
name_of (gsize i)
{
  g_autofree char *length = bw_card_length (lengths[i].inches * 25.4, 0);
  return bw_filled (_ (lengths[i].name), length);
}

/* Written anew where the unit has changed. */
static void
show_names (BwNecklaceCard *self)
{
  g_autofree char *first = name_of (0);
  if (g_strcmp0 (gtk_string_list_get_string (self->names, 0), first) == 0)
    return;
  guint old = g_list_model_get_n_items (G_LIST_MODEL (self->names));
  gtk_string_list_splice (self->names, 0, old, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (lengths); i++)
    gtk_string_list_take (self->names, name_of (i));
  gtk_string_list_append (self->names, _ ("another length"));
}

/* The one in the list that is this long; behind the list when none is. */
static guint
length_in_list (double mm)
{
  for (guint i = 0; i < G_N_ELEMENTS (lengths); i++)
    if (fabs (lengths[i].inches * 25.4 - mm) < 0.6)
      return i;
  return G_N_ELEMENTS (lengths);
}

static void
bw_necklace_card_refresh (BwCard *card)
{
  BwNecklaceCard *self = BW_NECKLACE_CARD (card);
  const BwDesign *design = bw_card_get_design (card);
  gboolean hangs = design->bail.style != BW_BAIL_NONE;
  show_names (self);
  gtk_widget_set_visible (self->fields, hangs);
  gtk_widget_set_visible (self->nothing, !hangs);
  gtk_drop_down_set_selected (self->length, length_in_list (design->supply.neck_mm));
  gtk_drop_down_set_selected (self->closing, design->supply.closing);
}

static void
length_chosen (BwNecklaceCard *self)
{
  guint chosen = gtk_drop_down_get_selected (self->length);
  if (bw_card_is_refreshing (BW_CARD (self)) || chosen >= G_N_ELEMENTS (lengths))
    return;
  BwDesign design = *bw_card_get_design (BW_CARD (self));
  if (length_in_list (design.supply.neck_mm) == chosen)
    return;
  bw_draft_forget (bw_card_get_draft (BW_CARD (self)), "/materials/neck_mm");
  design.supply.neck_mm = lengths[chosen].inches * 25.4;
  bw_card_apply (BW_CARD (self), _ ("Length of the necklace"), &design);
}

static void
closing_chosen (BwNecklaceCard *self)
{
  BwClosing chosen = (BwClosing)gtk_drop_down_get_selected (self->closing);
  if (bw_card_is_refreshing (BW_CARD (self)))
    return;
  BwDesign design = *bw_card_get_design (BW_CARD (self));
  if (design.supply.closing == chosen)
    return;
  bw_draft_forget (bw_card_get_draft (BW_CARD (self)), "/materials/closing_mm");
  design.supply.closing = chosen;
  design.supply.closing_mm = bw_closing_usual_mm (chosen);
  bw_card_apply (BW_CARD (self), _ ("Closing of the necklace"), &design);
}

static void
bw_necklace_card_class_init (BwNecklaceCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  BW_CARD_CLASS (klass)->refresh = bw_necklace_card_refresh;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/necklace-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwNecklaceCard, length);
  gtk_widget_class_bind_template_child (widget_class, BwNecklaceCard, closing);
  gtk_widget_class_bind_template_child (widget_class, BwNecklaceCard, fields);
  gtk_widget_class_bind_template_child (widget_class, BwNecklaceCard, nothing);
  gtk_widget_class_bind_template_child (widget_class, BwNecklaceCard, names);
  gtk_widget_class_bind_template_callback (widget_class, length_chosen);
  gtk_widget_class_bind_template_callback (widget_class, closing_chosen);
}

static void
bw_necklace_card_init (BwNecklaceCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
