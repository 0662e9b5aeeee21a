/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/kit/settings.h"
#include "app/window/place.h"

#include <math.h>

/* The paned's place is kept as a share, so that it means the same in the next, other window. */
void
bw_place_keep (GtkWindow *window, GtkPaned *paned)
{
  BwSettings *settings = bw_settings_get ();
  int width, height, whole = gtk_widget_get_width (GTK_WIDGET (paned));
  gtk_window_get_default_size (window, &width, &height);
  g_object_set (settings, "maximized", gtk_window_is_maximized (window), NULL);
  if (width > 0 && height > 0)
    g_object_set (settings, "window-width", CLAMP (width, 600, 16384), "window-height",
                  CLAMP (height, 400, 16384), NULL);
  if (whole > 0) {
    double share = (double)gtk_paned_get_position (paned) / whole;
    g_object_set (settings, "stage-share", CLAMP (share, 0.2, 0.9), NULL);
  }
}

/* Only now is it known what the share is of: the window's frame and a maximised window differ from
 * the size that was asked for, and a share taken of the wrong whole would drift with every start.
 */
static gboolean
share_out (GtkWidget *paned, GdkFrameClock *clock, gpointer data)
{
  int whole = gtk_widget_get_width (paned);
  if (whole <= 0)
    return G_SOURCE_CONTINUE;
  double share = bw_settings_get_number (bw_settings_get (), "stage-share");
  gtk_paned_set_position (GTK_PANED (paned), (int)lround (whole * share));
  return G_SOURCE_REMOVE;
}

void
bw_place_take (GtkWindow *window, GtkPaned *paned)
{
  BwSettings *settings = bw_settings_get ();
  int width = bw_settings_get_count (settings, "window-width");
  int height = bw_settings_get_count (settings, "window-height");
  gtk_window_set_default_size (window, width, height);
  gtk_paned_set_position (paned, (int)(width * bw_settings_get_number (settings, "stage-share")));
  gtk_widget_add_tick_callback (GTK_WIDGET (paned), share_out, NULL, NULL);
  if (bw_settings_get_flag (settings, "maximized"))
    gtk_window_maximize (window);
}
