/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Filled when it opens and while it is open; what has been undone stands below, faint, until
 * something else is done. */
#include "config.h"

#include "app/draw/history-popover.h"
#include "app/kit/menu-at.h"

#include <glib/gi18n-lib.h>

struct _BwHistoryPopover {
  GtkPopover parent_instance;
  BwSession *session;
  BwProject *project; /* the one listened to */
  GtkListView *list;
  GtkWidget *present; /* weak; what shows the step one is at, while that is on the screen */
  guint tick;
  int tries; /* pictures in which its row may still come */
};

G_DEFINE_FINAL_TYPE (BwHistoryPopover, bw_history_popover, GTK_TYPE_POPOVER)

/* The list knows where its rows lie only once it has its place on the screen, and makes the row of
 * the present step only then. */
#define TRIES 30

static gboolean
go_to_present (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  BwHistoryPopover *self = BW_HISTORY_POPOVER (widget);
  GtkWidget *row = self->present ? gtk_widget_get_parent (self->present) : NULL;
  if (!gtk_widget_get_mapped (widget))
    return G_SOURCE_CONTINUE;
  gtk_widget_activate_action (GTK_WIDGET (self->list), "list.scroll-to-item", "u",
                              bw_project_get_position (self->project));
  gboolean there = row && gtk_widget_get_mapped (row) && gtk_widget_grab_focus (row);
  if (!there && --self->tries > 0)
    return G_SOURCE_CONTINUE;
  self->tick = 0;
  return G_SOURCE_REMOVE;
}

static void
fill (BwHistoryPopover *self)
{
  guint position = bw_project_get_position (self->project);
  g_autoptr (GtkSingleSelection) chosen
      = gtk_single_selection_new (bw_history_list_new (self->project));
  gtk_single_selection_set_selected (chosen, position);
  g_set_weak_pointer (&self->present, NULL);
  gtk_list_view_set_model (self->list, GTK_SELECTION_MODEL (chosen));
  self->tries = TRIES;
  if (!self->tick)
    self->tick = gtk_widget_add_tick_callback (GTK_WIDGET (self), go_to_present, NULL, NULL);
}

static void
history_changed (BwHistoryPopover *self)
{
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    fill (self);
}

static void
follow_project (BwHistoryPopover *self)
{
  if (self->project)
    g_signal_handlers_disconnect_by_func (self->project, history_changed, self);
  g_set_object (&self->project, bw_session_get_project (self->session));
  g_signal_connect_object (self->project, "history", G_CALLBACK (history_changed), self,
                           G_CONNECT_SWAPPED);
  history_changed (self);
}

void
bw_history_popover_bind (BwHistoryPopover *self, BwSession *session)
{
  g_return_if_fail (BW_IS_HISTORY_POPOVER (self) && BW_IS_SESSION (session));
  g_set_object (&self->session, session);
  g_signal_connect_object (session, "project-changed", G_CALLBACK (follow_project), self,
                           G_CONNECT_SWAPPED);
  follow_project (self);
}

static void
row_activated (BwHistoryPopover *self, guint position)
{
  bw_project_go_to (self->project, position);
}

/* --- The menu of a step ------------------------------------------------------------------------
 */

static void
go_to (GtkWidget *widget, const char *action, GVariant *parameter)
{
  bw_project_go_to (BW_HISTORY_POPOVER (widget)->project, g_variant_get_uint32 (parameter));
}

static void
open_menu (BwHistoryPopover *self, GtkWidget *row, double x, double y, guint position)
{
  g_autoptr (GMenu) menu = g_menu_new ();
  bw_menu_add_to (menu, _ ("Go to This Step"), "steps.go", position);
  if (position > 0)
    bw_menu_add_to (menu, _ ("Go to Just before It"), "steps.go", position - 1);
  bw_menu_open_at (GTK_WIDGET (self), row, x, y, G_MENU_MODEL (menu));
}

