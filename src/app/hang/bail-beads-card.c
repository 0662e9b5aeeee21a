/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The strip takes the colour in hand from the session, as the band on the Draw stage does; the
 * colours here are that same choice, so that nobody has to change stages to take another. */
#include "config.h"

#include "app/hang/hang-cards.h"
#include "app/kit/bead-swatch.h"
#include "app/kit/tip.h"
#include "app/kit/tray-row.h"
#include "editor/bail/bail-strip.h"

#include <glib/gi18n-lib.h>
#include <string.h>

struct _BwBailBeadsCard {
  BwCard parent_instance;
  BwSession *session;
  BwBailStrip *strip;
  GtkBox *place;
  GtkLabel *status;
  GtkFlowBox *colours;
  BwTray shown; /* the tray the swatches were made for */
  gboolean choosing;
};

G_DEFINE_FINAL_TYPE (BwBailBeadsCard, bw_bail_beads_card, BW_TYPE_CARD)

static void
show_status (BwBailBeadsCard *self, const char *words)
{
  gtk_label_set_text (self->status, words && *words ? words
                                                    : _ ("Lay beads, or pick a colour up "
                                                         "with the right button"));
}

static GtkWidget *
swatch_of (const BwColour *colour)
{
  GtkWidget *child = gtk_flow_box_child_new (), *bead = bw_bead_swatch_new ();
  g_autofree char *words = bw_colour_words (colour);
  bw_bead_swatch_set_colour (BW_BEAD_SWATCH (bead), colour);
  gtk_flow_box_child_set_child (GTK_FLOW_BOX_CHILD (child), bead);
  bw_tip_set (child, words);
  gtk_accessible_update_property (GTK_ACCESSIBLE (child), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  return child;
}

static void
show_colours (BwBailBeadsCard *self)
{
  const BwTray *tray = bw_project_get_tray (bw_card_get_project (BW_CARD (self)));
  GtkFlowBoxChild *child;
  if (memcmp (tray, &self->shown, sizeof *tray) == 0)
    return;
  self->shown = *tray;
  while ((child = gtk_flow_box_get_child_at_index (self->colours, 0)))
    gtk_flow_box_remove (self->colours, GTK_WIDGET (child));
  for (int i = 0; i < tray->n_colours; i++)
    gtk_flow_box_append (self->colours, swatch_of (&tray->colour[i]));
}

static void
show_hand (BwBailBeadsCard *self)
{
  GtkFlowBoxChild *child
      = gtk_flow_box_get_child_at_index (self->colours, bw_session_get_colour (self->session));
  self->choosing = TRUE;
  if (child)
    gtk_flow_box_select_child (self->colours, child);
  self->choosing = FALSE;
}

static void
follow_session (BwBailBeadsCard *self)
{
  BwSession *session = bw_draft_get_session (bw_card_get_draft (BW_CARD (self)));
  if (!g_set_object (&self->session, session))
    return;
  self->strip = BW_BAIL_STRIP (bw_bail_strip_new (session));
  gtk_box_append (self->place, GTK_WIDGET (self->strip));
  g_signal_connect_object (self->strip, "status", G_CALLBACK (show_status), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "hand-changed", G_CALLBACK (show_hand), self,
                           G_CONNECT_SWAPPED);
  show_status (self, NULL);
}

static void
bw_bail_beads_card_refresh (BwCard *card)
{
  BwBailBeadsCard *self = BW_BAIL_BEADS_CARD (card);
  follow_session (self);
  show_colours (self);
  show_hand (self);
}

static void
colour_chosen (BwBailBeadsCard *self)
{
  g_autoptr (GList) chosen = gtk_flow_box_get_selected_children (self->colours);
  if (self->choosing || !chosen || bw_card_is_refreshing (BW_CARD (self)))
    return;
  bw_session_set_colour (self->session, gtk_flow_box_child_get_index (chosen->data));
}

static void
fill_clicked (BwBailBeadsCard *self)
{
  bw_bail_strip_fill (self->strip);
}

static void
beneath_clicked (BwBailBeadsCard *self)
{
  bw_bail_strip_follow_band (self->strip);
}

static void
bw_bail_beads_card_dispose (GObject *object)
{
  g_clear_object (&BW_BAIL_BEADS_CARD (object)->session);
  G_OBJECT_CLASS (bw_bail_beads_card_parent_class)->dispose (object);
}

static void
bw_bail_beads_card_class_init (BwBailBeadsCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_bail_beads_card_dispose;
  BW_CARD_CLASS (klass)->refresh = bw_bail_beads_card_refresh;
  gtk_widget_class_set_template_from_resource (
      widget_class, "/io/github/bandwright/Bandwright/bail-beads-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwBailBeadsCard, place);
  gtk_widget_class_bind_template_child (widget_class, BwBailBeadsCard, status);
  gtk_widget_class_bind_template_child (widget_class, BwBailBeadsCard, colours);
  gtk_widget_class_bind_template_callback (widget_class, colour_chosen);
  gtk_widget_class_bind_template_callback (widget_class, fill_clicked);
  gtk_widget_class_bind_template_callback (widget_class, beneath_clicked);
}

static void
bw_bail_beads_card_init (BwBailBeadsCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
