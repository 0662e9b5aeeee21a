/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/keep/logout-hold.h"
#include "project/file/file-name.h"

#include <glib/gi18n-lib.h>

#define NAME_MOST 40

static void
let_go (BwLogoutHold *hold, GtkApplication *application)
{
  if (hold->cookie) /* a session that knows of no such wish gives none */
    gtk_application_uninhibit (application, hold->cookie);
  *hold = (BwLogoutHold){ 0 };
}

void
bw_logout_hold (BwLogoutHold *hold, GtkWindow *window, gboolean unsaved, const char *name)
{
  GApplication *application = g_application_get_default ();
  if (!GTK_IS_APPLICATION (application) || unsaved == hold->held)
    return;
  if (!unsaved) {
    let_go (hold, GTK_APPLICATION (application));
    return;
  }
  g_autofree char *shown = bw_words_shortened (name, NAME_MOST);
  g_autofree char *reason = g_strdup_printf (_ ("“%s” is not saved."), shown);
  hold->held = TRUE;
  hold->cookie = gtk_application_inhibit (GTK_APPLICATION (application), window,
                                          GTK_APPLICATION_INHIBIT_LOGOUT, reason);
}
