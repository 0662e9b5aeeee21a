/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/kit/tip.h"

void
bw_tip_set (GtkWidget *widget, const char *words)
{
  g_return_if_fail (GTK_IS_WIDGET (widget));
  const char *tip = words && *words ? words : NULL;
  gboolean unseen = gtk_widget_get_visible (widget) && !gtk_widget_get_mapped (widget);
  if (g_strcmp0 (gtk_widget_get_tooltip_text (widget), tip) == 0)
    return;
  if (unseen)
    gtk_widget_set_visible (widget, FALSE);
  gtk_widget_set_tooltip_text (widget, tip);
  if (unseen)
    gtk_widget_set_visible (widget, TRUE);
}
