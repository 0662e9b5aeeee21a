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

/* The popover of a whole menu: a menu within it comes and goes on the same surface. */
static GtkWidget *
popover_of (GtkWidget *widget)
{
  return gtk_widget_get_ancestor (widget, GTK_TYPE_POPOVER);
}

/* A focus that cannot be seen hears no keys either; while a menu changes pages, it hears them. */
static gboolean
has_focus (GtkWindow *window)
{
  GtkWidget *focus = gtk_window_get_focus (window);
  GtkWidget *popover = focus ? popover_of (focus) : NULL;
  return focus && gtk_widget_get_mapped (popover ? popover : focus);
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
give_later (GtkWindow *window)
{
  Keeper *keeper = keeper_of (window);
  if (!keeper->later)
    keeper->later = g_idle_add (give, window);
}

static void
focus_changed (GtkWindow *window)
{
  Keeper *keeper = keeper_of (window);
  GtkWidget *focus = gtk_window_get_focus (window);
  GtkWidget *popover = focus ? popover_of (focus) : NULL;
  if (!focus || (popover && !gtk_widget_get_mapped (popover))) {
    give_later (window);
  } else if (popover) {
    g_signal_handlers_disconnect_by_func (popover, give_later, window);
    g_signal_connect_object (popover, "unmap", G_CALLBACK (give_later), window, G_CONNECT_SWAPPED);
  } else {
    g_set_weak_pointer (&keeper->last, focus);
  }
}

void
bw_focus_keep (GtkWindow *window)
{
  g_return_if_fail (GTK_IS_WINDOW (window));
  g_object_set_data_full (G_OBJECT (window), "bw-focus-keeper", g_new0 (Keeper, 1), keeper_free);
  g_signal_connect (window, "notify::focus-widget", G_CALLBACK (focus_changed), NULL);
}
