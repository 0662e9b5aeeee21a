/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page of the Measure stage; what is on it lives in the sheet and the cards. */
#include "config.h"

#include "app/measure/bench-sheet.h"
#include "app/measure/fold-card.h"
#include "app/measure/measure-cards.h"
#include "app/form/card.h"
#include "app/form/cards.h"
#include "app/form/field-entry.h"
#include "app/measure/measure-stage.h"

struct _BwMeasureStage {
  GtkWidget parent_instance;
};

G_DEFINE_FINAL_TYPE (BwMeasureStage, bw_measure_stage, GTK_TYPE_WIDGET)

void
bw_measure_stage_bind (BwMeasureStage *self, BwDraft *draft)
{
  g_return_if_fail (BW_IS_MEASURE_STAGE (self));
  bw_cards_bind (GTK_WIDGET (self), draft);
}

static void
bw_measure_stage_dispose (GObject *object)
{
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))))
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (bw_measure_stage_parent_class)->dispose (object);
}

static void
ensure_types (void)
{
  g_type_ensure (BW_TYPE_CARDS);
  g_type_ensure (BW_TYPE_FIELD_ENTRY);
  g_type_ensure (BW_TYPE_BENCH_SHEET);
  g_type_ensure (BW_TYPE_FOLD_CARD);
  g_type_ensure (BW_TYPE_PIECE_CARD);
  g_type_ensure (BW_TYPE_STONE_CARD);
  g_type_ensure (BW_TYPE_LOOK_CARD);
  g_type_ensure (BW_TYPE_SECTION_CARD);
  g_type_ensure (BW_TYPE_POINT_CARD);
  g_type_ensure (BW_TYPE_BEAD_CARD);
  g_type_ensure (BW_TYPE_BED_CARD);
  g_type_ensure (BW_TYPE_BAND_CARD);
  g_type_ensure (BW_TYPE_SURE_CARD);
}

static void
bw_measure_stage_class_init (BwMeasureStageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_measure_stage_dispose;
  ensure_types ();
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/measure-stage.ui");
}

static void
bw_measure_stage_init (BwMeasureStage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
