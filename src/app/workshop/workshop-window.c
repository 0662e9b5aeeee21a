/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/workshop/workshop-window.h"

#include "app/keep/workbook.h"
#include "app/ask/file-dialog.h"
#include "app/ask/notice.h"
#include "app/kit/part-names.h"
#include "app/ask/tell-file.h"
#include "app/ask/tell.h"
#include "app/hands/done-page.h"
#include "app/workshop/habits-page.h"
#include "app/hands/hands-page.h"
#include "app/stones/stones-page.h"
#include "app/trays/trays-page.h"
#include "app/things/kinds.h"
#include "app/things/stash-last.h"
#include "app/things/stash-things.h"
#include "app/things/things-page.h"
#include "project/fault/fault-error.h"
#include "project/file/io-words.h"
#include "project/file/save-whole.h"

#include <glib/gi18n-lib.h>

typedef struct _ReadIn ReadIn;

struct _BwWorkshopWindow {
  GtkWindow parent_instance;
  BwWorkbook *book;
  GtkStack *pages;
  BwTraysPage *trays;
  BwStonesPage *stones;
  BwThingsPage *stash;
  BwHabitsPage *habits;
  BwNotice *notice;
  gboolean tells_fault; /* the notice tells the book's fault and nothing else */
  ReadIn *reading;      /* NULL but while another book is read in */
};

G_DEFINE_FINAL_TYPE (BwWorkshopWindow, bw_workshop_window, GTK_TYPE_WINDOW)

/* --- The book as a file ------------------------------------------------------------------------
 */

static void
export_to (GFile *file, gpointer data)
{
  BwWorkshopWindow *self = data;
  const BwBook *book = bw_workbook_get_book (self->book);
  g_autoptr (GError) error = NULL;
  gsize length;
  if (!book)
    return;
  g_autofree char *text = bw_book_to_data (book, &length);
  bw_save_file (file, text, length, BW_SAVE_PLAIN, NULL, NULL, &error);
  bw_tell_file_written (GTK_WIDGET (self), file, error);
}

static void
export_clicked (BwWorkshopWindow *self)
{
  g_autofree char *name = bw_file_name_for (_ ("Workshop"), BW_FILES_BOOK);
  bw_file_dialog_save (GTK_WINDOW (self), BW_FILES_BOOK, name, NULL, export_to, self);
}

/* A book being read in, and what came of it; a thread's until it is done. */
struct _ReadIn {
  char *path;
  int done; /* atomic */
  guint offered, came;
};

static void
read_in_clear (gpointer in)
{
  g_free (((ReadIn *)in)->path);
}

static void
read_in_unref (gpointer in)
{
  g_atomic_rc_box_release_full (in, read_in_clear);
}

static gboolean
take_in (BwBook *book, gpointer data, GError **error)
{
  ReadIn *in = data;
  g_autofree char *name = g_filename_display_basename (in->path);
  g_autoptr (GError) failure = NULL;
  g_autoptr (BwBook) other = bw_book_load (in->path, &failure);
  guint before = bw_book_n_entries (book);
  if (other && bw_book_take_in (book, other, &failure)) {
    in->offered = bw_book_n_entries (other);
    in->came = bw_book_n_entries (book) - before;
    g_atomic_int_set (&in->done, TRUE);
    return TRUE;
  }
  g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED, "%s: %s", name,
               failure->domain == BW_FAULT ? failure->message : bw_io_words (failure, BW_IO_READ));
  return FALSE;
}

static void
read_in (GFile *file, gpointer data)
{
  BwWorkshopWindow *self = data;
  g_autofree char *path = g_file_get_path (file);
  if (!path)
    return;
  g_clear_pointer (&self->reading, read_in_unref);
  self->reading = g_atomic_rc_box_new0 (ReadIn);
  self->reading->path = g_steal_pointer (&path);
  bw_workbook_change (self->book, take_in, g_atomic_rc_box_acquire (self->reading), read_in_unref);
}

static void
read_in_clicked (BwWorkshopWindow *self)
{
  bw_file_dialog_open (GTK_WINDOW (self), BW_FILES_BOOK, read_in, self);
}

static void
tell_read_in (BwWorkshopWindow *self, guint came, guint there)
{
  g_autofree char *new
      = g_strdup_printf (ngettext ("%u entry was new.", "%u entries were new.", came), came);
  g_autofree char *old = g_strdup_printf (
      ngettext ("%u was there already.", "%u were there already.", there), there);
  g_autofree char *sentence = g_strconcat (new, " ", old, NULL);
  bw_notice_tell (self->notice, GTK_MESSAGE_INFO, sentence);
}

