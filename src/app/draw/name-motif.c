/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/draw/name-motif.h"
#include "app/draw/own-motifs.h"
#include "app/ask/sure.h"

#include <glib/gi18n-lib.h>

#define NAME_MOST 60 /* letters, so that the file's name is none too long for a disk */

typedef struct {
  GtkWindow *dialog;
  GtkEditable *name;
  char *first; /* the name to begin from */
  BwMotifNamed named;
  gpointer data;
  GDestroyNotify free;
} Ask;

static void
ask_free (gpointer data)
{
  Ask *ask = data;
  if (ask->free)
    ask->free (ask->data);
  g_free (ask->first);
  g_free (ask);
}

static void
give (Ask *ask)
{
  g_autoptr (GtkWindow) dialog = g_object_ref (ask->dialog);
  ask->named (gtk_editable_get_text (ask->name), ask->data);
  gtk_window_destroy (dialog);
}

/* The question goes before its answer is followed, which may end what it was asked over. The
 * toolkit holds it a little longer than that, and must not ask it then for a window that is gone.
 */
static void
replace_answered (GtkDialog *question, int answer, Ask *ask)
{
  g_autoptr (GtkDialog) held = g_object_ref (question);
  gtk_window_set_transient_for (GTK_WINDOW (question), NULL);
  gtk_window_destroy (GTK_WINDOW (question));
  if (answer == GTK_RESPONSE_ACCEPT)
    give (ask);
  else
    gtk_widget_grab_focus (GTK_WIDGET (ask->name));
}

static void
ask_to_replace (Ask *ask, const char *name)
{
  g_autofree char *question = g_strdup_printf (_ ("Replace “%s”?"), name);
  bw_ask_sure (ask->dialog, question,
               _ ("A motif of this name is kept already. Replaced, the earlier one is gone."),
               _ ("Another _Name"), _ ("_Replace"), G_CALLBACK (replace_answered), ask);
}

static void
answered (GtkDialog *dialog, int answer, Ask *ask)
{
  g_autoptr (GtkDialog) held = g_object_ref (dialog);
  const char *name = gtk_editable_get_text (ask->name);
  if (answer != GTK_RESPONSE_ACCEPT)
    gtk_window_destroy (GTK_WINDOW (dialog));
  else if (bw_own_motif_is_kept (name) && g_strcmp0 (name, ask->first) != 0)
    ask_to_replace (ask, name);
  else
    give (ask);
}

static GtkWidget *
name_entry (const char *name)
{
  GtkWidget *entry = gtk_entry_new ();
  gtk_editable_set_text (GTK_EDITABLE (entry), name);
  gtk_entry_set_max_length (GTK_ENTRY (entry), NAME_MOST);
  gtk_entry_set_activates_default (GTK_ENTRY (entry), TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Name of the motif"), -1);
  return entry;
}

void
bw_name_motif_ask (GtkWindow *parent, const char *question, const char *accept, const char *name,
                   BwMotifNamed named, gpointer data, GDestroyNotify free)
{
  Ask *ask = g_new0 (Ask, 1);
  GtkWidget *dialog
      = gtk_message_dialog_new (parent, GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT,
                                GTK_MESSAGE_QUESTION, GTK_BUTTONS_NONE, "%s", question);
  GtkWidget *entry = name_entry (name);
  *ask = (Ask){ GTK_WINDOW (dialog), GTK_EDITABLE (entry), g_strdup (name), named, data, free };
  gtk_box_append (GTK_BOX (gtk_message_dialog_get_message_area (GTK_MESSAGE_DIALOG (dialog))),
                  entry);
  gtk_dialog_add_button (GTK_DIALOG (dialog), _ ("_Cancel"), GTK_RESPONSE_CANCEL);
  gtk_dialog_add_button (GTK_DIALOG (dialog), accept, GTK_RESPONSE_ACCEPT);
  gtk_dialog_set_default_response (GTK_DIALOG (dialog), GTK_RESPONSE_ACCEPT);
  g_object_set_data_full (G_OBJECT (dialog), "ask", ask, ask_free);
  g_signal_connect (dialog, "response", G_CALLBACK (answered), ask);
  gtk_window_present (GTK_WINDOW (dialog));
  gtk_widget_grab_focus (entry);
}
