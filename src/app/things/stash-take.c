/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/things/stash-take.h"

#include "app/keep/workbook.h"
#include "app/ask/tell.h"
#include "app/things/stash-things.h"
#include "project/observed.h"
#include "project/stash-wants.h"

#include <glib/gi18n-lib.h>

#define TOLD_MOST 12 /* lines of a question that fits a small screen */

/* What is to be done, and over which window it is told. */
typedef struct {
  BwStashTaking taking;
  GWeakRef parent;
} Deed;

static void
deed_free (gpointer data)
{
  Deed *deed = data;
  bw_stash_taking_clear (&deed->taking);
  g_weak_ref_clear (&deed->parent);
  g_free (deed);
}

static Deed *
deed_new (GtkWindow *parent)
{
  Deed *deed = g_new0 (Deed, 1);
  g_weak_ref_init (&deed->parent, parent);
  return deed;
}

static void
tell (gpointer parent, GtkMessageType type, const char *sentence)
{
  g_autoptr (GtkWidget) window = parent;
  if (window)
    bw_tell (window, type, sentence);
}

/* --- Into the book -----------------------------------------------------------------------------
 */

static gboolean
take (BwBook *book, gpointer data, GError **error)
{
  const Deed *deed = data;
  return bw_book_take (book, &deed->taking, error);
}

static gboolean
put_back (BwBook *book, gpointer data, GError **error)
{
  const Deed *deed = data;
  return bw_book_put_back (book, deed->taking.piece, error);
}

static void
not_done (gpointer parent, const char *sentence)
{
  g_autofree char *words = g_strdup_printf (_ ("The stash is as it was: %s"), sentence);
  tell (parent, GTK_MESSAGE_WARNING, words);
}

static void
is_taken (const char *sentence, gpointer parent)
{
  if (sentence)
    not_done (parent, sentence);
  else
    tell (parent, GTK_MESSAGE_INFO,
          _ ("It is taken from the stash. Your workshop’s stash can put it back."));
}

static void
is_back (const char *sentence, gpointer parent)
{
  if (sentence)
    not_done (parent, sentence);
  else
    tell (parent, GTK_MESSAGE_INFO, _ ("What the piece took is back in the stash."));
}

/* --- The question ------------------------------------------------------------------------------
 */

/* A line each: "2.31 g of Night water (12.50 g)". */
static char *
taking_words (const BwStashTaking *taking, const BwStash *stash)
{
  GString *words = g_string_new (NULL);
  for (guint i = 0; i < MIN (taking->of->len, TOLD_MOST); i++) {
    const BwStashItem *item = &g_array_index (taking->of, BwStashItem, i);
    double there = 0;
    for (guint k = 0; k < bw_stash_n (stash); k++)
      if (bw_stash_item_is (bw_stash_get (stash, k), item))
        there = bw_stash_get (stash, k)->amount;
    g_autofree char *amount = bw_stash_amount_words (item->what, item->amount);
    g_autofree char *of = bw_stash_amount_words (item->what, there);
    /* Translators: how much is taken, what it is, how much of it there is. */
    g_string_append_printf (words, _ ("%s of “%s”, of %s there"), amount, item->name, of);
    g_string_append_c (words, '\n');
  }
  if (taking->of->len > TOLD_MOST)
    g_string_append_printf (words, _ ("and %u more"), taking->of->len - TOLD_MOST);
  return g_strchomp (g_string_free (words, FALSE));
}

static void
answered (GtkDialog *question, int answer, Deed *deed)
{
  gpointer parent = g_weak_ref_get (&deed->parent);
  gtk_window_destroy (GTK_WINDOW (question));
  if (answer == GTK_RESPONSE_ACCEPT) {
    bw_workbook_try (bw_workbook_get (), take, deed, deed_free, is_taken, parent);
    return;
  }
  g_clear_object (&parent);
  deed_free (deed);
}

static void
ask (GtkWindow *parent, Deed *deed, const BwStash *stash)
{
  g_autofree char *words = taking_words (&deed->taking, stash);
  GtkWidget *question = gtk_message_dialog_new (
      parent, GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT, GTK_MESSAGE_QUESTION,
      GTK_BUTTONS_NONE, "%s", _ ("Take from the stash what is in the piece?"));
  gtk_message_dialog_format_secondary_text (GTK_MESSAGE_DIALOG (question), "%s", words);
  gtk_dialog_add_button (GTK_DIALOG (question), _ ("_Leave the Stash"), GTK_RESPONSE_CANCEL);
  GtkWidget *button
      = gtk_dialog_add_button (GTK_DIALOG (question), _ ("_Take It"), GTK_RESPONSE_ACCEPT);
  gtk_widget_add_css_class (button, "suggested-action");
  gtk_dialog_set_default_response (GTK_DIALOG (question), GTK_RESPONSE_ACCEPT);
  g_signal_connect (question, "response", G_CALLBACK (answered), deed);
  gtk_window_present (GTK_WINDOW (question));
}

static gboolean
took_before (BwProject *project)
{
  const BwBook *book = bw_workbook_get_book (bw_workbook_get ());
  const char *id = bw_project_get_id (project);
  return book && *id && bw_book_find_taking (book, id) >= 0;
}

void
bw_stash_take_ask (GtkWindow *parent, BwProject *project)
{
  g_autoptr (BwStash) stash = bw_stash_dup_own ();
  g_autofree char *date = bw_observed_today ();
  if (!stash || took_before (project))
    return;
  Deed *deed = deed_new (parent);
  bw_project_ensure_id (project);
  bw_stash_taking_init (&deed->taking, project, stash, date);
  if (deed->taking.of->len > 0)
    ask (parent, deed, stash);
  else
    deed_free (deed);
}

void
bw_stash_take_back (GtkWindow *parent, BwProject *project)
{
  if (!took_before (project))
    return;
  Deed *deed = deed_new (parent);
  g_strlcpy (deed->taking.piece, bw_project_get_id (project), sizeof deed->taking.piece);
  bw_workbook_try (bw_workbook_get (), put_back, deed, deed_free, is_back, g_object_ref (parent));
}
