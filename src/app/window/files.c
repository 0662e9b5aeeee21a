/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Opening, saving and closing: nothing is thrown away without a question. */
#include "config.h"

#include "app/form/typed.h"
#include "app/keep/changed-question.h"
#include "app/keep/demos.h"
#include "app/keep/designs.h"
#include "app/keep/recovery-folder.h"
#include "app/keep/workbook.h"
#include "app/shelf/restone-dialog.h"
#include "app/ask/file-dialog.h"
#include "project/file/file-name.h"
#include "project/piece-name.h"
#include "app/kit/settings.h"
#include "app/ask/tell-file.h"
#include "app/window/files.h"
#include "project/file/io-words.h"

#include <glib/gi18n-lib.h>
#include <sys/stat.h>

#define NAME_MOST 60 /* characters of a title in a question */

/* What a save in progress is for. */
typedef enum { THEN_NOTHING, THEN_CLOSE, THEN_QUIT } Then;

struct _BwFiles {
  GObject parent_instance;
  GtkWindow *window; /* borrowed: it owns us */
  BwDraft *draft;
  BwOpeningBar *opening; /* borrowed: it is the window's own */
  const BwFilesOwner *owner;
  Then then;
  gboolean answered; /* the maker has answered; close without asking */
  gboolean quitting; /* while the application closes the window to quit */
};

G_DEFINE_FINAL_TYPE (BwFiles, bw_files, G_TYPE_OBJECT)

static BwProject *
project_of (BwFiles *self)
{
  return bw_draft_get_project (self->draft);
}

static void
tell_failure (BwFiles *self, BwFileDeed deed, GFile *file, const GError *error)
{
  bw_tell_file_failure (GTK_WIDGET (self->window), deed, file, error);
}

static void
not_opened (BwFiles *self, GFile *file, const GError *error)
{
  gtk_window_present (self->window);
  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;
  tell_failure (self, BW_FILE_OPENED, file, error);
  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_NOT_FOUND))
    bw_designs_forget (bw_designs_get (), file);
}

static void
opened (GFile *file, BwProject *project, const GError *error, gpointer data)
{
  BwFiles *self = data;
  if (!gtk_window_get_application (self->window))
    return; /* it was closed meanwhile */
  if (!project) {
    not_opened (self, file, error);
    return;
  }
  GtkWindow *shown = self->owner->find (self->window, file, bw_project_get_stamp (project));
  bw_designs_remember (bw_designs_get (), file);
  if (shown)
    self->owner->come (shown);
  else
    gtk_window_present (self->owner->show (self->window, project));
}

void
bw_files_open (BwFiles *self, GFile *file)
{
  g_return_if_fail (BW_IS_FILES (self) && G_IS_FILE (file));
  const BwStamp unknown = { 0 };
  GtkWindow *shown = self->owner->find (self->window, file, &unknown);
  if (shown)
    self->owner->come (shown);
  else
    bw_opening_bar_open (self->opening, file, opened, self);
}

static void
open_chosen (GFile *file, gpointer data)
{
  bw_files_open (data, file);
}

static void
ask_open (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwFiles *self = data;
  bw_file_dialog_open (self->window, BW_FILES_PROJECT, open_chosen, self);
}

static void
open_file (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  g_autoptr (GFile) file = g_file_new_for_uri (g_variant_get_string (parameter, NULL));
  bw_files_open (data, file);
}

static void
restoned (BwProject *made, gpointer data)
{
  BwFiles *self = data;
  bw_project_set_modified (made, TRUE);
  self->owner->measure (self->window, made);
}

static void
restone (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwFiles *self = data;
  if (bw_typed_stands (GTK_WIDGET (self->window), self->draft))
    bw_restone_dialog_show (self->window, project_of (self), restoned, G_OBJECT (self));
}

static void
opened_to_restone (GFile *file, BwProject *project, const GError *error, gpointer data)
{
  BwFiles *self = data;
  if (!gtk_window_get_application (self->window))
    return; /* it was closed meanwhile */
  if (project)
    bw_restone_dialog_show (self->window, project, restoned, G_OBJECT (self));
  else
    not_opened (self, file, error);
}

/* As its file has it, also where the design is open in another window. */
static void
restone_file (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwFiles *self = data;
  g_autoptr (GFile) file = g_file_new_for_uri (g_variant_get_string (parameter, NULL));
  bw_opening_bar_open (self->opening, file, opened_to_restone, self);
}

static void
lay_anew (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwFiles *self = data;
  if (bw_typed_stands (GTK_WIDGET (self->window), self->draft))
    bw_restone_dialog_show_anew (self->window, project_of (self));
}

