/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/window/focus-keeper.h"

typedef struct {
  GtkWidget *last; /* weak: what had the focus and lies in no popover */
  guint later;
} Keeper;

static void
keeper_free (gpointer data)
{
  Keeper *keeper = data;
  g_clear_weak_pointer (&keeper->last);
  g_clear_handle_id (&keeper->later, g_source_remove);
  g_free (keeper);
}

static Keeper *
keeper_of (GtkWindow *window)
{
  return g_object_get_data (G_OBJECT (window), "bw-focus-keeper");
}

/* A focus that cannot be seen hears no keys either. */
static gboolean
has_focus (GtkWindow *window)
{
  GtkWidget *focus = gtk_window_get_focus (window);
  return focus && gtk_widget_get_mapped (focus);
}

static gboolean
give (gpointer data)
{
  GtkWindow *window = data;
  Keeper *keeper = keeper_of (window);
  keeper->later = 0;
  if (has_focus (window) || !gtk_widget_get_mapped (GTK_WIDGET (window)))
    return G_SOURCE_REMOVE;
  if (!keeper->last || !gtk_widget_get_mapped (keeper->last)
      || !gtk_widget_grab_focus (keeper->last))
    gtk_widget_child_focus (GTK_WIDGET (window), GTK_DIR_TAB_FORWARD);
  return G_SOURCE_REMOVE;
}

static void
focus_changed (GtkWindow *window)
{
  Keeper *keeper = keeper_of (window);
  GtkWidget *focus = gtk_window_get_focus (window);
  if (!focus && !keeper->later)
    keeper->later = g_idle_add (give, window);
  else if (focus && !gtk_widget_get_ancestor (focus, GTK_TYPE_POPOVER))
    g_set_weak_pointer (&keeper->last, focus);
}

void
bw_focus_keep (GtkWindow *window)
{
  g_return_if_fail (GTK_IS_WINDOW (window));
  g_object_set_data_full (G_OBJECT (window), "bw-focus-keeper", g_new0 (Keeper, 1), keeper_free);
  g_signal_connect (window, "notify::focus-widget", G_CALLBACK (focus_changed), NULL);
}
