/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/things/stash-last.h"

#include "app/kit/words.h"
#include "app/things/stash-things.h"

#include <glib/gi18n-lib.h>

struct _BwStashLast {
  GtkBox parent_instance;
  BwWorkbook *book;
  GtkLabel *words;
  GtkWidget *back;
  char *piece; /* its id; NULL: none took anything */
};

G_DEFINE_FINAL_TYPE (BwStashLast, bw_stash_last, GTK_TYPE_BOX)

static char *
taking_words (const BwStashTaking *taking)
{
  GString *words = g_string_new (NULL);
  g_string_append_printf (words, _ ("%s: “%s” took"), taking->date, taking->title);
  for (guint i = 0; i < taking->of->len; i++) {
    const BwStashItem *item = &g_array_index (taking->of, BwStashItem, i);
    g_autofree char *amount = bw_stash_amount_words (item->what, item->amount);
    g_string_append_printf (words, "%s %s %s", i ? " ·" : "", amount, item->name);
  }
  return g_string_free (words, FALSE);
}

static void
book_changed (BwStashLast *self)
{
  const BwBook *book = bw_workbook_get_book (self->book);
  guint n = book ? bw_book_n_takings (book) : 0;
  g_auto (BwStashTaking) taking = { .of = NULL };
  g_clear_pointer (&self->piece, g_free);
  gtk_widget_set_visible (GTK_WIDGET (self), n > 0);
  if (n == 0)
    return;
  bw_book_get_taking (book, n - 1, &taking);
  g_autofree char *words = taking_words (&taking);
  self->piece = g_strdup (taking.piece);
  bw_label_set_words (self->words, words);
}

static gboolean
put_back (BwBook *book, gpointer piece, GError **error)
{
  return bw_book_put_back (book, piece, error);
}

/* data is the widget, held. */
static void
told (const char *sentence, gpointer data)
{
  g_autoptr (BwStashLast) self = data;
  if (sentence && gtk_widget_get_root (GTK_WIDGET (self)))
    bw_things_tell_unchanged (GTK_WIDGET (self), sentence);
}

static void
back_clicked (BwStashLast *self)
{
  if (self->piece)
    bw_workbook_try (self->book, put_back, g_strdup (self->piece), g_free, told,
                     g_object_ref (self));
}

static void
bw_stash_last_finalize (GObject *object)
{
  BwStashLast *self = BW_STASH_LAST (object);
  g_free (self->piece);
  g_clear_object (&self->book);
  G_OBJECT_CLASS (bw_stash_last_parent_class)->finalize (object);
}

static void
bw_stash_last_class_init (BwStashLastClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = bw_stash_last_finalize;
}

static void
bw_stash_last_init (BwStashLast *self)
{
  self->words = GTK_LABEL (gtk_label_new (NULL));
  self->back = gtk_button_new_with_mnemonic (_ ("Put It _Back"));
  gtk_box_set_spacing (GTK_BOX (self), 12);
  gtk_label_set_xalign (self->words, 0);
  gtk_label_set_wrap (self->words, TRUE);
  gtk_label_set_wrap_mode (self->words, PANGO_WRAP_WORD_CHAR);
  gtk_widget_set_hexpand (GTK_WIDGET (self->words), TRUE);
  gtk_widget_add_css_class (GTK_WIDGET (self->words), "numeric");
  gtk_widget_set_valign (self->back, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->words));
  gtk_box_append (GTK_BOX (self), self->back);
  g_signal_connect_object (self->back, "clicked", G_CALLBACK (back_clicked), self,
                           G_CONNECT_SWAPPED);
}

GtkWidget *
bw_stash_last_new (BwWorkbook *book)
{
  BwStashLast *self = g_object_new (BW_TYPE_STASH_LAST, NULL);
  self->book = g_object_ref (book);
  g_signal_connect_object (book, "changed", G_CALLBACK (book_changed), self, G_CONNECT_SWAPPED);
  book_changed (self);
  return GTK_WIDGET (self);
}
