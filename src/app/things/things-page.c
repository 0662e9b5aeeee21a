/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is removed can be put back as long as the page is there: a question before would be asked
 * each time, and answered without reading. */
#include "config.h"

#include "app/things/things-page.h"

#include "app/ask/file-dialog.h"
#include "app/ask/tell-file.h"
#include "app/kit/words.h"
#include "app/kit/wrap-layout.h"
#include "app/things/thing-dialog.h"
#include "project/file/save-whole.h"

#include <glib/gi18n-lib.h>
#include <string.h>

struct _BwThingsPage {
  GtkWidget parent_instance;
  const BwThings *things;
  BwWorkbook *book;
  BwDraft *draft;   /* weak */
  gpointer removed; /* the last one; NULL: none */
  gpointer going;   /* being removed or put back; NULL: none */
  GtkLabel *none;
  BwOwnList *list;
  GtkBox *extra;
  GtkWidget *deeds, *add, *edit, *remove, *back, *only, *csv;
};

G_DEFINE_FINAL_TYPE (BwThingsPage, bw_things_page, GTK_TYPE_WIDGET)

static GtkWindow *
window_of (BwThingsPage *self)
{
  return GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self)));
}

/* --- What is shown -----------------------------------------------------------------------------
 */

static void
show_deeds (BwThingsPage *self)
{
  gboolean chosen = bw_own_list_get_chosen (self->list) >= 0;
  gtk_widget_set_sensitive (self->edit, chosen);
  gtk_widget_set_sensitive (self->remove, chosen);
}

static void
book_changed (BwThingsPage *self)
{
  const BwBook *book = bw_workbook_get_book (self->book);
  gboolean some = book && self->things->list.count (book) > 0;
  gtk_widget_set_visible (GTK_WIDGET (self->none), !some && bw_workbook_is_known (self->book));
  gtk_widget_set_visible (GTK_WIDGET (self->list), some);
  gtk_widget_set_sensitive (self->add, book != NULL);
  gtk_widget_set_visible (self->edit, some);
  gtk_widget_set_visible (self->remove, some);
  gtk_widget_set_visible (self->only, some);
  gtk_widget_set_visible (self->csv, some && self->things->csv);
  show_deeds (self);
}

static void
show_back (BwThingsPage *self)
{
  gtk_widget_set_visible (self->back, self->removed != NULL);
  if (!self->removed)
    return;
  g_autofree char *words
      = g_strdup_printf (_ ("Put Back “%s”"), self->things->name (self->removed));
  gtk_button_set_label (GTK_BUTTON (self->back), words);
}

/* --- What is done ------------------------------------------------------------------------------
 */

/* Owned; NULL: none is chosen. */
static gpointer
chosen_thing (BwThingsPage *self)
{
  const BwBook *book = bw_workbook_get_book (self->book);
  int at = bw_own_list_get_chosen (self->list);
  if (!book || at < 0)
    return NULL;
  gpointer thing = g_malloc0 (self->things->bytes);
  self->things->get (book, (guint)at, thing);
  return thing;
}

static void
saved (const char *name, gpointer data)
{
  BwThingsPage *self = data;
  bw_own_list_choose (self->list, name);
}

static void
add_clicked (BwThingsPage *self)
{
  bw_thing_dialog_show (window_of (self), self->things, self->book, NULL,
                        self->draft ? bw_draft_get_design (self->draft) : NULL, saved,
                        G_OBJECT (self));
}

static void
edit_clicked (BwThingsPage *self)
{
  g_autofree gpointer thing = chosen_thing (self);
  if (thing)
    bw_thing_dialog_show (window_of (self), self->things, self->book, thing, NULL, saved,
                          G_OBJECT (self));
}

/* data is the page, held. */
static void
removed (const char *sentence, gpointer data)
{
  g_autoptr (BwThingsPage) self = data;
  g_autofree gpointer thing = g_steal_pointer (&self->going);
  if (sentence) {
    bw_things_tell_unchanged (GTK_WIDGET (self), sentence);
    return;
  }
  g_free (self->removed);
  self->removed = g_steal_pointer (&thing);
  show_back (self);
}

static void
remove_clicked (BwThingsPage *self)
{
  gpointer thing = self->going ? NULL : chosen_thing (self);
  if (!thing)
    return;
  self->going = thing;
  bw_things_change (self->things, self->book, thing, NULL, removed, g_object_ref (self));
}

static void
is_back (const char *sentence, gpointer data)
{
  g_autoptr (BwThingsPage) self = data;
  g_autofree gpointer thing = g_steal_pointer (&self->going);
  if (sentence) {
    bw_things_tell_unchanged (GTK_WIDGET (self), sentence);
    return;
  }
  bw_own_list_choose (self->list, self->things->name (thing));
  g_clear_pointer (&self->removed, g_free);
  show_back (self);
}

static void
back_clicked (BwThingsPage *self)
{
  if (self->going || !self->removed)
    return;
  self->going = g_memdup2 (self->removed, self->things->bytes);
  bw_things_change (self->things, self->book, NULL, self->going, is_back, g_object_ref (self));
  gtk_widget_grab_focus (self->add);
}

