/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The view's own commands live in an action group of the panel, so that menu items and buttons show
 * their state by themselves. */
#include "config.h"

#include "app/stone-panel.h"
#include "preview/stone-view.h"

#include <glib/gi18n-lib.h>

struct _BwStonePanel {
  GtkWidget parent_instance;
  BwSession *session;
  GSimpleActionGroup *actions;
  GtkBox *place;
};

G_DEFINE_FINAL_TYPE (BwStonePanel, bw_stone_panel, GTK_TYPE_WIDGET)

static const struct {
  const char *action;
  BwLayers layer;
} layers[] = {
  { "stone", BW_LAYER_STONE }, { "bed", BW_LAYER_BED },       { "band", BW_LAYER_BAND },
  { "bail", BW_LAYER_BAIL },   { "thread", BW_LAYER_THREAD },
};

static void
layer_changed (GSimpleAction *action, GVariant *state, gpointer data)
{
  BwStonePanel *self = data;
  guint shown = bw_session_get_layers (self->session);
  for (gsize i = 0; i < G_N_ELEMENTS (layers); i++) {
    if (!g_str_equal (layers[i].action, g_action_get_name (G_ACTION (action))))
      continue;
    guint with = shown | layers[i].layer, without = shown & ~(guint)layers[i].layer;
    bw_session_set_layers (self->session, g_variant_get_boolean (state) ? with : without);
  }
}

static void
by_fit_changed (GSimpleAction *action, GVariant *state, gpointer data)
{
  bw_session_set_colour_by_fit (((BwStonePanel *)data)->session, g_variant_get_boolean (state));
}

static void
look (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwStonePanel *self = data;
  const char *where = g_variant_get_string (parameter, NULL);
  double seam = bw_project_get_design (bw_session_get_project (self->session))->band.seam_deg;
  BwCamera camera = { .turn_deg = 30, .tip_deg = 12, .zoom = 1 };
  if (g_str_equal (where, "join"))
    camera = (BwCamera){ .turn_deg = seam, .tip_deg = 0, .zoom = 1 };
  else if (g_str_equal (where, "above"))
    camera = (BwCamera){ .turn_deg = 0, .tip_deg = 90, .zoom = 1 };
  bw_session_set_camera (self->session, camera);
}

static void
set_state (BwStonePanel *self, const char *name, gboolean on)
{
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (self->actions), name);
  g_simple_action_set_state (G_SIMPLE_ACTION (action), g_variant_new_boolean (on));
}

/* The session is the truth; the actions only mirror it. */
static void
view_changed (BwStonePanel *self)
{
  guint shown = bw_session_get_layers (self->session);
  for (gsize i = 0; i < G_N_ELEMENTS (layers); i++)
    set_state (self, layers[i].action, (shown & layers[i].layer) != 0);
  set_state (self, "by-fit", bw_session_get_colour_by_fit (self->session));
}

void
bw_stone_panel_bind (BwStonePanel *self, BwSession *session)
{
  g_return_if_fail (BW_IS_STONE_PANEL (self) && BW_IS_SESSION (session));
  self->session = g_object_ref (session);
  GtkWidget *view = bw_stone_view_new (session);
  gtk_widget_set_vexpand (view, TRUE);
  gtk_widget_set_hexpand (view, TRUE);
  gtk_box_prepend (self->place, view);
  g_signal_connect_object (session, "view-changed", G_CALLBACK (view_changed), self,
                           G_CONNECT_SWAPPED);
  view_changed (self);
}

static void
bw_stone_panel_dispose (GObject *object)
{
  BwStonePanel *self = BW_STONE_PANEL (object);
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))))
    gtk_widget_unparent (child);
  g_clear_object (&self->session);
  g_clear_object (&self->actions);
  G_OBJECT_CLASS (bw_stone_panel_parent_class)->dispose (object);
}

static void
bw_stone_panel_class_init (BwStonePanelClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_stone_panel_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "stonepanel");
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/stone-panel.ui");
  gtk_widget_class_bind_template_child (widget_class, BwStonePanel, place);
}

static void
add_actions (BwStonePanel *self)
{
  static const GActionEntry entries[] = {
    { "stone", NULL, NULL, "true", layer_changed },
    { "bed", NULL, NULL, "true", layer_changed },
    { "band", NULL, NULL, "true", layer_changed },
    { "bail", NULL, NULL, "true", layer_changed },
    { "thread", NULL, NULL, "true", layer_changed },
    { "by-fit", NULL, NULL, "false", by_fit_changed },
    { "look", look, "s" },
  };
  self->actions = g_simple_action_group_new ();
  g_action_map_add_action_entries (G_ACTION_MAP (self->actions), entries, G_N_ELEMENTS (entries),
                                   self);
  gtk_widget_insert_action_group (GTK_WIDGET (self), "view", G_ACTION_GROUP (self->actions));
}

static void
bw_stone_panel_init (BwStonePanel *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  add_actions (self);
}
