/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The toolkit's number fields and sliders take the wheel for themselves, with the focus or without:
 * who scrolls past one changes a number unawares. On a page that scrolls none of them may hear it.
 * Done when a widget is shown, so that no dialog and no page made later is forgotten. */
#include "app/kit/wheel.h"

#include <gtk/gtk.h>

static gboolean
takes_the_wheel (GtkWidget *widget)
{
  return GTK_IS_SPIN_BUTTON (widget) || GTK_IS_DROP_DOWN (widget) || GTK_IS_ENTRY (widget)
         || GTK_IS_SCALE (widget);
}

static void
deafen (GtkWidget *widget)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (widget);
  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++) {
    g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);
    if (GTK_IS_EVENT_CONTROLLER_SCROLL (controller))
      gtk_event_controller_set_propagation_phase (controller, GTK_PHASE_NONE);
  }
}

static gboolean
shown (GSignalInvocationHint *hint, guint n_values, const GValue *values, gpointer data)
{
  GtkWidget *widget = g_value_get_object (&values[0]);
  if (takes_the_wheel (widget) && gtk_widget_get_ancestor (widget, GTK_TYPE_SCROLLED_WINDOW))
    deafen (widget);
  return TRUE; /* go on listening */
}

void
bw_wheel_scrolls_pages (void)
{
  /* A class that was never used has no signals yet. */
  g_type_class_unref (g_type_class_ref (GTK_TYPE_WIDGET));
  g_signal_add_emission_hook (g_signal_lookup ("map", GTK_TYPE_WIDGET), 0, shown, NULL, NULL);
}
