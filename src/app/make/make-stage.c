/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page of the Make stage; what is on it lives in the cards. */
#include "config.h"

#include "app/bench/bench-card.h"
#include "app/form/card.h"
#include "app/make/make-cards.h"
#include "app/make/make-fold.h"
#include "app/make/make-stage.h"

struct _BwMakeStage {
  GtkWidget parent_instance;
};

G_DEFINE_FINAL_TYPE (BwMakeStage, bw_make_stage, GTK_TYPE_WIDGET)

void
bw_make_stage_bind (BwMakeStage *self, BwDraft *draft)
{
  g_return_if_fail (BW_IS_MAKE_STAGE (self));
  bw_cards_bind (GTK_WIDGET (self), draft);
}

static void
bw_make_stage_dispose (GObject *object)
{
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))))
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (bw_make_stage_parent_class)->dispose (object);
}

static void
ensure_types (void)
{
  g_type_ensure (BW_TYPE_MAKE_FOLD);
  g_type_ensure (BW_TYPE_COST_CARD);
  g_type_ensure (BW_TYPE_COVER_CARD);
  g_type_ensure (BW_TYPE_LIST_CARD);
  g_type_ensure (BW_TYPE_NECKLACE_CARD);
  g_type_ensure (BW_TYPE_PRINT_CARD);
  g_type_ensure (BW_TYPE_SUPPLY_CARD);
  g_type_ensure (BW_TYPE_WORDS_CARD);
  g_type_ensure (BW_TYPE_BENCH_CARD);
  g_type_ensure (BW_TYPE_CAUTIONS_CARD);
}

static void
bw_make_stage_class_init (BwMakeStageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_make_stage_dispose;
  ensure_types ();
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/make-stage.ui");
}

static void
bw_make_stage_init (BwMakeStage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