static void
menu_pressed (GtkGestureClick *press, int n_press, double x, double y, GtkListItem *item)
{
  GtkWidget *label = gtk_list_item_get_child (item);
  GtkWidget *popover = gtk_widget_get_ancestor (label, BW_TYPE_HISTORY_POPOVER);
  open_menu (BW_HISTORY_POPOVER (popover), label, x, y, gtk_list_item_get_position (item));
}

static gboolean
menu_key (BwHistoryPopover *self, guint key, guint code, GdkModifierType state)
{
  GtkSelectionModel *model = gtk_list_view_get_model (self->list);
  if (!bw_menu_is_key (key, state) || !model)
    return FALSE;
  open_menu (self, GTK_WIDGET (self->list), 24, 24,
             gtk_single_selection_get_selected (GTK_SINGLE_SELECTION (model)));
  return TRUE;
}

static void
row_set_up (BwHistoryPopover *self, GtkListItem *item)
{
  GtkWidget *label = gtk_label_new (NULL);
  GtkGesture *press = gtk_gesture_click_new ();
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (press), GDK_BUTTON_SECONDARY);
  g_signal_connect (press, "released", G_CALLBACK (menu_pressed), item);
  gtk_widget_add_controller (label, GTK_EVENT_CONTROLLER (press));
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (label), 34);
  gtk_list_item_set_child (item, label);
}

static void
row_bound (BwHistoryPopover *self, GtkListItem *item)
{
  GtkWidget *label = gtk_list_item_get_child (item);
  guint position = gtk_list_item_get_position (item);
  guint present = bw_project_get_position (self->project);
  gboolean undone = position > present;
  const char *name = gtk_string_object_get_string (gtk_list_item_get_item (item));
  g_autofree char *words
      = position == 0 ? g_strdup (name) : g_strdup_printf ("%u  %s", position, name);
  if (position == present)
    g_set_weak_pointer (&self->present, label);
  else if (label == self->present)
    g_set_weak_pointer (&self->present, NULL);
  gtk_label_set_text (GTK_LABEL (label), words);
  gtk_widget_set_tooltip_text (label, undone ? _ ("Undone; activate to do it again") : words);
  if (undone)
    gtk_widget_add_css_class (label, "undone");
  else
    gtk_widget_remove_css_class (label, "undone");
}

static void
bw_history_popover_show (GtkWidget *widget)
{
  BwHistoryPopover *self = BW_HISTORY_POPOVER (widget);
  if (self->project)
    fill (self);
  GTK_WIDGET_CLASS (bw_history_popover_parent_class)->show (widget);
  gtk_widget_grab_focus (GTK_WIDGET (self->list));
}

static void
bw_history_popover_unmap (GtkWidget *widget)
{
  BwHistoryPopover *self = BW_HISTORY_POPOVER (widget);
  if (self->tick)
    gtk_widget_remove_tick_callback (widget, self->tick);
  self->tick = 0;
  GTK_WIDGET_CLASS (bw_history_popover_parent_class)->unmap (widget);
}

static void
bw_history_popover_dispose (GObject *object)
{
  BwHistoryPopover *self = BW_HISTORY_POPOVER (object);
  g_clear_weak_pointer (&self->present);
  g_clear_object (&self->project);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (bw_history_popover_parent_class)->dispose (object);
}

static void
bw_history_popover_class_init (BwHistoryPopoverClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_history_popover_dispose;
  widget_class->show = bw_history_popover_show;
  widget_class->unmap = bw_history_popover_unmap;
  gtk_widget_class_install_action (widget_class, "steps.go", "u", go_to);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/io/github/bandwright/Bandwright/history-popover.ui");
  gtk_widget_class_bind_template_child (widget_class, BwHistoryPopover, list);
  gtk_widget_class_bind_template_callback (widget_class, row_activated);
  gtk_widget_class_bind_template_callback (widget_class, row_set_up);
  gtk_widget_class_bind_template_callback (widget_class, row_bound);
}

static void
bw_history_popover_init (BwHistoryPopover *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  GtkEventController *keys = gtk_event_controller_key_new ();
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (menu_key), self);
  gtk_widget_add_controller (GTK_WIDGET (self->list), keys);
}
