/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/trays/trays-page.h"

#include "app/colours/tray-use.h"
#include "app/ask/file-dialog.h"
#include "app/ask/sure.h"
#include "app/ask/tell-file.h"
#include "app/kit/wrap-layout.h"
#include "app/things/own-list.h"
#include "app/trays/tray-dialog.h"
#include "app/trays/tray-strand.h"
#include "project/document/line.h"
#include "project/file/file-name.h"
#include "project/file/palette.h"
#include "project/file/save-whole.h"
#include "project/piece-name.h"

#include <glib/gi18n-lib.h>
#include <string.h>

struct _BwTraysPage {
  GtkWidget parent_instance;
  BwWorkbook *book;
  BwDraft *draft;    /* weak */
  BwKeptTray *asked; /* the tray a question is about */
  GtkWidget *box, *none, *deeds, *more, *use, *keep;
  BwOwnList *list;
};

G_DEFINE_FINAL_TYPE (BwTraysPage, bw_trays_page, GTK_TYPE_WIDGET)

/* --- What the list shows -----------------------------------------------------------------------
 */

static char *
words_of (const BwBook *book, guint i)
{
  g_autofree BwKeptTray *kept = g_new0 (BwKeptTray, 1);
  GString *words = g_string_new (NULL);
  bw_book_get_tray (book, i, kept);
  g_string_append_printf (words, ngettext ("%d colour", "%d colours", (gulong)kept->tray.n_colours),
                          kept->tray.n_colours);
  for (int c = 0; c < kept->tray.n_colours; c++)
    if (*kept->tray.colour[c].name)
      g_string_append_printf (words, " · %s", kept->tray.colour[c].name);
  return g_string_free (words, FALSE);
}

static void
paint (GtkWidget *widget, cairo_t *cr, const BwBook *book, guint i, int width, int height)
{
  g_autofree BwKeptTray *kept = g_new0 (BwKeptTray, 1);
  bw_book_get_tray (book, i, kept);
  bw_tray_strand_paint (widget, cr, &kept->tray, width, height);
}

static const BwOwnKind kind = { bw_book_n_trays, bw_book_tray_name, words_of, paint, FALSE };

/* The one chosen; NULL: none. Owned. */
static BwKeptTray *
chosen (BwTraysPage *self)
{
  const BwBook *book = bw_workbook_get_book (self->book);
  int at = bw_own_list_get_chosen (self->list);
  BwKeptTray *kept = NULL;
  if (book && at >= 0) {
    kept = g_new0 (BwKeptTray, 1);
    bw_book_get_tray (book, (guint)at, kept);
  }
  return kept;
}

static GtkWindow *
window_of (BwTraysPage *self)
{
  return GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self)));
}

static void
refresh (BwTraysPage *self)
{
  const BwBook *book = bw_workbook_get_book (self->book);
  gboolean some = book && bw_book_n_trays (book) > 0;
  gtk_widget_set_visible (self->none, !some && bw_workbook_is_known (self->book));
  gtk_widget_set_visible (GTK_WIDGET (self->list), some);
  gboolean picked = bw_own_list_get_chosen (self->list) >= 0; /* once it is filled */
  gtk_widget_set_visible (self->deeds, some);
  gtk_widget_set_sensitive (self->deeds, picked);
  gtk_widget_set_sensitive (self->use, picked && self->draft);
  gtk_widget_set_sensitive (self->keep, book && self->draft);
  gtk_widget_set_sensitive (self->more, book != NULL);
}

/* --- What is done with one ---------------------------------------------------------------------
 */

static void
use_chosen (BwTraysPage *self)
{
  g_autofree BwKeptTray *kept = chosen (self);
  if (!kept || !self->draft)
    return;
  BwProject *project = bw_draft_get_project (self->draft);
  g_autofree char *piece = bw_piece_name (project);
  bw_draft_settle (self->draft);
  bw_tray_use (project, &kept->tray, kept->name);
  g_autofree char *sentence = g_strdup_printf (
      _ ("“%s” is laid out in “%s”. Undo there takes it back."), kept->name, piece);
  bw_tell (GTK_WIDGET (self), GTK_MESSAGE_INFO, sentence);
}

