/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/kit/line-height.h"

int
bw_line_height (GtkWidget *widget)
{
  g_autoptr (PangoLayout) text = gtk_widget_create_pango_layout (widget, "0");
  int height;
  pango_layout_get_pixel_size (text, NULL, &height);
  return MAX (1, height);
}
