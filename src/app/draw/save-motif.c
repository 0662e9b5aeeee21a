/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What was selected when the question was put is what is kept. */
#include "config.h"

#include "app/draw/own-motifs.h"
#include "app/draw/save-motif.h"

#include <glib/gi18n-lib.h>

typedef struct {
  BwDrawing *drawing;
  BwRegion *region;
  BwTray tray;
  GtkEditable *name;
  BwMotifSaved told;
  gpointer data;
} Ask;

static void
ask_free (gpointer data)
{
  Ask *ask = data;
  bw_drawing_free (ask->drawing);
  bw_region_free (ask->region);
  g_free (ask);
}

static void
save (Ask *ask)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *name = bw_own_motif_save (ask->drawing, ask->region, &ask->tray,
                                             gtk_editable_get_text (ask->name), &error);
  g_autofree char *sentence
      = name ? g_strdup_printf (_ ("“%s” is kept among your own motifs."), name)
             : g_strdup_printf (_ ("The motif could not be kept: %s"), error->message);
  ask->told (name != NULL, sentence, ask->data);
}

static void
answered (GtkDialog *dialog, int answer, Ask *ask)
{
  g_autoptr (GtkDialog) held = g_object_ref (dialog);
  if (answer == GTK_RESPONSE_ACCEPT)
    save (ask);
  gtk_window_destroy (GTK_WINDOW (dialog));
}

static GtkWidget *
name_entry (void)
{
  GtkWidget *entry = gtk_entry_new ();
  gtk_editable_set_text (GTK_EDITABLE (entry), _ ("Motif"));
  gtk_entry_set_max_length (GTK_ENTRY (entry), 60);
  gtk_entry_set_activates_default (GTK_ENTRY (entry), TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Name of the motif"), -1);
  return entry;
}

void
bw_save_motif_ask (GtkWindow *parent, BwSession *session, BwMotifSaved told, gpointer data)
{
  const BwRegion *region = bw_session_get_selection (session);
  g_return_if_fail (region != NULL);
  BwProject *project = bw_session_get_project (session);
  Ask *ask = g_new0 (Ask, 1);
  ask->drawing = bw_drawing_copy (bw_project_get_drawing (project));
  ask->region = bw_region_copy (region);
  ask->tray = *bw_project_get_tray (project);
  ask->told = told;
  ask->data = data;
  GtkWidget *dialog = gtk_message_dialog_new (
      parent, GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT, GTK_MESSAGE_QUESTION,
      GTK_BUTTONS_NONE, "%s", _ ("Keep the selected beads as a motif?"));
  GtkWidget *entry = name_entry ();
  ask->name = GTK_EDITABLE (entry);
  gtk_box_append (GTK_BOX (gtk_message_dialog_get_message_area (GTK_MESSAGE_DIALOG (dialog))),
                  entry);
  gtk_dialog_add_button (GTK_DIALOG (dialog), _ ("_Cancel"), GTK_RESPONSE_CANCEL);
  gtk_dialog_add_button (GTK_DIALOG (dialog), _ ("_Keep"), GTK_RESPONSE_ACCEPT);
  gtk_dialog_set_default_response (GTK_DIALOG (dialog), GTK_RESPONSE_ACCEPT);
  g_object_set_data_full (G_OBJECT (dialog), "ask", ask, ask_free);
  g_signal_connect (dialog, "response", G_CALLBACK (answered), ask);
  gtk_window_present (GTK_WINDOW (dialog));
  gtk_widget_grab_focus (entry);
}
