/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The view's own commands live in an action group of the panel, so that menu items and buttons show
 * their state by themselves. */
#include "config.h"

#include "app/kit/late-menu.h"
#include "app/kit/part-names.h"
#include "app/kit/wrap-layout.h"
#include "app/window/play-bar.h"
#include "app/window/stone-hand.h"
#include "app/window/stone-panel.h"
#include "preview/scene/seen-from.h"
#include "preview/view/stone-view.h"

#include <glib/gi18n-lib.h>

struct _BwStonePanel {
  GtkWidget parent_instance;
  BwSession *session;
  BwProject *project; /* the one whose changes are followed */
  GSimpleActionGroup *actions;
  BwStoneHand *hand;
  GtkWidget *view; /* under the controls; NULL until bound */
  BwPlayBar *play; /* NULL until weaving is watched */
  GtkWidget *controls;
  GtkWidget *example;
  GtkMenuButton *shown;
  GMenu *show_menu;
  GMenu *context_menu;
  GtkWidget *stone_menu; /* NULL until it is asked for */
  GtkToggleButton *at_rest;
  gboolean hanging;
  gboolean weaving; /* the piece is shown being woven */
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

/* Without a bail there is nothing to hang by, and the maker keeps the upright camera; a piece that
 * is being woven does not hang yet. */
static void
follow_stage (BwStonePanel *self)
{
  const BwDesign *design = bw_project_get_design (bw_session_get_project (self->session));
  gboolean has_bail = design->bail.style != BW_BAIL_NONE;
  gtk_widget_set_visible (GTK_WIDGET (self->at_rest), self->hanging && has_bail);
  bw_session_set_at_rest (self->session, self->hanging && has_bail && !self->weaving
                                             && is_wanted (self, "at-rest"));
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

/* A stone that nobody has measured says so, wherever it is looked at. */
static void
follow_example (BwStonePanel *self)
{
  gtk_widget_set_visible (self->example, bw_project_stone_is_example (self->project));
}

static void
project_changed (BwStonePanel *self, guint what)
{
  if (!(what & BW_CHANGED_DESIGN))
    return;
  follow_stage (self);
  follow_example (self);
}

static void
follow_project (BwStonePanel *self)
{
  g_set_object (&self->project, bw_session_get_project (self->session));
  g_signal_connect_object (self->project, "changed", G_CALLBACK (project_changed), self,
                           G_CONNECT_SWAPPED);
  follow_stage (self);
  follow_example (self);
}

static void
other_project (BwStonePanel *self)
{
  g_signal_handlers_disconnect_by_func (self->project, project_changed, self);
  follow_project (self);
}

static void
look (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwStonePanel *self = data;
  BwSeenFrom where;
  if (bw_seen_from_parse (g_variant_get_string (parameter, NULL), &where))
    bw_session_set_camera (self->session, bw_seen_from (where, self->project,
                                                        bw_session_get_at_rest (self->session),
                                                        bw_session_get_camera (self->session)));
}

/* By a factor; 0: the whole piece. */
static void
zoom (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwStonePanel *self = data;
  BwCamera camera = bw_session_get_camera (self->session);
  double factor = g_variant_get_double (parameter);
  camera.zoom = factor > 0 ? camera.zoom * factor : 1;
  bw_session_set_camera (self->session, camera);
}

/* The bar is made when the weaving is first watched. */
static BwPlayBar *
ensure_play (BwStonePanel *self)
{
  if (self->play)
    return self->play;
  self->play = g_object_new (BW_TYPE_PLAY_BAR, NULL);
  gtk_widget_insert_before (GTK_WIDGET (self->play), GTK_WIDGET (self), self->controls);
  bw_play_bar_bind (self->play, self->session);
  bw_part_names_give (GTK_WIDGET (self->play));
  return self->play;
}

static void
play_changed (GSimpleAction *action, GVariant *state, gpointer data)
{
  BwStonePanel *self = data;
  if (g_variant_get_boolean (state)) {
    bw_session_set_at_rest (self->session, FALSE); /* the bar takes note of the upright camera */
    bw_play_bar_open (ensure_play (self));
  } else {
    bw_play_bar_close (ensure_play (self));
    gtk_widget_grab_focus (self->view);
  }
}

static void
brush_changed (GSimpleAction *action, GVariant *state, gpointer data)
{
  g_simple_action_set_state (action, state);
  bw_stone_view_set_brushing (BW_STONE_VIEW (((BwStonePanel *)data)->view),
                              g_variant_get_boolean (state));
}

static void
set_state (BwStonePanel *self, const char *name, gboolean on)
{
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (self->actions), name);
  g_simple_action_set_state (G_SIMPLE_ACTION (action), g_variant_new_boolean (on));
}

/* The bar of what is being woven stands in for the other controls, which a small window has no room
 * for beside it; the menu on the stone has them. */
static void
follow_weaving (BwStonePanel *self, gboolean weaving)
{
  set_state (self, "play", weaving);
  if (weaving)
    ensure_play (self);
  gtk_widget_set_visible (self->controls, !weaving);
  if (self->weaving == weaving)
    return;
  self->weaving = weaving;
  follow_stage (self);
}

/* The session is the truth; the actions only mirror it. */
static void
view_changed (BwStonePanel *self)
{
  guint shown = bw_session_get_layers (self->session);
  for (gsize i = 0; i < G_N_ELEMENTS (layers); i++)
    set_state (self, layers[i].action, (shown & layers[i].layer) != 0);
  set_state (self, "by-fit", bw_session_get_colour_by_fit (self->session));
  follow_weaving (self, bw_session_get_played (self->session) >= 0);
}

/* --- The menu on the stone ---------------------------------------------------------------------
 */

/* Made when it is first asked for. */
static GtkPopover *
ensure_stone_menu (BwStonePanel *self)
{
  if (self->stone_menu)
    return GTK_POPOVER (self->stone_menu);
  self->stone_menu = gtk_popover_menu_new_from_model (G_MENU_MODEL (self->context_menu));
  gtk_popover_set_has_arrow (GTK_POPOVER (self->stone_menu), FALSE);
  gtk_widget_set_halign (self->stone_menu, GTK_ALIGN_START);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->stone_menu), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("The stone"), -1);
  gtk_widget_set_parent (self->stone_menu, GTK_WIDGET (self));
  return GTK_POPOVER (self->stone_menu);
}