static void
open_demo (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwFiles *self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GFile) file = g_file_new_for_path (g_variant_get_string (parameter, NULL));
  g_autoptr (BwProject) project = bw_demo_load (file, &error);
  if (project)
    self->owner->show (self->window, project);
  else
    tell_failure (self, BW_FILE_OPENED, file, error);
}

static void
close_now (BwFiles *self)
{
  self->answered = TRUE;
  gtk_window_close (self->window);
}

/* Quitting goes on with the next window once this one is gone. */
static void
close_and_quit (BwFiles *self)
{
  g_autoptr (GtkApplication) application = g_object_ref (gtk_window_get_application (self->window));
  close_now (self);
  g_action_group_activate_action (G_ACTION_GROUP (application), "quit", NULL);
}

static void
go_on (BwFiles *self, Then then)
{
  if (then == THEN_CLOSE)
    close_now (self);
  else if (then == THEN_QUIT)
    close_and_quit (self);
}

static gboolean save_to (BwFiles *self, GFile *file, guint how);

static void
save_chosen (GFile *file, gpointer data)
{
  BwFiles *self = data;
  if (save_to (self, file, BW_SAVE_PLAIN))
    go_on (self, self->then);
}

static void
ask_where (BwFiles *self)
{
  g_autofree char *piece = bw_piece_name (project_of (self));
  g_autofree char *name = bw_file_name_for (piece, BW_FILES_PROJECT);
  bw_file_dialog_save (self->window, BW_FILES_PROJECT, name,
                       bw_project_get_file (project_of (self)), save_chosen, self);
}

static void
overwrite (BwFiles *self)
{
  g_autoptr (GFile) file = g_object_ref (bw_project_get_file (project_of (self)));
  if (save_to (self, file, BW_SAVE_OVER))
    go_on (self, self->then);
}

/* What the maker has done here makes way for what is in the file: it is kept all the same. */
static void
reload (BwFiles *self, BwProject *theirs)
{
  g_autofree char *name = bw_file_shown (bw_project_get_file (theirs));
  g_autofree char *folder = bw_recovery_discarded_folder ();
  g_autofree char *shown = g_filename_display_name (folder);
  g_autofree char *sentence = NULL;
  g_autoptr (GError) error = NULL;
  gboolean unsaved = bw_project_get_modified (project_of (self));
  GtkMessageType type = GTK_MESSAGE_INFO;
  if (unsaved && !self->owner->lay_aside (self->window, &error)) {
    type = GTK_MESSAGE_ERROR;
    sentence = g_strdup_printf (
        _ ("“%s” was not reloaded, because what you changed could not be put away: %s."), name,
        bw_io_words (error, BW_IO_WRITE));
  } else {
    self->owner->replace (self->window, theirs);
    if (unsaved)
      sentence = g_strdup_printf (
          _ ("“%s” was reloaded. What you had changed is kept in %s for %d days."), name, shown,
          BW_DISCARDED_DAYS);
  }
  if (sentence)
    bw_tell (GTK_WIDGET (self->window), type, sentence);
}

static void
changed_answered (BwChangedAnswer answer, BwProject *theirs, gpointer data)
{
  if (answer == BW_CHANGED_OVERWRITE)
    overwrite (data);
  else if (answer == BW_CHANGED_RELOAD)
    reload (data, theirs);
  else
    ask_where (data);
}

static void
tell_lost (BwFiles *self, GFile *file, guint lost)
{
  g_autofree char *words = bw_save_lost_words (lost);
  g_autofree char *name = bw_file_shown (file);
  if (!words)
    return;
  g_autofree char *sentence = g_strdup_printf (_ ("“%s” is saved, but: %s."), name, words);
  bw_tell (GTK_WIDGET (self->window), GTK_MESSAGE_WARNING, sentence);
}

static BwStamp
stamp_of (GFile *file)
{
  const char *path = g_file_peek_path (file);
  struct stat status;
  return path && stat (path, &status) == 0 ? bw_stamp_of (&status, "", 0) : (BwStamp){ 0 };
}

/* Two windows on one file would each save over what the other has done. */
static gboolean
is_free (BwFiles *self, GFile *file)
{
  BwStamp stamp = stamp_of (file);
  GtkWindow *other = self->owner->find (self->window, file, &stamp);
  if (!other || other == self->window)
    return TRUE;
  g_autofree char *name = bw_file_shown (file);
  g_autofree char *sentence = g_strdup_printf (
      _ ("“%s” is open in another window. Close it there first, or choose another name."), name);
  bw_tell (GTK_WIDGET (self->window), GTK_MESSAGE_WARNING, sentence);
  return FALSE;
}

