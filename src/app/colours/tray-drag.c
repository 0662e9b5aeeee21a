/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is dragged is a row of this very list: nothing from elsewhere is taken, and a line shows
 * between which rows it would come to lie. */
#include "app/colours/tray-drag.h"

typedef struct {
  GtkListBox *list;
  BwTrayMoved moved;
  gpointer data;
  int from; /* the row that is dragged, -1 for none */
} Drag;

static GtkWidget *
row_at (Drag *drag, int index)
{
  return GTK_WIDGET (gtk_list_box_get_row_at_index (drag->list, index));
}

static int
count_rows (Drag *drag)
{
  int n = 0;
  while (row_at (drag, n))
    n++;
  return n;
}

/* Before which row a point lies, the number of rows after the last. */
static int
gap_at (Drag *drag, double y)
{
  int n = count_rows (drag);
  for (int i = 0; i < n; i++) {
    graphene_rect_t place;
    if (gtk_widget_compute_bounds (row_at (drag, i), GTK_WIDGET (drag->list), &place)
        && y < (double)(place.origin.y + place.size.height / 2))
      return i;
  }
  return n;
}

static void
show_gap (Drag *drag, int gap)
{
  int n = count_rows (drag);
  for (int i = 0; i < n; i++) {
    gtk_widget_remove_css_class (row_at (drag, i), "drop-before");
    gtk_widget_remove_css_class (row_at (drag, i), "drop-after");
  }
  if (gap >= 0 && gap < n)
    gtk_widget_add_css_class (row_at (drag, gap), "drop-before");
  else if (gap == n && n > 0)
    gtk_widget_add_css_class (row_at (drag, n - 1), "drop-after");
}

static GdkContentProvider *
prepare (GtkDragSource *source, double x, double y, Drag *drag)
{
  GtkListBoxRow *row = gtk_list_box_get_row_at_y (drag->list, (int)y);
  drag->from = row ? gtk_list_box_row_get_index (row) : -1;
  if (!row)
    return NULL;
  g_autoptr (GdkPaintable) picture = gtk_widget_paintable_new (GTK_WIDGET (row));
  gtk_drag_source_set_icon (source, picture, 12, 12);
  return gdk_content_provider_new_typed (G_TYPE_INT, drag->from);
}

static void
ended (Drag *drag)
{
  drag->from = -1;
  show_gap (drag, -1);
}

static GdkDragAction
moving (Drag *drag, double x, double y)
{
  if (drag->from < 0)
    return 0;
  show_gap (drag, gap_at (drag, y));
  return GDK_ACTION_MOVE;
}

static void
left (Drag *drag)
{
  show_gap (drag, -1);
}

static gboolean
dropped (Drag *drag, const GValue *value, double x, double y)
{
  int from = drag->from, gap = gap_at (drag, y);
  int to = gap > from ? gap - 1 : gap;
  if (from < 0)
    return FALSE;
  show_gap (drag, -1);
  if (to != from)
    drag->moved (from, to, drag->data);
  return TRUE;
}

void
bw_tray_drag_add (GtkListBox *list, BwTrayMoved moved, gpointer data)
{
  g_return_if_fail (GTK_IS_LIST_BOX (list));
  Drag *drag = g_new (Drag, 1);
  *drag = (Drag){ list, moved, data, -1 };
  GtkDragSource *source = gtk_drag_source_new ();
  GtkDropTarget *target = gtk_drop_target_new (G_TYPE_INT, GDK_ACTION_MOVE);
  gtk_drag_source_set_actions (source, GDK_ACTION_MOVE);
  g_signal_connect (source, "prepare", G_CALLBACK (prepare), drag);
  g_signal_connect_swapped (source, "drag-end", G_CALLBACK (ended), drag);
  g_signal_connect_swapped (target, "motion", G_CALLBACK (moving), drag);
  g_signal_connect_swapped (target, "leave", G_CALLBACK (left), drag);
  g_signal_connect_swapped (target, "drop", G_CALLBACK (dropped), drag);
  gtk_widget_add_controller (GTK_WIDGET (list), GTK_EVENT_CONTROLLER (source));
  gtk_widget_add_controller (GTK_WIDGET (list), GTK_EVENT_CONTROLLER (target));
  g_object_set_data_full (G_OBJECT (list), "tray-drag", drag, g_free);
}