static void
book_changed (BwWorkshopWindow *self)
{
  ReadIn *in = self->reading;
  const char *fault = bw_workbook_get_fault (self->book);
  if (fault)
    bw_notice_tell (self->notice, GTK_MESSAGE_WARNING, fault);
  else if (self->tells_fault)
    bw_notice_clear (self->notice);
  self->tells_fault = fault != NULL;
  if (!in || !g_atomic_int_get (&in->done))
    return;
  if (!fault)
    tell_read_in (self, in->came, in->offered - in->came);
  g_clear_pointer (&self->reading, read_in_unref);
}

static void
tell (GtkWidget *widget, const char *action, GVariant *parameter)
{
  BwWorkshopWindow *self = BW_WORKSHOP_WINDOW (widget);
  int type;
  const char *sentence;
  g_variant_get (parameter, "(i&s)", &type, &sentence);
  bw_notice_tell (self->notice, (GtkMessageType)type, sentence);
  self->tells_fault = FALSE;
}

/* --- The window --------------------------------------------------------------------------------
 */

static void
bw_workshop_window_finalize (GObject *object)
{
  g_clear_pointer (&BW_WORKSHOP_WINDOW (object)->reading, read_in_unref);
  G_OBJECT_CLASS (bw_workshop_window_parent_class)->finalize (object);
}

static void
bw_workshop_window_class_init (BwWorkshopWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->finalize = bw_workshop_window_finalize;
  gtk_widget_class_install_action (widget_class, "win." BW_TELL_ACTION, "(is)", tell);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/io/github/bandwright/Bandwright/workshop-window.ui");
  gtk_widget_class_bind_template_child (widget_class, BwWorkshopWindow, pages);
  gtk_widget_class_bind_template_child (widget_class, BwWorkshopWindow, notice);
  gtk_widget_class_bind_template_callback (widget_class, export_clicked);
  gtk_widget_class_bind_template_callback (widget_class, read_in_clicked);
}

/* What does not find room is scrolled to: else large text would make the window wider than a
 * screen. */
static void
add_page (BwWorkshopWindow *self, GtkWidget *page, const char *name, const char *title)
{
  GtkWidget *scrolled = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), page);
  gtk_stack_add_titled (self->pages, scrolled, name, title);
}

static void
bw_workshop_window_init (BwWorkshopWindow *self)
{
  g_type_ensure (BW_TYPE_NOTICE);
  gtk_widget_init_template (GTK_WIDGET (self));
  self->book = bw_workbook_get ();
  add_page (self, bw_hands_page_new (self->book), "hands", _ ("Hands"));
  add_page (self, bw_done_page_new (self->book), "finished", _ ("Finished"));
  self->trays = BW_TRAYS_PAGE (bw_trays_page_new (self->book));
  self->stones = BW_STONES_PAGE (bw_stones_page_new (self->book));
  add_page (self, GTK_WIDGET (self->stones), "stones", _ ("Your Stones"));
  add_page (self, GTK_WIDGET (self->trays), "trays", _ ("Your Trays"));
  add_page (self, bw_things_page_new (&bw_kinds, self->book, NULL), "beads", _ ("Your Beads"));
  self->stash = BW_THINGS_PAGE (
      bw_things_page_new (&bw_stash_things, self->book, bw_stash_last_new (self->book)));
  add_page (self, GTK_WIDGET (self->stash), "stash", _ ("Stash"));
  self->habits = BW_HABITS_PAGE (bw_habits_page_new (self->book));
  add_page (self, GTK_WIDGET (self->habits), "habits", _ ("Habits"));
  g_signal_connect_object (self->book, "changed", G_CALLBACK (book_changed), self,
                           G_CONNECT_SWAPPED);
  bw_part_names_give (GTK_WIDGET (self));
}

void
bw_workshop_window_show (GtkApplication *application, GtkWindow *parent, BwDraft *draft,
                         const char *page)
{
  BwWorkshopWindow *self = NULL;
  for (GList *item = gtk_application_get_windows (application); item; item = item->next)
    if (BW_IS_WORKSHOP_WINDOW (item->data))
      self = item->data;
  if (!self)
    self = g_object_new (BW_TYPE_WORKSHOP_WINDOW, "application", application, NULL);
  if (parent != GTK_WINDOW (self))
    gtk_window_set_transient_for (GTK_WINDOW (self), parent);
  bw_trays_page_set_draft (self->trays, draft);
  bw_stones_page_set_draft (self->stones, draft);
  bw_things_page_set_draft (self->stash, draft);
  bw_habits_page_set_draft (self->habits, draft);
  bw_workbook_read (self->book);
  gtk_stack_set_visible_child_name (self->pages, page);
  gtk_window_present (GTK_WINDOW (self));
}
