/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/draw/tried-ribbon.h"

#include <glib/gi18n-lib.h>

static void
show (GtkWidget *ribbon, guint what, BwProject *project)
{
  gtk_widget_set_visible (ribbon, bw_project_has_trial (project));
}

/* A project that was let go of is not listened to any more. */
static void
follow (GtkWidget *ribbon, BwSession *session)
{
  BwProject *project = bw_session_get_project (session);
  BwProject *before = g_object_get_data (G_OBJECT (ribbon), "project");
  if (before)
    g_signal_handlers_disconnect_by_func (before, show, ribbon);
  g_object_set_data_full (G_OBJECT (ribbon), "project", g_object_ref (project), g_object_unref);
  g_signal_connect_object (project, "changed", G_CALLBACK (show), ribbon, G_CONNECT_SWAPPED);
  show (ribbon, 0, project);
}

GtkWidget *
bw_tried_ribbon_new (BwSession *session)
{
  GtkWidget *ribbon = gtk_label_new (_ ("Only tried, not laid yet"));
  gtk_label_set_wrap (GTK_LABEL (ribbon), TRUE);
  gtk_widget_add_css_class (ribbon, "tried");
  gtk_widget_set_halign (ribbon, GTK_ALIGN_CENTER);
  gtk_widget_set_valign (ribbon, GTK_ALIGN_START);
  gtk_widget_set_can_target (ribbon, FALSE);
  g_signal_connect_object (session, "project-changed", G_CALLBACK (follow), ribbon,
                           G_CONNECT_SWAPPED);
  follow (ribbon, session);
  return ribbon;
}
