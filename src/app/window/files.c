/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Opening, saving and closing: nothing is thrown away without a question. */
#include "config.h"

#include "app/kit/file-dialog.h"
#include "app/window/window-private.h"
#include "core/base/fault.h"

#include <glib/gi18n-lib.h>

/* What went wrong with a file in plain words, where the system's own would repeat its whole path.
 */
static const char *
plain_io_words (const GError *error)
{
  if (error->domain != G_IO_ERROR)
    return NULL;
  switch (error->code) {
  case G_IO_ERROR_NOT_FOUND:
    return _ ("there is no such file or folder.");
  case G_IO_ERROR_PERMISSION_DENIED:
    return _ ("you have no permission to do that.");
  case G_IO_ERROR_READ_ONLY:
    return _ ("it is on a medium that can only be read.");
  case G_IO_ERROR_IS_DIRECTORY:
    return _ ("it is a folder.");
  case G_IO_ERROR_NO_SPACE:
    return _ ("there is no room left.");
  default:
    return NULL;
  }
}

/* A fault names its place in the file; the reader of a sentence wants the place last. */
static char *
plain_reason (const GError *error)
{
  g_autofree char *pointer = bw_fault_dup_pointer (error);
  const char *words = plain_io_words (error);
  if (words)
    return g_strdup (words);
  if (!pointer)
    return g_strdup (bw_fault_sentence (error));
  return g_strdup_printf (_ ("%s (at %s)"), bw_fault_sentence (error), pointer);
}

void
bw_window_tell_failure (BwWindow *self, const char *format, GFile *file, const GError *error)
{
  g_autofree char *name = g_file_get_basename (file);
  g_autofree char *reason = plain_reason (error);
  g_auto (GStrv) parts = g_strsplit (format, "%s", 3);
  g_return_if_fail (g_strv_length (parts) == 3);
  g_autofree char *sentence = g_strconcat (parts[0], name, parts[1], reason, parts[2], NULL);
  bw_window_tell (self, GTK_MESSAGE_ERROR, sentence);
}

static void
remember (GFile *file)
{
  g_autofree char *uri = g_file_get_uri (file);
  GtkRecentData data = { .mime_type = (char *)"application/x-bandwright+json",
                         .app_name = (char *)"Bandwright",
                         .app_exec = (char *)"bandwright %u" };
  gtk_recent_manager_add_full (gtk_recent_manager_get_default (), uri, &data);
}

/* The window that shows this file already; NULL when none does. */
static BwWindow *
window_of (GtkApplication *application, GFile *file)
{
  for (GList *item = gtk_application_get_windows (application); item; item = item->next) {
    if (!BW_IS_WINDOW (item->data))
      continue;
    GFile *shown = bw_project_get_file (BW_WINDOW (item->data)->project);
    if (shown && g_file_equal (shown, file))
      return item->data;
  }
  return NULL;
}

void
bw_window_open (BwWindow *self, GFile *file)
{
  g_autoptr (GError) error = NULL;
  g_return_if_fail (BW_IS_WINDOW (self) && G_IS_FILE (file));
  GtkApplication *application = gtk_window_get_application (GTK_WINDOW (self));
  BwWindow *shown = window_of (application, file);
  if (shown) {
    gtk_window_present (GTK_WINDOW (shown));
    return;
  }
  g_autoptr (BwProject) project = bw_project_load (file, &error);
  if (!project) {
    bw_window_tell_failure (self, _ ("“%s” could not be opened: %s"), file, error);
    return;
  }
  remember (file);
  if (bw_window_is_untouched (self))
    bw_window_set_project (self, project);
  else
    gtk_window_present (GTK_WINDOW (bw_window_new (application, project)));
}

static void
open_chosen (GFile *file, gpointer data)
{
  bw_window_open (data, file);
}

void
bw_window_ask_open (BwWindow *self)
{
  bw_file_dialog_open (GTK_WINDOW (self), BW_FILES_PROJECT, open_chosen, self);
}

static gboolean
save_to (BwWindow *self, GFile *file)
{
  g_autoptr (GError) error = NULL;
  if (!bw_project_save (self->project, file, &error)) {
    bw_window_tell_failure (self, _ ("“%s” could not be saved: %s"), file, error);
    return FALSE;
  }
  remember (file);
  bw_recovery_keep (self->recovery);
  gtk_info_bar_set_revealed (self->notice, FALSE);
  return TRUE;
}