static void
kept_as (const char *name, gpointer data)
{
  bw_own_list_choose (BW_TRAYS_PAGE (data)->list, name);
}

static void
edit_clicked (BwTraysPage *self)
{
  g_autofree BwKeptTray *kept = chosen (self);
  if (kept)
    bw_tray_dialog_show (window_of (self), self->book, kept, kept, kept_as, G_OBJECT (self));
}

static gboolean
take_out (BwBook *book, gpointer kept, GError **error)
{
  return bw_book_change_tray (book, kept, NULL, error);
}

static void
remove_answered (GtkDialog *dialog, int answer, BwTraysPage *self)
{
  g_autoptr (GtkDialog) held = g_object_ref (dialog);
  gtk_window_destroy (GTK_WINDOW (dialog));
  if (answer == GTK_RESPONSE_ACCEPT && self->asked)
    bw_workbook_change (self->book, take_out, g_steal_pointer (&self->asked), g_free);
}

static void
remove_clicked (BwTraysPage *self)
{
  g_free (self->asked);
  self->asked = chosen (self);
  if (!self->asked)
    return;
  g_autofree char *question
      = g_strdup_printf (_ ("Remove “%s” from your own trays?"), self->asked->name);
  bw_ask_sure (window_of (self), question,
               _ ("Designs that use its colours keep them. The tray itself is gone."),
               _ ("_Cancel"), _ ("_Remove"), G_CALLBACK (remove_answered), self);
}

/* --- Other programs' palettes ------------------------------------------------------------------
 */

static void
write_out (BwTraysPage *self, GFile *file, gboolean css)
{
  g_autofree BwKeptTray *kept = chosen (self);
  g_autoptr (GError) error = NULL;
  if (!kept)
    return;
  g_autofree char *text
      = css ? bw_palette_to_css (&kept->tray) : bw_palette_to_gpl (&kept->tray, kept->name);
  bw_save_file (file, text, strlen (text), BW_SAVE_PLAIN, NULL, NULL, &error);
  bw_tell_file_written (GTK_WIDGET (self), file, error);
}

static void
write_gpl (GFile *file, gpointer data)
{
  write_out (data, file, FALSE);
}

static void
write_css (GFile *file, gpointer data)
{
  write_out (data, file, TRUE);
}

static void
export_as (GtkWidget *widget, const char *action, GVariant *parameter)
{
  BwTraysPage *self = BW_TRAYS_PAGE (widget);
  g_autofree BwKeptTray *kept = chosen (self);
  gboolean css = g_str_equal (action, "own-tray.css");
  if (!kept)
    return;
  g_autofree char *name = bw_file_name_for (kept->name, css ? BW_FILES_CSS : BW_FILES_GPL);
  bw_file_dialog_save (window_of (self), css ? BW_FILES_CSS : BW_FILES_GPL, name, NULL,
                       css ? write_css : write_gpl, self);
}

/* The file's name without its ending. Owned. */
static char *
name_of (GFile *file)
{
  char *name = bw_file_shown (file), *dot = strrchr (name, '.');
  if (dot && dot > name)
    *dot = '\0';
  return name;
}

/* Asks for its name, unless it is kept already. */
static void
keep (BwTraysPage *self, const BwKeptTray *tray)
{
  const BwBook *book = bw_workbook_get_book (self->book);
  int at = book ? bw_book_find_same_tray (book, tray) : -1;
  if (at < 0) {
    bw_tray_dialog_show (window_of (self), self->book, NULL, tray, kept_as, G_OBJECT (self));
    return;
  }
  const char *name = bw_book_tray_name (book, (guint)at);
  g_autofree char *sentence = g_strdup_printf (_ ("This tray is kept already: “%s”."), name);
  bw_own_list_choose (self->list, name);
  bw_tell (GTK_WIDGET (self), GTK_MESSAGE_INFO, sentence);
}

static void
read_in (GFile *file, gpointer data)
{
  BwTraysPage *self = data;
  g_autoptr (GError) error = NULL;
  g_autofree BwKeptTray *kept = g_new0 (BwKeptTray, 1);
  g_autofree char *name = name_of (file);
  if (!bw_palette_load (file, &kept->tray, &error)) {
    bw_tell_file_failure (GTK_WIDGET (self), BW_FILE_OPENED, file, error);
    return;
  }
  bw_copy_text (kept->name, sizeof kept->name, name);
  keep (self, kept);
}

