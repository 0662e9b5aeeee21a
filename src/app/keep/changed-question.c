/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whoever wrote the file meant it: it is shown what is at stake on both sides, and no answer is
 * taken for granted. */
#include "config.h"

#include "app/keep/changed-question.h"
#include "project/file/file-name.h"
#include "project/fault/fault-error.h"
#include "project/differences.h"
#include "project/file/io-words.h"

#include <glib/gi18n-lib.h>

typedef struct {
  GWeakRef parent;
  BwProject *here, *theirs; /* theirs: NULL when it cannot be read */
  GFile *file;
  BwChangedAnswered answered;
  gpointer data;
} Question;

static void
question_free (gpointer data)
{
  Question *question = data;
  g_weak_ref_clear (&question->parent);
  g_clear_object (&question->here);
  g_clear_object (&question->theirs);
  g_clear_object (&question->file);
  g_free (question);
}

static void
response (GtkDialog *dialog, int answer, gpointer data)
{
  Question *question = data;
  g_autoptr (GtkDialog) held = g_object_ref (dialog);
  gtk_window_destroy (GTK_WINDOW (dialog));
  if (answer > 0)
    question->answered ((BwChangedAnswer)answer, question->theirs, question->data);
}

/* Line by line what differs; what cannot be read is told to be so. */
static char *
describe (const Question *question, const GError *error)
{
  if (!question->theirs)
    return g_strdup_printf (_ ("What is in the file now is no project that can be read: %s"),
                            error->domain == BW_FAULT ? bw_fault_sentence (error)
                                                      : bw_io_words (error, BW_IO_READ));
  g_auto (GStrv) differences = bw_project_differences (question->here, question->theirs);
  g_autofree char *lines = g_strjoinv ("\n", differences);
  return *lines ? g_steal_pointer (&lines)
                : g_strdup (_ ("Both mean the same piece; only how it is written differs."));
}

static void
add_button (GtkDialog *dialog, const char *label, BwChangedAnswer answer, const char *css_class)
{
  GtkWidget *button = gtk_dialog_add_button (dialog, label, answer);
  if (css_class)
    gtk_widget_add_css_class (button, css_class);
}

static GtkWidget *
dialog_new (const Question *question, GtkWindow *parent, const GError *error)
{
  g_autofree char *name = bw_file_shown (question->file);
  g_autofree char *words = describe (question, error);
  GtkWidget *dialog = gtk_message_dialog_new (
      parent, GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT, GTK_MESSAGE_QUESTION,
      GTK_BUTTONS_NONE, _ ("Another program has changed “%s” since it was opened here."), name);
  gtk_message_dialog_format_secondary_text (GTK_MESSAGE_DIALOG (dialog), "%s", words);
  gtk_dialog_add_button (GTK_DIALOG (dialog), _ ("_Cancel"), GTK_RESPONSE_CANCEL);
  if (question->theirs)
    add_button (GTK_DIALOG (dialog), _ ("_Reload"), BW_CHANGED_RELOAD, "destructive-action");
  add_button (GTK_DIALOG (dialog), _ ("_Overwrite"), BW_CHANGED_OVERWRITE, "destructive-action");
  add_button (GTK_DIALOG (dialog), _ ("Save _As…"), BW_CHANGED_SAVE_AS, NULL);
  gtk_dialog_set_default_response (GTK_DIALOG (dialog), BW_CHANGED_SAVE_AS);
  return dialog;
}

static void
load (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  GError *error = NULL;
  BwProject *project = bw_project_load (data, &error);
  if (project)
    g_task_return_pointer (task, project, g_object_unref);
  else
    g_task_return_error (task, error);
}

static void
loaded (GObject *object, GAsyncResult *result, gpointer data)
{
  Question *question = data;
  g_autoptr (GError) error = NULL;
  question->theirs = g_task_propagate_pointer (G_TASK (result), &error);
  g_autoptr (GtkWindow) parent = g_weak_ref_get (&question->parent);
  if (!parent || !gtk_window_get_application (parent)) {
    question_free (question);
    return;
  }
  GtkWidget *dialog = dialog_new (question, parent, error);
  g_object_set_data_full (G_OBJECT (dialog), "question", question, question_free);
  g_signal_connect (dialog, "response", G_CALLBACK (response), question);
  gtk_window_present (GTK_WINDOW (dialog));
}

void
bw_changed_question_ask (GtkWindow *parent, BwProject *here, BwChangedAnswered answered,
                         gpointer data)
{
  Question *question = g_new0 (Question, 1);
  g_weak_ref_init (&question->parent, parent);
  question->here = g_object_ref (here);
  question->file = g_object_ref (bw_project_get_file (here));
  question->answered = answered;
  question->data = data;
  g_autoptr (GTask) task = g_task_new (NULL, NULL, loaded, question);
  g_task_set_task_data (task, g_object_ref (question->file), g_object_unref);
  g_task_run_in_thread (task, load);
}