/* --- Out ---------------------------------------------------------------------------------------
 */

static void
write_out (BwThingsPage *self, GFile *file, const char *text)
{
  g_autoptr (GError) error = NULL;
  bw_save_file (file, text, strlen (text), BW_SAVE_PLAIN, NULL, NULL, &error);
  bw_tell_file_written (GTK_WIDGET (self), file, error);
}

static void
write_only (GFile *file, gpointer data)
{
  BwThingsPage *self = data;
  const BwBook *book = bw_workbook_get_book (self->book);
  if (!book)
    return;
  g_autoptr (BwBook) only = self->things->only (book);
  g_autofree char *text = bw_book_to_data (only, NULL);
  write_out (self, file, text);
}

static void
write_csv (GFile *file, gpointer data)
{
  BwThingsPage *self = data;
  const BwBook *book = bw_workbook_get_book (self->book);
  if (!book)
    return;
  g_autofree char *text = self->things->csv (book);
  write_out (self, file, text);
}

static void
ask (BwThingsPage *self, BwFileKind kind, BwFileChosen chosen)
{
  g_autofree char *name = bw_file_name_for (_ (self->things->file_name), kind);
  bw_file_dialog_save (window_of (self), kind, name, NULL, chosen, self);
}

static void
only_clicked (BwThingsPage *self)
{
  ask (self, BW_FILES_BOOK, write_only);
}

static void
csv_clicked (BwThingsPage *self)
{
  ask (self, BW_FILES_CSV, write_csv);
}

/* --- The widget --------------------------------------------------------------------------------
 */

static void
bw_things_page_dispose (GObject *object)
{
  GtkWidget *child;
  g_clear_weak_pointer (&BW_THINGS_PAGE (object)->draft);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))))
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (bw_things_page_parent_class)->dispose (object);
}

static void
bw_things_page_finalize (GObject *object)
{
  BwThingsPage *self = BW_THINGS_PAGE (object);
  g_free (self->removed);
  g_free (self->going);
  g_clear_object (&self->book);
  G_OBJECT_CLASS (bw_things_page_parent_class)->finalize (object);
}

static void
bw_things_page_class_init (BwThingsPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_things_page_dispose;
  G_OBJECT_CLASS (klass)->finalize = bw_things_page_finalize;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/things-page.ui");
  gtk_widget_class_bind_template_child (widget_class, BwThingsPage, none);
  gtk_widget_class_bind_template_child (widget_class, BwThingsPage, list);
  gtk_widget_class_bind_template_child (widget_class, BwThingsPage, extra);
  gtk_widget_class_bind_template_child (widget_class, BwThingsPage, deeds);
  gtk_widget_class_bind_template_child (widget_class, BwThingsPage, add);
  gtk_widget_class_bind_template_child (widget_class, BwThingsPage, edit);
  gtk_widget_class_bind_template_child (widget_class, BwThingsPage, remove);
  gtk_widget_class_bind_template_child (widget_class, BwThingsPage, back);
  gtk_widget_class_bind_template_child (widget_class, BwThingsPage, only);
  gtk_widget_class_bind_template_child (widget_class, BwThingsPage, csv);
  gtk_widget_class_bind_template_callback (widget_class, add_clicked);
  gtk_widget_class_bind_template_callback (widget_class, edit_clicked);
  gtk_widget_class_bind_template_callback (widget_class, remove_clicked);
  gtk_widget_class_bind_template_callback (widget_class, back_clicked);
  gtk_widget_class_bind_template_callback (widget_class, only_clicked);
  gtk_widget_class_bind_template_callback (widget_class, csv_clicked);
}

static void
bw_things_page_init (BwThingsPage *self)
{
  g_type_ensure (BW_TYPE_OWN_LIST);
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_widget_set_layout_manager (self->deeds, bw_wrap_layout_new (8));
}

void
bw_things_page_set_draft (BwThingsPage *self, BwDraft *draft)
{
  g_return_if_fail (BW_IS_THINGS_PAGE (self));
  g_set_weak_pointer (&self->draft, draft);
}

GtkWidget *
bw_things_page_new (const BwThings *things, BwWorkbook *book, GtkWidget *extra)
{
  BwThingsPage *self = g_object_new (BW_TYPE_THINGS_PAGE, NULL);
  self->things = things;
  self->book = g_object_ref (book);
  bw_label_set_words (self->none, _ (things->none));
  gtk_button_set_label (GTK_BUTTON (self->add), _ (things->add));
  if (extra)
    gtk_box_append (self->extra, extra);
  bw_own_list_bind (self->list, &things->list, book, _ (things->label));
  g_signal_connect_object (self->list, "chosen", G_CALLBACK (show_deeds), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->list, "activated", G_CALLBACK (edit_clicked), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (book, "changed", G_CALLBACK (book_changed), self, G_CONNECT_SWAPPED);
  book_changed (self);
  return GTK_WIDGET (self);
}
