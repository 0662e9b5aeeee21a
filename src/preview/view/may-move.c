/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "preview/view/may-move.h"

gboolean
bw_view_may_move (GtkWidget *widget)
{
  gboolean animations = TRUE;
  g_object_get (gtk_widget_get_settings (widget), "gtk-enable-animations", &animations, NULL);
  return animations && gtk_widget_get_mapped (widget);
}
