/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page of the Hang stage; what is on it lives in the sketch and the cards. */
#include "config.h"

#include "app/bail-card.h"
#include "app/card.h"
#include "app/cards.h"
#include "app/hang-sketch.h"
#include "app/hang-stage.h"
#include "app/rest-card.h"

struct _BwHangStage {
  GtkWidget parent_instance;
};

G_DEFINE_FINAL_TYPE (BwHangStage, bw_hang_stage, GTK_TYPE_WIDGET)

void
bw_hang_stage_bind (BwHangStage *self, BwDraft *draft)
{
  g_return_if_fail (BW_IS_HANG_STAGE (self));
  bw_cards_bind (GTK_WIDGET (self), draft);
}

static void
bw_hang_stage_dispose (GObject *object)
{
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))))
    gtk_widget_unparent (child);
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
  g_type_ensure (BW_TYPE_REST_CARD);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/hang-stage.ui");
}

static void
bw_hang_stage_init (BwHangStage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
