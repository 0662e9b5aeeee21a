/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/kit/description.h"

static void
say (GtkLabel *by, GParamSpec *what, GtkAccessible *control)
{
  const char *words = gtk_label_get_text (by);
  if (*words)
    gtk_accessible_update_property (control, GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, words, -1);
  else
    gtk_accessible_reset_property (control, GTK_ACCESSIBLE_PROPERTY_DESCRIPTION);
}

void
bw_describe (GtkWidget *control, GtkLabel *by)
{
  g_signal_connect_object (by, "notify::label", G_CALLBACK (say), control, 0);
  say (by, NULL, GTK_ACCESSIBLE (control));
}
