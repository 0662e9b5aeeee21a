/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The toolkit's text takes the press for itself, so events are looked at before it does; it has set
 * its cursor by the time the loop is idle. */
#include "config.h"

#include "app/kit/select-all.h"

static const char CAME[] = "bw-came-by-click";

static gboolean
select_all (gpointer data)
{
  GtkEditable *field = data;
  if (!gtk_editable_get_selection_bounds (field, NULL, NULL))
    gtk_editable_select_region (field, 0, -1);
  return G_SOURCE_REMOVE;
}

static gboolean
button_event (GtkEventControllerLegacy *controller, GdkEvent *event, GtkWidget *field)
{
  GdkEventType type = gdk_event_get_event_type (event);
  GtkStateFlags state = gtk_widget_get_state_flags (field);
  if (type == GDK_BUTTON_PRESS) {
    gboolean came
        = !(state & GTK_STATE_FLAG_FOCUS_WITHIN) && gdk_button_event_get_button (event) == 1;
    g_object_set_data (G_OBJECT (field), CAME, GINT_TO_POINTER (came));
  } else if (type == GDK_BUTTON_RELEASE && g_object_steal_data (G_OBJECT (field), CAME)) {
    g_idle_add_full (G_PRIORITY_HIGH_IDLE, select_all, g_object_ref (field), g_object_unref);
  }
  return FALSE;
}

void
bw_select_all_on_click (GtkWidget *field)
{
  g_return_if_fail (GTK_IS_EDITABLE (field));
  GtkEventController *buttons = gtk_event_controller_legacy_new ();
  gtk_event_controller_set_propagation_phase (buttons, GTK_PHASE_CAPTURE);
  g_signal_connect (buttons, "event", G_CALLBACK (button_event), field);
  gtk_widget_add_controller (field, buttons);
}
