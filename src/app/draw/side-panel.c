/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Three pages of one width, so that turning a page never moves the band. Folded, the tray alone is
 * left, as a column of swatches; whatever asks for a page unfolds it. */
#include "config.h"

#include "app/draw/motif-panel.h"
#include "app/draw/picture-frame.h"
#include "app/draw/side-panel.h"
#include "app/colours/tray-panel.h"
#include "app/draw/tried-ribbon.h"
#include "app/kit/drops.h"

#define LEAST_PX 232 /* what the labels of the pages want, unless they are folded away */

struct _BwSidePanel {
  GtkWidget parent_instance;
  GtkWidget *switcher;
  GtkStack *stack;
  BwTrayPanel *tray;
  BwMotifPanel *motif;
  BwPicturePanel *picture;
  gboolean folded;
};

G_DEFINE_FINAL_TYPE (BwSidePanel, bw_side_panel, GTK_TYPE_WIDGET)

enum { PROP_FOLDED = 1, N_PROPS };
static GParamSpec *properties[N_PROPS];

static void
set_folded (BwSidePanel *self, gboolean folded)
{
  if (self->folded == folded)
    return;
  self->folded = folded;
  if (folded)
    gtk_stack_set_visible_child_name (self->stack, "tray");
  gtk_stack_set_hhomogeneous (self->stack, !folded);
  gtk_widget_set_size_request (GTK_WIDGET (self->stack), folded ? -1 : LEAST_PX, -1);
  gtk_widget_set_visible (self->switcher, !folded);
  bw_tray_panel_set_folded (self->tray, folded);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_FOLDED]);
}

static void
bw_side_panel_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  g_value_set_boolean (value, BW_SIDE_PANEL (object)->folded);
}

static void
bw_side_panel_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  set_folded (BW_SIDE_PANEL (object), g_value_get_boolean (value));
}

void
bw_side_panel_show (BwSidePanel *self, const char *name)
{
  g_return_if_fail (BW_IS_SIDE_PANEL (self));
  set_folded (self, FALSE);
  gtk_stack_set_visible_child_name (self->stack, name);
}

void
bw_side_panel_turn (BwSidePanel *self, int by)
{
  g_return_if_fail (BW_IS_SIDE_PANEL (self));
  if (by != 0)
    set_folded (self, FALSE);
  GtkWidget *page = gtk_stack_get_visible_child (self->stack);
  GtkWidget *next = page;
  if (by < 0 && !(next = gtk_widget_get_prev_sibling (page)))
    next = gtk_widget_get_last_child (GTK_WIDGET (self->stack));
  if (by > 0 && !(next = gtk_widget_get_next_sibling (page)))
    next = gtk_widget_get_first_child (GTK_WIDGET (self->stack));
  gtk_stack_set_visible_child (self->stack, next);
  gtk_widget_child_focus (next, GTK_DIR_TAB_FORWARD);
}

void
bw_side_panel_look_at_own (BwSidePanel *self)
{
  g_return_if_fail (BW_IS_SIDE_PANEL (self));
  bw_motif_panel_look_at_own (self->motif);
}

/* A motif of the maker's own is in the air over the band, which has the keyboard. */
static void
take_beads (GtkWidget *canvas, const char *beads)
{
  gtk_widget_grab_focus (canvas);
  bw_band_canvas_paste_text (BW_BAND_CANVAS (canvas), beads);
}

/* The panel is where a picture is dropped, and so is the frame round the canvas. */
static void
take_picture (BwSidePanel *self, GFile *file)
{
  bw_side_panel_show (self, "picture");
  bw_picture_panel_open (self->picture, file);
}

static void
dropped_here (GtkWidget *widget, GFile *file)
{
  take_picture (BW_SIDE_PANEL (widget), file);
}

static void
dropped_on_canvas (GtkWidget *overlay, GFile *file)
{
  take_picture (g_object_get_data (G_OBJECT (overlay), "side-panel"), file);
}

GtkWidget *
bw_side_panel_frame_canvas (BwSidePanel *self, GtkWidget *canvas, BwSession *session)
{
  g_return_val_if_fail (BW_IS_SIDE_PANEL (self) && BW_IS_BAND_CANVAS (canvas), NULL);
  GtkWidget *overlay = gtk_overlay_new ();
  /* A motif put on another face is seen there. */
  g_signal_connect_object (self->motif, "centred", G_CALLBACK (bw_band_canvas_roll_to), canvas,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->motif, "beads", G_CALLBACK (take_beads), canvas,
                           G_CONNECT_SWAPPED);
  gtk_overlay_set_child (GTK_OVERLAY (overlay), canvas);
  gtk_overlay_add_overlay (GTK_OVERLAY (overlay),
                           bw_picture_frame_new (BW_BAND_CANVAS (canvas), self->picture));
  gtk_overlay_add_overlay (GTK_OVERLAY (overlay), bw_tried_ribbon_new (session));
  g_object_set_data_full (G_OBJECT (overlay), "side-panel", g_object_ref (self), g_object_unref);
  bw_drops_take (overlay, dropped_on_canvas);
  return overlay;
}

static void
bw_side_panel_dispose (GObject *object)
{
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))))
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (bw_side_panel_parent_class)->dispose (object);
}

static void
bw_side_panel_class_init (BwSidePanelClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_side_panel_dispose;
  G_OBJECT_CLASS (klass)->get_property = bw_side_panel_get_property;
  G_OBJECT_CLASS (klass)->set_property = bw_side_panel_set_property;
  properties[PROP_FOLDED]
      = g_param_spec_boolean ("folded", NULL, NULL, FALSE,
                              G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS | G_PARAM_EXPLICIT_NOTIFY);
  g_object_class_install_properties (G_OBJECT_CLASS (klass), N_PROPS, properties);
  g_type_ensure (BW_TYPE_TRAY_PANEL);
  g_type_ensure (BW_TYPE_MOTIF_PANEL);
  g_type_ensure (BW_TYPE_PICTURE_PANEL);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/side-panel.ui");
  gtk_widget_class_bind_template_child (widget_class, BwSidePanel, switcher);
  gtk_widget_class_bind_template_child (widget_class, BwSidePanel, stack);
  gtk_widget_class_bind_template_child (widget_class, BwSidePanel, tray);
  gtk_widget_class_bind_template_child (widget_class, BwSidePanel, motif);
  gtk_widget_class_bind_template_child (widget_class, BwSidePanel, picture);
}

static void
bw_side_panel_init (BwSidePanel *self)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (GTK_WIDGET (self));
  gtk_orientable_set_orientation (GTK_ORIENTABLE (layout), GTK_ORIENTATION_VERTICAL);
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_widget_set_size_request (GTK_WIDGET (self->stack), LEAST_PX, -1);
  bw_drops_take (GTK_WIDGET (self), dropped_here);
}
