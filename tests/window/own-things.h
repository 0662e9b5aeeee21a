/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The dialog of a thing the maker keeps, as a maker fills it in. */
#pragma once

#include "own-book.h"

#include "app/things/thing-dialog.h"

#include <math.h>

static inline void
assert_near (double a, double b)
{
  if (!(fabs (a - b) <= 1e-9))
    g_error ("%.10g is not %.10g", a, b);
}

/* The control beside these words. */
static inline GtkWidget *
control_of (GtkWidget *dialog, const char *words)
{
  return gtk_label_get_mnemonic_widget (GTK_LABEL (desk_find_label (dialog, words)));
}

static inline void
write_beside (GtkWidget *dialog, const char *words, const char *text)
{
  GtkWidget *entry = control_of (dialog, words);
  gtk_widget_grab_focus (entry);
  desk_settle ();
  desk_key ("a", GDK_CONTROL_MASK);
  if (*text)
    desk_type (text);
  else
    desk_key ("BackSpace", 0);
  desk_settle ();
}

static inline gboolean
can_save (GtkWidget *dialog)
{
  return gtk_widget_is_sensitive (button_of (dialog, "Save"));
}

static inline gboolean
is_gone (gpointer dialog)
{
  g_autoptr (GList) all = gtk_window_list_toplevels ();
  return g_list_find (all, dialog) == NULL;
}