static gboolean
save_to (BwFiles *self, GFile *file, guint how)
{
  g_autoptr (GError) error = NULL;
  guint lost = 0;
  if (!is_free (self, file))
    return FALSE;
  if (bw_settings_get_flag (bw_settings_get (), "keep-backup"))
    how |= BW_SAVE_BACKUP;
  bw_workbook_prepare (project_of (self));
  if (!bw_project_save_how (project_of (self), file, how, &lost, &error)) {
    if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_WRONG_ETAG))
      bw_changed_question_ask (self->window, project_of (self), changed_answered, self);
    else
      tell_failure (self, BW_FILE_SAVED, file, error);
    return FALSE;
  }
  bw_workbook_note (bw_workbook_get (), project_of (self));
  bw_designs_remember (bw_designs_get (), file);
  self->owner->saved (self->window);
  tell_lost (self, file, lost);
  return TRUE;
}

/* Saves to its file, asking for one first when it has none (or always, with ask). */
static void
save (BwFiles *self, gboolean ask, Then then)
{
  GFile *file = bw_project_get_file (project_of (self));
  if (!bw_typed_stands (GTK_WIDGET (self->window), self->draft))
    return;
  self->then = then;
  if (file && !ask) {
    g_autoptr (GFile) own = g_object_ref (file);
    save_chosen (own, self);
    return;
  }
  ask_where (self);
}

static void
save_here (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  save (data, FALSE, THEN_NOTHING);
}

static void
save_as (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  save (data, TRUE, THEN_NOTHING);
}

enum { ANSWER_SAVE = 1, ANSWER_DISCARD };

static void
answered (BwFiles *self, int answer, GtkDialog *dialog)
{
  gboolean quitting = g_object_get_data (G_OBJECT (dialog), "quitting") != NULL;
  Then then = quitting ? THEN_QUIT : THEN_CLOSE;
  /* The dialog outlives this call and may outlive the window it stands before. */
  gtk_window_set_transient_for (GTK_WINDOW (dialog), NULL);
  gtk_window_destroy (GTK_WINDOW (dialog));
  if (answer == ANSWER_DISCARD)
    go_on (self, then);
  else if (answer == ANSWER_SAVE)
    save (self, FALSE, then);
}

static GtkWidget *
unsaved_question (BwFiles *self)
{
  g_autofree char *full = bw_piece_name (project_of (self));
  g_autofree char *name = bw_words_shortened (full, NAME_MOST);
  GtkWidget *dialog = gtk_message_dialog_new (
      self->window, GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT, GTK_MESSAGE_QUESTION,
      GTK_BUTTONS_NONE, _ ("Save “%s” before closing?"), name);
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
bw_files_hold_close (BwFiles *self)
{
  g_return_val_if_fail (BW_IS_FILES (self), FALSE);
  if (self->answered)
    return FALSE;
  gboolean stands = bw_typed_stands (GTK_WIDGET (self->window), self->draft);
  if (stands && !bw_project_get_modified (project_of (self)))
    return FALSE;
  GtkWidget *dialog = unsaved_question (self);
  g_object_set_data (G_OBJECT (dialog), "quitting", GINT_TO_POINTER (self->quitting));
  g_signal_connect_object (dialog, "response", G_CALLBACK (answered), self, G_CONNECT_SWAPPED);
  gtk_window_present (GTK_WINDOW (dialog));
  return TRUE;
}

gboolean
bw_files_close_for_quit (BwFiles *self)
{
  g_return_val_if_fail (BW_IS_FILES (self), FALSE);
  g_autoptr (BwFiles) held = g_object_ref (self);
  g_autoptr (GtkWindow) window = g_object_ref (self->window);
  held->quitting = TRUE;
  gtk_window_close (window);
  held->quitting = FALSE;
  return gtk_window_get_application (window) == NULL;
}

static void
bw_files_dispose (GObject *object)
{
  g_clear_object (&BW_FILES (object)->draft);
  G_OBJECT_CLASS (bw_files_parent_class)->dispose (object);
}

static void
bw_files_class_init (BwFilesClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = bw_files_dispose;
}

static void
bw_files_init (BwFiles *self)
{
}

BwFiles *
bw_files_new (GtkApplicationWindow *window, BwDraft *draft, BwOpeningBar *opening,
              const BwFilesOwner *owner)
{
  static const GActionEntry entries[] = {
    { "open", ask_open },
    { "open-file", open_file, "s" },
    { "open-demo", open_demo, "s" },
    { "save", save_here },
    { "save-as", save_as },
    { "restone", restone },
    { "restone-file", restone_file, "s" },
    { "lay-anew", lay_anew },
  };
  BwFiles *self = g_object_new (BW_TYPE_FILES, NULL);
  self->window = GTK_WINDOW (window);
  self->draft = g_object_ref (draft);
  self->opening = opening;
  self->owner = owner;
  g_action_map_add_action_entries (G_ACTION_MAP (window), entries, G_N_ELEMENTS (entries), self);
  return self;
}
