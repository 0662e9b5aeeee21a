/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/ask/show-opened.h"

#define ENOUGH_PX 120.0

typedef struct {
  GtkWidget *body;
  int frames;
} Opened;

/* The frame that lays it out comes after the first call of this. */
static gboolean
on_frame (GtkWidget *whole, GdkFrameClock *clock, gpointer data)
{
  Opened *opened = data;
  GtkWidget *page = gtk_widget_get_ancestor (whole, GTK_TYPE_SCROLLED_WINDOW);
  graphene_rect_t all, body;
  if (opened->frames++ == 0)
    return G_SOURCE_CONTINUE;
  if (!page || !gtk_widget_get_mapped (opened->body)
      || !gtk_widget_compute_bounds (whole, page, &all)
      || !gtk_widget_compute_bounds (opened->body, page, &body))
    return G_SOURCE_REMOVE;
  double height = gtk_widget_get_height (page);
  double out_of_sight = (double)all.origin.y + (double)all.size.height - height;
  if (height - (double)body.origin.y < MIN ((double)body.size.height, ENOUGH_PX)) {
    GtkAdjustment *place = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (page));
    gtk_adjustment_set_value (place, gtk_adjustment_get_value (place)
                                         + MIN (out_of_sight, (double)all.origin.y));
  }
  return G_SOURCE_REMOVE;
}

void
bw_show_opened (GtkWidget *whole, GtkWidget *body)
{
  Opened *opened = g_new0 (Opened, 1);
  opened->body = body;
  gtk_widget_add_tick_callback (whole, on_frame, opened, g_free);
}