static void
show_menu (BwStonePanel *self, double x, double y)
{
  GtkPopover *menu = ensure_stone_menu (self);
  double at_x, at_y;
  if (!gtk_widget_translate_coordinates (self->view, GTK_WIDGET (self), x, y, &at_x, &at_y))
    return;
  gtk_popover_set_pointing_to (menu, &(GdkRectangle){ (int)at_x, (int)at_y, 1, 1 });
  gtk_popover_popup (menu);
}

static void
menu_asked (GtkGestureClick *click, int n_press, double x, double y, BwStonePanel *self)
{
  gtk_gesture_set_state (GTK_GESTURE (click), GTK_EVENT_SEQUENCE_CLAIMED);
  gtk_widget_grab_focus (self->view);
  show_menu (self, x, y);
}

static gboolean
menu_key (GtkWidget *view, GVariant *arguments, gpointer self)
{
  show_menu (self, gtk_widget_get_width (view) / 2.0, gtk_widget_get_height (view) / 2.0);
  return TRUE;
}

/* On the stone too, while it is being woven. */
static gboolean
play_key (GtkWidget *view, GVariant *arguments, gpointer data)
{
  BwStonePanel *self = data;
  if (self->weaving)
    bw_play_bar_toggle (ensure_play (self));
  return self->weaving;
}

static void
add_key (BwStonePanel *self, GtkEventController *keys, const char *trigger, GtkShortcutFunc does)
{
  gtk_shortcut_controller_add_shortcut (
      GTK_SHORTCUT_CONTROLLER (keys),
      gtk_shortcut_new (gtk_shortcut_trigger_parse_string (trigger),
                        gtk_callback_action_new (does, self, NULL)));
}

static void
add_menu (BwStonePanel *self)
{
  GtkGesture *click = gtk_gesture_click_new ();
  GtkEventController *keys = gtk_shortcut_controller_new ();
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (click), GDK_BUTTON_SECONDARY);
  g_signal_connect (click, "released", G_CALLBACK (menu_asked), self);
  gtk_widget_add_controller (self->view, GTK_EVENT_CONTROLLER (click));
  add_key (self, keys, "Menu|<Shift>F10", menu_key);
  add_key (self, keys, "space|KP_Space", play_key);
  gtk_widget_add_controller (self->view, keys);
}

/* --- The picture and what lies over it ---------------------------------------------------------
 */

static void
add_view (BwStonePanel *self)
{
  self->view = bw_stone_view_new (self->session);
  self->hand = bw_stone_hand_new (self->session);
  gtk_widget_insert_after (self->view, GTK_WIDGET (self), NULL);
  bw_stone_view_set_brush (BW_STONE_VIEW (self->view), &bw_stone_hand_brush, self->hand);
  add_menu (self);
}

void
bw_stone_panel_bind (BwStonePanel *self, BwSession *session)
{
  g_return_if_fail (BW_IS_STONE_PANEL (self) && BW_IS_SESSION (session));
  self->session = g_object_ref (session);
  add_view (self);
  g_signal_connect_object (session, "view-changed", G_CALLBACK (view_changed), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "project-changed", G_CALLBACK (other_project), self,
                           G_CONNECT_SWAPPED);
  view_changed (self);
  follow_project (self);
}

