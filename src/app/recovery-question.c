/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Work that a program which is gone had not saved is offered, never opened or deleted unasked. The
 * copies are looked for and read on a thread: neither many of them nor a slow disk keeps the window
 * waiting. */
#include "config.h"

#include "app/recovery-question.h"
#include "app/keep/recovery-folder.h"
#include "app/keep/recovery-row.h"

#include <glib/gi18n-lib.h>

#define LIST_PX 420

/* The dialog's own; goes with it. */
typedef struct {
  BwWindow *window; /* weak: goes with the application's last moments */
  GtkWindow *dialog;
  GtkBox
      *list; /* weak: what is recovered may take the window's place, and the dialog goes with it */
  guint n_rows;
} Question;

/* One row's; goes with the row. */
typedef struct {
  Question *question;
  BwFound *found;
  GtkWidget *row;
} Answer;

static void
question_free (gpointer data)
{
  Question *question = data;
  g_clear_weak_pointer (&question->window);
  g_clear_weak_pointer (&question->list);
  g_free (question);
}

static void
row_answered (Question *question, GtkWidget *row)
{
  if (!question->list)
    return;
  gtk_box_remove (question->list, row);
  if (--question->n_rows == 0)
    gtk_window_close (question->dialog);
}

static void
recover (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  const Answer *answer = data;
  Question *question = answer->question;
  g_autoptr (GtkWindow) dialog = g_object_ref (question->dialog);
  g_autoptr (GtkWidget) row = g_object_ref (answer->row);
  if (question->window)
    bw_window_take_recovered (question->window, answer->found->project, answer->found->leftover);
  row_answered (question, row);
}

static void
discard (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  const Answer *answer = data;
  if (!bw_leftover_discard (answer->found->leftover) && answer->question->window)
    bw_window_tell (answer->question->window, GTK_MESSAGE_WARNING,
                    _ ("The safety copy could not be put away; it is offered again."));
  row_answered (answer->question, answer->row);
}

static void
add_row (Question *question, BwFound *found)
{
  static const GActionEntry entries[] = { { "recover", recover }, { "discard", discard } };
  Answer *answer = g_new0 (Answer, 1);
  g_autoptr (GSimpleActionGroup) group = g_simple_action_group_new ();
  *answer = (Answer){ question, found, bw_recovery_row_new (found) };
  g_action_map_add_action_entries (G_ACTION_MAP (group), entries, G_N_ELEMENTS (entries), answer);
  gtk_widget_insert_action_group (answer->row, "row", G_ACTION_GROUP (group));
  g_object_set_data_full (G_OBJECT (answer->row), "answer", answer, g_free);
  gtk_box_append (question->list, answer->row);
  question->n_rows++;
}

static GtkWidget *
words_new (void)
{
  g_autofree char *folder = bw_recovery_discarded_folder ();
  g_autofree char *shown = g_filename_display_name (folder);
  g_autofree char *words = g_strdup_printf (
      _ ("Bandwright ended before this was saved. Safety copies were kept. What you discard stays "
         "in %s for %d days."),
      shown, BW_DISCARDED_DAYS);
  GtkWidget *label = gtk_label_new (words);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 60);
  return label;
}

static GtkWidget *
list_new (Question *question)
{
  GtkWidget *scrolled = gtk_scrolled_window_new ();
  g_set_weak_pointer (&question->list, GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 18)));
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scrolled), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scrolled), LIST_PX);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), GTK_WIDGET (question->list));
  return scrolled;
}

static void
fill (Question *question, GtkDialog *dialog, GPtrArray *all)
{
  GtkBox *content = GTK_BOX (gtk_dialog_get_content_area (dialog));
  gtk_box_set_spacing (content, 18);
  gtk_widget_set_margin_top (GTK_WIDGET (content), 18);
  gtk_widget_set_margin_bottom (GTK_WIDGET (content), 18);
  gtk_widget_set_margin_start (GTK_WIDGET (content), 18);
  gtk_widget_set_margin_end (GTK_WIDGET (content), 18);
  gtk_box_append (content, words_new ());
  gtk_box_append (content, list_new (question));
  for (guint i = 0; i < all->len; i++)
    add_row (question, g_ptr_array_index (all, i));
  gtk_dialog_add_button (dialog, _ ("Ask _Later"), GTK_RESPONSE_CANCEL);
}

/* all is taken. */
static void
ask (BwWindow *window, GPtrArray *all)
{
  Question *question = g_new0 (Question, 1);
  GtkWidget *dialog = g_object_new (GTK_TYPE_DIALOG, "use-header-bar", FALSE, "transient-for",
                                    window, "modal", TRUE, "destroy-with-parent", TRUE, "title",
                                    _ ("Recover unsaved work?"), NULL);
  g_set_weak_pointer (&question->window, window);
  question->dialog = GTK_WINDOW (dialog);
  g_object_set_data_full (G_OBJECT (dialog), "found", all, (GDestroyNotify)g_ptr_array_unref);
  g_object_set_data_full (G_OBJECT (dialog), "question", question, question_free);
  fill (question, GTK_DIALOG (dialog), all);
  g_signal_connect (dialog, "response", G_CALLBACK (gtk_window_destroy), NULL);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
find (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  g_task_return_pointer (task, bw_found_all (), (GDestroyNotify)g_ptr_array_unref);
}

static void
weak_free (gpointer weak)
{
  g_weak_ref_clear (weak);
  g_free (weak);
}

/* The window may have been closed meanwhile: then they are offered at the next start. */
static void
found (GObject *object, GAsyncResult *result, gpointer data)
{
  g_autoptr (BwWindow) window = g_weak_ref_get (g_task_get_task_data (G_TASK (result)));
  g_autoptr (GPtrArray) all = g_task_propagate_pointer (G_TASK (result), NULL);
  if (!all || all->len == 0 || !window || !gtk_window_get_application (GTK_WINDOW (window)))
    return;
  gtk_window_present (GTK_WINDOW (window));
  ask (window, g_steal_pointer (&all));
}

void
bw_recovery_question_ask (BwWindow *window)
{
  g_autoptr (GTask) task = g_task_new (NULL, NULL, found, NULL);
  GWeakRef *weak = g_new0 (GWeakRef, 1);
  g_weak_ref_init (weak, window);
  g_task_set_task_data (task, weak, weak_free);
  g_task_run_in_thread (task, find);
}
