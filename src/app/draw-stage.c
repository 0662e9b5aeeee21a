/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The frame round the canvas: which tool is in hand, how near the band is, what lies under the
 * pointer. */
#include "config.h"

#include "app/card.h"
#include "app/draw-stage.h"
#include "app/field-entry.h"
#include "app/settings.h"
#include "app/tray-panel.h"
#include "editor/band-canvas.h"

#include <glib/gi18n-lib.h>

struct _BwDrawStage {
  GtkWidget parent_instance;
  BwSession *session;
  BwBandCanvas *canvas;
  GtkBox *place;
  GtkToggleButton *bead;
  GtkToggleButton *pick;
  GtkLabel *status;
};

G_DEFINE_FINAL_TYPE (BwDrawStage, bw_draw_stage, GTK_TYPE_WIDGET)

static void
show_status (BwDrawStage *self, const char *words)
{
  gtk_label_set_text (self->status, words && *words ? words : _ ("Point at a bead"));
}

static void
show_tool (BwDrawStage *self)
{
  BwToolKind tool = bw_session_get_tool (self->session);
  gtk_toggle_button_set_active (self->bead, tool == BW_TOOL_BEAD);
  gtk_toggle_button_set_active (self->pick, tool == BW_TOOL_PICK);
}

static void
tool_toggled (BwDrawStage *self, GtkToggleButton *button)
{
  if (self->session && gtk_toggle_button_get_active (button))
    bw_session_set_tool (self->session, button == self->pick ? BW_TOOL_PICK : BW_TOOL_BEAD);
}

static void
show_letters (BwDrawStage *self)
{
  bw_band_canvas_set_letters (self->canvas,
                              bw_settings_get_flag (bw_settings_get (), "show-letters"));
}

void
bw_draw_stage_zoom (BwDrawStage *self, double by)
{
  g_return_if_fail (BW_IS_DRAW_STAGE (self));
  if (by > 0)
    bw_band_canvas_set_zoom (self->canvas, bw_band_canvas_get_zoom (self->canvas) * by);
  else
    bw_band_canvas_fit (self->canvas);
}

void
bw_draw_stage_bind (BwDrawStage *self, BwDraft *draft)
{
  g_return_if_fail (BW_IS_DRAW_STAGE (self) && BW_IS_DRAFT (draft));
  self->session = g_object_ref (bw_draft_get_session (draft));
  self->canvas = BW_BAND_CANVAS (bw_band_canvas_new (self->session));
  gtk_widget_set_hexpand (GTK_WIDGET (self->canvas), TRUE);
  gtk_widget_set_vexpand (GTK_WIDGET (self->canvas), TRUE);
  gtk_box_prepend (self->place, GTK_WIDGET (self->canvas));
  bw_cards_bind (GTK_WIDGET (self), draft);
  g_signal_connect_object (self->canvas, "status", G_CALLBACK (show_status), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->session, "hand-changed", G_CALLBACK (show_tool), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (bw_settings_get (), "notify::show-letters", G_CALLBACK (show_letters),
                           self, G_CONNECT_SWAPPED);
  show_tool (self);
  show_letters (self);
  show_status (self, NULL);
}

static void
bw_draw_stage_dispose (GObject *object)
{
  BwDrawStage *self = BW_DRAW_STAGE (object);
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))))
    gtk_widget_unparent (child);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (bw_draw_stage_parent_class)->dispose (object);
}

static void
bw_draw_stage_class_init (BwDrawStageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_draw_stage_dispose;
  g_type_ensure (BW_TYPE_TRAY_PANEL);
  g_type_ensure (BW_TYPE_FIELD_ENTRY);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/draw-stage.ui");
  gtk_widget_class_bind_template_child (widget_class, BwDrawStage, place);
  gtk_widget_class_bind_template_child (widget_class, BwDrawStage, bead);
  gtk_widget_class_bind_template_child (widget_class, BwDrawStage, pick);
  gtk_widget_class_bind_template_child (widget_class, BwDrawStage, status);
  gtk_widget_class_bind_template_callback (widget_class, tool_toggled);
}

static void
bw_draw_stage_init (BwDrawStage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