static void
bw_stone_panel_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                        int *natural, int *minimum_baseline, int *natural_baseline)
{
  BwStonePanel *self = BW_STONE_PANEL (widget);
  int least, usual;
  *minimum = *natural = 0;
  if (self->view)
    gtk_widget_measure (self->view, orientation, -1, minimum, natural, NULL, NULL);
  GtkWidget *at_foot[] = { GTK_WIDGET (self->play), self->controls };
  for (gsize i = 0; i < G_N_ELEMENTS (at_foot); i++) {
    if (!at_foot[i] || !gtk_widget_should_layout (at_foot[i]))
      continue;
    gtk_widget_measure (at_foot[i], orientation, for_size, &least, &usual, NULL, NULL);
    if (orientation == GTK_ORIENTATION_VERTICAL) {
      *minimum += least;
      *natural += least;
    } else {
      *minimum = MAX (*minimum, least);
      *natural = MAX (*natural, least);
    }
  }
}

/* Over the stone's tip, where no control stands. */
static void
allocate_example (BwStonePanel *self, int width)
{
  int wide, high;
  if (!gtk_widget_should_layout (self->example))
    return;
  gtk_widget_measure (self->example, GTK_ORIENTATION_HORIZONTAL, -1, NULL, &wide, NULL, NULL);
  wide = MIN (wide, width);
  gtk_widget_measure (self->example, GTK_ORIENTATION_VERTICAL, wide, NULL, &high, NULL, NULL);
  gtk_widget_size_allocate (self->example, &(GtkAllocation){ (width - wide) / 2, 8, wide, high },
                            -1);
}

/* At the foot, over so many pixels that are taken already. Gives how many are taken then. */
static int
allocate_above (GtkWidget *part, int taken, int width, int height)
{
  int high;
  if (!part || !gtk_widget_should_layout (part))
    return taken;
  gtk_widget_measure (part, GTK_ORIENTATION_VERTICAL, width, &high, NULL, NULL, NULL);
  taken += high;
  gtk_widget_size_allocate (part, &(GtkAllocation){ 0, MAX (height - taken, 0), width, high }, -1);
  return taken;
}

/* The picture lies under the controls too, the piece above them. */
static void
bw_stone_panel_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  BwStonePanel *self = BW_STONE_PANEL (widget);
  int taken = allocate_above (self->controls, 0, width, height);
  taken = allocate_above (GTK_WIDGET (self->play), taken, width, height);
  if (self->view) {
    bw_stone_view_set_free_below (BW_STONE_VIEW (self->view), taken);
    gtk_widget_size_allocate (self->view, &(GtkAllocation){ 0, 0, width, height }, -1);
  }
  allocate_example (self, width);
  if (self->stone_menu)
    gtk_popover_present (GTK_POPOVER (self->stone_menu));
}

static GtkSizeRequestMode
bw_stone_panel_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
bw_stone_panel_dispose (GObject *object)
{
  BwStonePanel *self = BW_STONE_PANEL (object);
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))))
    gtk_widget_unparent (child);
  self->view = NULL;
  self->play = NULL;
  self->stone_menu = NULL;
  g_clear_pointer (&self->hand, bw_stone_hand_free);
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
  widget_class->measure = bw_stone_panel_measure;
  widget_class->size_allocate = bw_stone_panel_size_allocate;
  widget_class->get_request_mode = bw_stone_panel_get_request_mode;
  gtk_widget_class_set_css_name (widget_class, "stonepanel");
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/stone-panel.ui");
  gtk_widget_class_bind_template_child (widget_class, BwStonePanel, controls);
  gtk_widget_class_bind_template_child (widget_class, BwStonePanel, example);
  gtk_widget_class_bind_template_child (widget_class, BwStonePanel, shown);
  gtk_widget_class_bind_template_child (widget_class, BwStonePanel, show_menu);
  gtk_widget_class_bind_template_child (widget_class, BwStonePanel, context_menu);
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
    { "brush", NULL, NULL, "false", brush_changed },
    { "play", NULL, NULL, "false", play_changed },
    { "look", look, "s" },
    { "zoom", zoom, "d" },
  };
  self->actions = g_simple_action_group_new ();
  g_action_map_add_action_entries (G_ACTION_MAP (self->actions), entries, G_N_ELEMENTS (entries),
                                   self);
  gtk_widget_insert_action_group (GTK_WIDGET (self), "view", G_ACTION_GROUP (self->actions));
}

/* Anywhere in the window, as the mnemonic of a button with words would be. */
static void
add_rest_key (BwStonePanel *self)
{
  GtkEventController *keys = gtk_shortcut_controller_new ();
  gtk_shortcut_controller_set_scope (GTK_SHORTCUT_CONTROLLER (keys), GTK_SHORTCUT_SCOPE_GLOBAL);
  gtk_shortcut_controller_add_shortcut (
      GTK_SHORTCUT_CONTROLLER (keys),
      gtk_shortcut_new (gtk_shortcut_trigger_parse_string ("<Alt>r"),
                        g_object_ref (gtk_mnemonic_action_get ())));
  gtk_widget_add_controller (GTK_WIDGET (self->at_rest), keys);
}

static void
bw_stone_panel_init (BwStonePanel *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_widget_set_layout_manager (self->controls, bw_wrap_layout_new (8));
  bw_late_menu_give (self->shown, G_MENU_MODEL (self->show_menu));
  add_actions (self);
  add_rest_key (self);
}
