/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drags.h"

#include "desk.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#define FAR 16 /* px: no slip of the hand */

typedef struct {
  GtkWidget *widget;
  GtkDragSource *source;
  double x, y;
  int moves;
} PickUp;

static GtkDragSource *
source_of (GtkWidget *widget)
{
  g_autoptr (GListModel) all = gtk_widget_observe_controllers (widget);
  for (guint i = 0; i < g_list_model_get_n_items (all); i++) {
    g_autoptr (GtkEventController) controller = g_list_model_get_item (all, i);
    if (GTK_IS_DRAG_SOURCE (controller))
      return GTK_DRAG_SOURCE (controller);
  }
  return NULL;
}

static GtkDragSource *
source_at (GtkWidget *widget)
{
  for (; widget; widget = gtk_widget_get_parent (widget)) {
    GtkDragSource *source = source_of (widget);
    if (source)
      return source;
  }
  return NULL;
}

/* A press must have lasted a while in newer toolkits before moving on makes it a drag. */
static gboolean
is_picked_up (gpointer data)
{
  PickUp *it = data;
  if (!gtk_drag_source_get_drag (it->source))
    desk_move (it->widget, it->x + FAR + it->moves++ % 2, it->y);
  return gtk_drag_source_get_drag (it->source) != NULL;
}

GtkDragSource *
drags_pick_up (GtkWidget *widget, double x, double y)
{
  PickUp it = { widget, source_at (widget), x, y, 0 };
  assert_non_null (it.source);
  desk_move (widget, x, y);
  desk_press (1);
  desk_until (is_picked_up, &it);
  return it.source;
}

static gboolean
is_over (gpointer source)
{
  return gtk_drag_source_get_drag (source) == NULL;
}

void
drags_let_go (GtkDragSource *source)
{
  desk_release (1);
  desk_until (is_over, source);
  desk_settle ();
}

static GtkWidget *
folder_with (GFile *file)
{
  GtkWidget *window = gtk_window_new (), *icon = gtk_label_new ("a file");
  GtkDragSource *source = gtk_drag_source_new ();
  g_autoptr (GdkContentProvider) content = gdk_content_provider_new_typed (G_TYPE_FILE, file);
  gtk_drag_source_set_content (source, content);
  gtk_widget_add_controller (icon, GTK_EVENT_CONTROLLER (source));
  gtk_window_set_decorated (GTK_WINDOW (window), FALSE);
  gtk_window_set_default_size (GTK_WINDOW (window), 120, 40);
  gtk_window_set_child (GTK_WINDOW (window), icon);
  gtk_window_present (GTK_WINDOW (window));
  desk_settle ();
  return window;
}

void
drags_file (const char *path, GtkWidget *onto, double x, double y)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  GtkWidget *folder = folder_with (file);
  GtkWidget *icon = gtk_window_get_child (GTK_WINDOW (folder));
  GtkDragSource *source
      = drags_pick_up (icon, gtk_widget_get_width (icon) / 2.0, gtk_widget_get_height (icon) / 2.0);
  desk_move (onto, x - FAR, y);
  desk_move (onto, x, y);
  drags_let_go (source);
  gtk_window_destroy (GTK_WINDOW (folder));
  desk_settle ();
}
