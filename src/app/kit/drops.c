/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/kit/drops.h"

void
bw_drops_open (GtkWidget *widget, GFile *file)
{
  g_autofree char *uri = g_file_get_uri (file);
  gtk_widget_activate_action (widget, "win.open-file", "s", uri);
}

static gboolean
is_project (GFile *file)
{
  g_autofree char *name = g_file_get_basename (file);
  g_autofree char *small = g_ascii_strdown (name, -1);
  return g_str_has_suffix (small, ".bandwright");
}

static void
take (GtkWidget *widget, GFile *file, BwDropped other)
{
  if (is_project (file))
    bw_drops_open (widget, file);
  else
    other (widget, file);
}

static gboolean
dropped (GtkDropTarget *target, const GValue *value, double x, double y, gpointer other)
{
  GtkWidget *widget = gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (target));
  if (G_VALUE_HOLDS (value, G_TYPE_FILE)) {
    take (widget, g_value_get_object (value), (BwDropped)other);
    return TRUE;
  }
  g_autoptr (GSList) files = gdk_file_list_get_files (g_value_get_boxed (value));
  for (GSList *item = files; item; item = item->next)
    take (widget, item->data, (BwDropped)other);
  return files != NULL;
}

void
bw_drops_take (GtkWidget *widget, BwDropped other)
{
  GType types[] = { GDK_TYPE_FILE_LIST, G_TYPE_FILE };
  GtkDropTarget *target = gtk_drop_target_new (G_TYPE_INVALID, GDK_ACTION_COPY);
  gtk_drop_target_set_gtypes (target, types, G_N_ELEMENTS (types));
  g_signal_connect (target, "drop", G_CALLBACK (dropped), other);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (target));
}