static void
save_chosen (GFile *file, gpointer data)
{
  BwWindow *self = data;
  if (save_to (self, file) && self->after_save)
    self->after_save (self);
}

void
bw_window_save (BwWindow *self, gboolean ask, void (*then) (BwWindow *self))
{
  GFile *file = bw_project_get_file (self->project);
  bw_draft_settle (self->draft);
  self->after_save = then;
  if (file && !ask) {
    g_autoptr (GFile) own = g_object_ref (file);
    save_chosen (own, self);
    return;
  }
  g_autofree char *name = bw_file_name_for (bw_project_get_title (self->project), BW_FILES_PROJECT);
  bw_file_dialog_save (GTK_WINDOW (self), BW_FILES_PROJECT, name, file, save_chosen, self);
}

static void
close_now (BwWindow *self)
{
  self->answered = TRUE;
  gtk_window_close (GTK_WINDOW (self));
}

/* Quitting goes on with the next window once this one is gone. */
static void
close_and_quit (BwWindow *self)
{
  g_autoptr (GtkApplication) application
      = g_object_ref (gtk_window_get_application (GTK_WINDOW (self)));
  close_now (self);
  g_action_group_activate_action (G_ACTION_GROUP (application), "quit", NULL);
}

enum { ANSWER_SAVE = 1, ANSWER_DISCARD };

static void
answered (BwWindow *self, int answer, GtkDialog *dialog)
{
  gboolean quitting = g_object_get_data (G_OBJECT (dialog), "quitting") != NULL;
  void (*then) (BwWindow *) = quitting ? close_and_quit : close_now;
  /* The dialog outlives this call and may outlive the window it stands before. */
  gtk_window_set_transient_for (GTK_WINDOW (dialog), NULL);
  gtk_window_destroy (GTK_WINDOW (dialog));
  if (answer == ANSWER_DISCARD)
    then (self);
  else if (answer == ANSWER_SAVE)
    bw_window_save (self, FALSE, then);
}

static GtkWidget *
unsaved_question (BwWindow *self)
{
  GtkWidget *dialog = gtk_message_dialog_new (
      GTK_WINDOW (self), GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT, GTK_MESSAGE_QUESTION,
      GTK_BUTTONS_NONE, _ ("Save “%s” before closing?"), bw_window_name (self));
  gtk_message_dialog_format_secondary_text (
      GTK_MESSAGE_DIALOG (dialog), "%s",
      _ ("What you changed since the last save is lost otherwise."));
  gtk_dialog_add_button (GTK_DIALOG (dialog), _ ("_Discard"), ANSWER_DISCARD);
  gtk_dialog_add_button (GTK_DIALOG (dialog), _ ("_Cancel"), GTK_RESPONSE_CANCEL);
  gtk_dialog_add_button (GTK_DIALOG (dialog), _ ("_Save"), ANSWER_SAVE);
  gtk_dialog_set_default_response (GTK_DIALOG (dialog), ANSWER_SAVE);
  gtk_widget_add_css_class (
      gtk_dialog_get_widget_for_response (GTK_DIALOG (dialog), ANSWER_DISCARD),
      "destructive-action");
  return dialog;
}

gboolean
bw_window_hold_close (BwWindow *self)
{
  if (self->answered || !bw_project_get_modified (self->project))
    return FALSE;
  GtkWidget *dialog = unsaved_question (self);
  g_object_set_data (G_OBJECT (dialog), "quitting", GINT_TO_POINTER (self->quitting));
  g_signal_connect_object (dialog, "response", G_CALLBACK (answered), self, G_CONNECT_SWAPPED);
  gtk_window_present (GTK_WINDOW (dialog));
  return TRUE;
}

gboolean
bw_window_close_for_quit (BwWindow *self)
{
  g_return_val_if_fail (BW_IS_WINDOW (self), FALSE);
  g_autoptr (BwWindow) held = g_object_ref (self);
  held->quitting = TRUE;
  gtk_window_close (GTK_WINDOW (held));
  held->quitting = FALSE;
  return gtk_window_get_application (GTK_WINDOW (held)) == NULL;
}
