/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page of the Hang stage: the band with the bail to take hold of, and the cards below. */
#include "config.h"

#include "app/hang/hang-cards.h"
#include "app/form/card.h"
#include "app/form/cards.h"
#include "app/hang/hang-sketch.h"
#include "app/hang/hang-stage.h"
#include "app/kit/words.h"
#include "editor/bail/bail-band.h"

struct _BwHangStage {
  GtkWidget parent_instance;
  BwSession *session;
  BwProject *project; /* the session's, with our handler on it */
  GtkBox *band;
  GtkLabel *place;
  GtkWidget *beads;
};

G_DEFINE_FINAL_TYPE (BwHangStage, bw_hang_stage, GTK_TYPE_WIDGET)

static void
show_place (BwHangStage *self, const char *words)
{
  bw_label_set_words (self->place, words);
}

/* Without a bail there are no beads of it to colour. */
static void
show_beads (BwHangStage *self)
{
  gtk_widget_set_visible (self->beads, bw_project_get_bail_drawing (self->project) != NULL);
}

static void
follow_project (BwHangStage *self)
{
  if (self->project)
    g_signal_handlers_disconnect_by_func (self->project, show_beads, self);
  g_set_object (&self->project, bw_session_get_project (self->session));
  g_signal_connect_object (self->project, "changed", G_CALLBACK (show_beads), self,
                           G_CONNECT_SWAPPED);
  show_beads (self);
}

void
bw_hang_stage_bind (BwHangStage *self, BwDraft *draft)
{
  g_return_if_fail (BW_IS_HANG_STAGE (self) && self->session == NULL);
  self->session = g_object_ref (bw_draft_get_session (draft));
  GtkWidget *band = bw_bail_band_new (self->session);
  g_autofree char *words = bw_bail_band_dup_words (BW_BAIL_BAND (band));
  gtk_box_append (self->band, band);
  g_signal_connect_object (band, "status", G_CALLBACK (show_place), self, G_CONNECT_SWAPPED);
  show_place (self, words);
  bw_cards_bind (GTK_WIDGET (self), draft);
  g_signal_connect_object (self->session, "project-changed", G_CALLBACK (follow_project), self,
                           G_CONNECT_SWAPPED);
  follow_project (self);
}

static void
bw_hang_stage_dispose (GObject *object)
{
  BwHangStage *self = BW_HANG_STAGE (object);
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))))
    gtk_widget_unparent (child);
  g_clear_object (&self->project);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (bw_hang_stage_parent_class)->dispose (object);
}

static void
bw_hang_stage_class_init (BwHangStageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_hang_stage_dispose;
  g_type_ensure (BW_TYPE_CARDS);
  g_type_ensure (BW_TYPE_HANG_SKETCH);
  g_type_ensure (BW_TYPE_BAIL_CARD);
  g_type_ensure (BW_TYPE_BAIL_BEADS_CARD);
  g_type_ensure (BW_TYPE_REST_CARD);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/hang-stage.ui");
  gtk_widget_class_bind_template_child (widget_class, BwHangStage, band);
  gtk_widget_class_bind_template_child (widget_class, BwHangStage, place);
  gtk_widget_class_bind_template_child (widget_class, BwHangStage, beads);
}

static void
bw_hang_stage_init (BwHangStage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
