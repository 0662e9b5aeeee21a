/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Work that a program which is gone had not saved is offered, never opened or deleted unasked. */
#include "config.h"

#include "app/recovery-question.h"
#include "app/keep/recovery.h"
#include "core/base/fault.h"

#include <glib/gi18n-lib.h>

enum { ANSWER_TAKE = 1, ANSWER_DISCARD };

static void
show (BwWindow *window, BwProject *project)
{
  GtkApplication *application = gtk_window_get_application (GTK_WINDOW (window));
  if (bw_window_is_untouched (window))
    bw_window_set_project (window, project);
  else
    gtk_window_present (GTK_WINDOW (bw_window_new (application, project)));
}

/* The copy goes only once the work is in a window, which keeps a copy of its own. */
static void
take_back (BwWindow *window, const BwLeftover *leftover)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (BwProject) project = bw_leftover_load (leftover, &error);
  if (project) {
    show (window, project);
    bw_leftover_discard (leftover);
    return;
  }
  g_autofree char *sentence = g_strdup_printf (_ ("The safety copy of “%s” could not be read: %s"),
                                               leftover->title, bw_fault_sentence (error));
  bw_window_tell (window, GTK_MESSAGE_ERROR, sentence);
}

static void
answered (GtkDialog *dialog, int answer, gpointer data)
{
  GPtrArray *leftovers = g_object_get_data (G_OBJECT (dialog), "leftovers");
  g_autoptr (BwWindow) window = g_object_ref (data);
  for (guint i = 0; i < leftovers->len; i++) {
    if (answer == ANSWER_TAKE)
      take_back (window, g_ptr_array_index (leftovers, i));
    else if (answer == ANSWER_DISCARD)
      bw_leftover_discard (g_ptr_array_index (leftovers, i));
  }
  gtk_window_destroy (GTK_WINDOW (dialog));
}

/* One line for each: its title and when the copy was made. */
static char *
describe (GPtrArray *leftovers)
{
  g_autoptr (GString) text = g_string_new (NULL);
  for (guint i = 0; i < leftovers->len; i++) {
    const BwLeftover *leftover = g_ptr_array_index (leftovers, i);
    g_autofree char *when = g_date_time_format (leftover->when, "%x %X");
    g_string_append_printf (text, "%s“%s” · %s", i ? "\n" : "", leftover->title, when);
  }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

void
bw_recovery_question_ask (BwWindow *window)
{
  GPtrArray *leftovers = bw_recovery_find ();
  if (leftovers->len == 0) {
    g_ptr_array_unref (leftovers);
    return;
  }
  g_autofree char *list = describe (leftovers);
  GtkWidget *dialog = gtk_message_dialog_new (
      GTK_WINDOW (window), GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT, GTK_MESSAGE_QUESTION,
      GTK_BUTTONS_NONE, "%s", _ ("Take back unsaved work?"));
  gtk_message_dialog_format_secondary_text (
      GTK_MESSAGE_DIALOG (dialog), "%s\n\n%s",
      _ ("Bandwright ended before this was saved. A safety copy was kept:"), list);
  gtk_dialog_add_button (GTK_DIALOG (dialog), _ ("_Discard"), ANSWER_DISCARD);
  gtk_dialog_add_button (GTK_DIALOG (dialog), _ ("Ask _Later"), GTK_RESPONSE_CANCEL);
  gtk_dialog_add_button (GTK_DIALOG (dialog), _ ("_Take Back"), ANSWER_TAKE);
  gtk_dialog_set_default_response (GTK_DIALOG (dialog), ANSWER_TAKE);
  g_object_set_data_full (G_OBJECT (dialog), "leftovers", leftovers,
                          (GDestroyNotify)g_ptr_array_unref);
  g_signal_connect (dialog, "response", G_CALLBACK (answered), window);
  gtk_window_present (GTK_WINDOW (dialog));
}
