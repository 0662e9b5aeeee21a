/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/keep/book-dialog.h"

#include "app/ask/tell.h"
#include "app/kit/words.h"

#include <glib/gi18n-lib.h>

typedef struct {
  BwBookDialog dialog;       /* its window is held, and with it its own */
  GtkWidget *parent, *focus; /* held; either may be NULL */
  void (*kept) (GtkWindow *window);
} Keeping;

static void
keeping_free (Keeping *keeping)
{
  g_clear_object (&keeping->focus);
  g_object_unref (keeping->dialog.window); /* before its parent, which it knows until it ends */
  g_clear_object (&keeping->parent);
  g_free (keeping);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Keeping, keeping_free)

static void
set_resting (const BwBookDialog *dialog, gboolean rests)
{
  gtk_widget_set_sensitive (gtk_window_get_child (dialog->window), !rests);
  gtk_widget_set_sensitive (dialog->save, !rests);
}

static void
say (const Keeping *keeping, const char *sentence)
{
  const BwBookDialog *dialog = &keeping->dialog;
  g_autofree char *words = g_strdup_printf (_ ("Not saved: %s"), sentence);
  set_resting (dialog, FALSE);
  bw_label_set_words (dialog->result, words);
  gtk_widget_set_visible (GTK_WIDGET (dialog->result), TRUE);
  if (keeping->focus)
    gtk_widget_grab_focus (keeping->focus);
}

void
bw_book_dialog_told (const char *sentence, gpointer resting)
{
  g_autoptr (Keeping) keeping = resting;
  gboolean open = gtk_widget_get_mapped (GTK_WIDGET (keeping->dialog.window));
  if (sentence && open)
    say (keeping, sentence);
  else if (sentence && keeping->parent) /* closed before it could be told there */
    bw_tell (keeping->parent, GTK_MESSAGE_WARNING, sentence);
  if (sentence)
    return;
  if (keeping->kept)
    keeping->kept (keeping->dialog.window);
  gtk_window_destroy (keeping->dialog.window);
}

gpointer
bw_book_dialog_rest (const BwBookDialog *dialog, void (*kept) (GtkWindow *window))
{
  Keeping *keeping = g_new0 (Keeping, 1);
  GtkWidget *parent = GTK_WIDGET (gtk_window_get_transient_for (dialog->window));
  GtkWidget *focus = gtk_window_get_focus (dialog->window);
  *keeping = (Keeping){ *dialog, parent ? g_object_ref (parent) : NULL,
                        focus ? g_object_ref (focus) : NULL, kept };
  g_object_ref (dialog->window);
  set_resting (dialog, TRUE);
  return keeping;
}
