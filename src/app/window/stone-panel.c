/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The view's own commands live in an action group of the panel, so that menu items and buttons show
 * their state by themselves. */
#include "config.h"

#include "app/window/stone-panel.h"
#include "preview/scene/pose.h"
#include "preview/view/stone-view.h"

#include <glib/gi18n-lib.h>

struct _BwStonePanel {
  GtkWidget parent_instance;
  BwSession *session;
  BwProject *project; /* the one whose changes are followed */
  GSimpleActionGroup *actions;
  GtkBox *place;
  GtkToggleButton *at_rest;
  gboolean hanging;
};

G_DEFINE_FINAL_TYPE (BwStonePanel, bw_stone_panel, GTK_TYPE_WIDGET)

static const struct {
  const char *action;
  BwLayers layer;
} layers[] = {
  { "stone", BW_LAYER_STONE },     { "bed", BW_LAYER_BED },       { "band", BW_LAYER_BAND },
  { "bail", BW_LAYER_BAIL },       { "thread", BW_LAYER_THREAD }, { "cord", BW_LAYER_CORD },
  { "balance", BW_LAYER_BALANCE },
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

static gboolean
is_wanted (BwStonePanel *self, const char *name)
{
  g_autoptr (GVariant) state
      = g_action_group_get_action_state (G_ACTION_GROUP (self->actions), name);
  return g_variant_get_boolean (state);
}

/* Without a bail there is nothing to hang by, and the maker keeps the upright camera. */
static void
follow_stage (BwStonePanel *self)
{
  const BwDesign *design = bw_project_get_design (bw_session_get_project (self->session));
  gboolean has_bail = design->bail.style != BW_BAIL_NONE;
  gtk_widget_set_visible (GTK_WIDGET (self->at_rest), self->hanging && has_bail);
  bw_session_set_at_rest (self->session, self->hanging && has_bail && is_wanted (self, "at-rest"));
}

void
bw_stone_panel_set_hanging (BwStonePanel *self, gboolean hanging)
{
  g_return_if_fail (BW_IS_STONE_PANEL (self));
  self->hanging = hanging;
  if (self->session)
    follow_stage (self);
}

static void
at_rest_changed (GSimpleAction *action, GVariant *state, gpointer data)
{
  g_simple_action_set_state (action, state);
  follow_stage (data);
}

static void
project_changed (BwStonePanel *self, guint what)
{
  if (what & BW_CHANGED_DESIGN)
    follow_stage (self);
}

static void
follow_project (BwStonePanel *self)
{
  g_set_object (&self->project, bw_session_get_project (self->session));
  g_signal_connect_object (self->project, "changed", G_CALLBACK (project_changed), self,
                           G_CONNECT_SWAPPED);
  follow_stage (self);
}

static void
other_project (BwStonePanel *self)
{
  g_signal_handlers_disconnect_by_func (self->project, project_changed, self);
  follow_project (self);
}

/* The join as it lies in the room when the piece hangs. */
static BwCamera
facing_join (BwStonePanel *self, double seam_deg)
{
  BwCamera camera = { .turn_deg = seam_deg, .tip_deg = 0, .zoom = 1 };
  if (!bw_session_get_at_rest (self->session))
    return camera;
  double seam = bw_radians (seam_deg);
  BwVec3 join = bw_pose_turn (bw_pose_at_rest (bw_project_hang (self->project)),
                              bw_vec3 (cos (seam), sin (seam), 0));
  camera.turn_deg = bw_degrees (atan2 (join.y, join.x));
  camera.tip_deg = bw_degrees (asin (CLAMP (join.z, -1, 1)));
  return camera;
}

static void
look (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwStonePanel *self = data;
  const char *where = g_variant_get_string (parameter, NULL);
  BwCamera camera = { .turn_deg = 30, .tip_deg = 12, .zoom = 1 };
  if (bw_session_get_at_rest (self->session))
    camera = bw_session_camera_at_rest;
  if (g_str_equal (where, "join"))
    camera = facing_join (self, bw_project_get_design (self->project)->band.seam_deg);
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
  g_signal_connect_object (session, "project-changed", G_CALLBACK (other_project), self,
                           G_CONNECT_SWAPPED);
  view_changed (self);
  follow_project (self);
}

static void
bw_stone_panel_dispose (GObject *object)
{
  BwStonePanel *self = BW_STONE_PANEL (object);
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))))
    gtk_widget_unparent (child);
  g_clear_object (&self->project);
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
  gtk_widget_class_bind_template_child (widget_class, BwStonePanel, at_rest);
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
    { "cord", NULL, NULL, "true", layer_changed },
    { "balance", NULL, NULL, "true", layer_changed },
    { "at-rest", NULL, NULL, "true", at_rest_changed },
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