static void
read_in_clicked (BwTraysPage *self)
{
  bw_file_dialog_open (window_of (self), BW_FILES_PALETTE, read_in, self);
}

static void
open_photo (GFile *file, gpointer data)
{
  BwTraysPage *self = data;
  g_autofree char *name = name_of (file);
  bw_tray_dialog_show_photo (window_of (self), self->book, file, name, kept_as, G_OBJECT (self));
}

static void
photo_clicked (BwTraysPage *self)
{
  bw_file_dialog_open (window_of (self), BW_FILES_DRAWN, open_photo, self);
}

static void
keep_clicked (BwTraysPage *self)
{
  if (!self->draft)
    return;
  BwProject *project = bw_draft_get_project (self->draft);
  g_autofree BwKeptTray *kept = g_new0 (BwKeptTray, 1);
  bw_draft_settle (self->draft);
  kept->tray = *bw_project_get_tray (project);
  bw_copy_text (kept->name, sizeof kept->name, bw_project_get_title (project));
  keep (self, kept);
}

/* --- The page ----------------------------------------------------------------------------------
 */

static void
bw_trays_page_dispose (GObject *object)
{
  BwTraysPage *self = BW_TRAYS_PAGE (object);
  g_clear_weak_pointer (&self->draft);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  G_OBJECT_CLASS (bw_trays_page_parent_class)->dispose (object);
}

static void
bw_trays_page_finalize (GObject *object)
{
  g_clear_object (&BW_TRAYS_PAGE (object)->book);
  g_free (BW_TRAYS_PAGE (object)->asked);
  G_OBJECT_CLASS (bw_trays_page_parent_class)->finalize (object);
}

static void
bw_trays_page_class_init (BwTraysPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_trays_page_dispose;
  G_OBJECT_CLASS (klass)->finalize = bw_trays_page_finalize;
  g_type_ensure (BW_TYPE_OWN_LIST);
  gtk_widget_class_install_action (widget_class, "own-tray.gpl", NULL, export_as);
  gtk_widget_class_install_action (widget_class, "own-tray.css", NULL, export_as);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/trays-page.ui");
  gtk_widget_class_bind_template_child (widget_class, BwTraysPage, box);
  gtk_widget_class_bind_template_child (widget_class, BwTraysPage, none);
  gtk_widget_class_bind_template_child (widget_class, BwTraysPage, list);
  gtk_widget_class_bind_template_child (widget_class, BwTraysPage, deeds);
  gtk_widget_class_bind_template_child (widget_class, BwTraysPage, more);
  gtk_widget_class_bind_template_child (widget_class, BwTraysPage, use);
  gtk_widget_class_bind_template_child (widget_class, BwTraysPage, keep);
  gtk_widget_class_bind_template_callback (widget_class, use_chosen);
  gtk_widget_class_bind_template_callback (widget_class, edit_clicked);
  gtk_widget_class_bind_template_callback (widget_class, remove_clicked);
  gtk_widget_class_bind_template_callback (widget_class, keep_clicked);
  gtk_widget_class_bind_template_callback (widget_class, read_in_clicked);
  gtk_widget_class_bind_template_callback (widget_class, photo_clicked);
  gtk_widget_class_bind_template_callback (widget_class, refresh);
}

static void
bw_trays_page_init (BwTraysPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_widget_set_layout_manager (self->deeds, bw_wrap_layout_new (8));
  gtk_widget_set_layout_manager (self->more, bw_wrap_layout_new (8));
}

GtkWidget *
bw_trays_page_new (BwWorkbook *book)
{
  BwTraysPage *self = g_object_new (BW_TYPE_TRAYS_PAGE, NULL);
  self->book = g_object_ref (book);
  bw_own_list_bind (self->list, &kind, book, _ ("Your own trays"));
  g_signal_connect_object (book, "changed", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
  refresh (self);
  return GTK_WIDGET (self);
}

void
bw_trays_page_set_draft (BwTraysPage *self, BwDraft *draft)
{
  g_return_if_fail (BW_IS_TRAYS_PAGE (self));
  g_set_weak_pointer (&self->draft, draft);
  refresh (self);
}
