/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "editor/cloth/listening.h"

static void
listen_to_pointer (GtkWidget *widget, const BwListening *listening, gpointer data)
{
  GtkEventController *motion = gtk_event_controller_motion_new ();
  GtkEventController *scroll
      = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_BOTH_AXES);
  g_signal_connect (motion, "enter", listening->pointed, data);
  g_signal_connect (motion, "motion", listening->pointed, data);
  g_signal_connect_swapped (motion, "leave", listening->left, data);
  g_signal_connect (scroll, "scroll", listening->scrolled, data);
  gtk_widget_add_controller (widget, motion);
  gtk_widget_add_controller (widget, scroll);
}

void
bw_listen (GtkWidget *widget, const BwListening *listening, gpointer data)
{
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();
  listen_to_pointer (widget, listening, data);
  g_signal_connect (keys, "key-pressed", listening->key_pressed, data);
  if (listening->modifiers)
    g_signal_connect (keys, "modifiers", listening->modifiers, data);
  if (listening->focused)
    g_signal_connect_swapped (focus, "enter", listening->focused, data);
  g_signal_connect_swapped (focus, "leave", listening->unfocused, data);
  gtk_widget_add_controller (widget, keys);
  gtk_widget_add_controller (widget, focus);
}
