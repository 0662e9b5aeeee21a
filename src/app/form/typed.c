/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/form/typed.h"
#include "app/ask/tell.h"

#include <glib/gi18n-lib.h>

void
bw_typed_take (GtkWidget *widget)
{
  GtkRoot *root = gtk_widget_get_root (widget);
  GtkWidget *focus = root ? gtk_root_get_focus (root) : NULL;
  if (!focus)
    return;
  GtkWidget *spin = gtk_widget_get_ancestor (focus, GTK_TYPE_SPIN_BUTTON);
  if (spin)
    gtk_spin_button_update (GTK_SPIN_BUTTON (spin));
  gtk_widget_activate_action (focus, BW_TYPED_ACTION, NULL);
}

gboolean
bw_typed_stands (GtkWidget *widget, BwDraft *draft)
{
  bw_typed_take (widget);
  bw_draft_settle (draft);
  const char *name = bw_draft_waits (draft);
  if (!name)
    return TRUE;
  g_autofree char *sentence = g_strdup_printf (
      _ ("What is typed under “%s” cannot stand. It waits there, and is in no file, until you mend "
         "it."),
      name);
  bw_tell (widget, GTK_MESSAGE_WARNING, sentence);
  return FALSE;
}
