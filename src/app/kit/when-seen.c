/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/kit/when-seen.h"

static void
seen (GtkWidget *widget, gpointer show)
{
  g_signal_handlers_disconnect_by_func (widget, seen, show);
  ((BwShow)show) (widget);
}

void
bw_when_seen (GtkWidget *widget, BwShow show)
{
  if (gtk_widget_get_mapped (widget))
    show (widget);
  else if (!g_signal_handler_find (widget, G_SIGNAL_MATCH_FUNC | G_SIGNAL_MATCH_DATA, 0, 0, NULL,
                                   seen, (gpointer)show))
    g_signal_connect (widget, "map", G_CALLBACK (seen), (gpointer)show);
}
