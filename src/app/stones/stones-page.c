/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/stones/stones-page.h"

#include "app/ask/file-dialog.h"
#include "app/kit/settings.h"
#include "app/ask/sure.h"
#include "app/ask/tell-file.h"
#include "app/kit/wrap-layout.h"
#include "app/things/own-list.h"
#include "app/stones/stone-dialog.h"
#include "app/stones/stone-sketch.h"
#include "app/stones/stone-words.h"
#include "project/file/save-whole.h"
#include "project/observed.h"

#include <glib/gi18n-lib.h>

struct _BwStonesPage {
  GtkWidget parent_instance;
  BwWorkbook *book;
  BwDraft *draft;     /* weak */
  BwKeptStone *asked; /* the stone a question is about */
  GtkWidget *box, *none, *deeds, *keep;
  BwOwnList *list;
};

G_DEFINE_FINAL_TYPE (BwStonesPage, bw_stones_page, GTK_TYPE_WIDGET)

/* --- What the list shows -----------------------------------------------------------------------
 */

static char *
words_of (const BwBook *book, guint i)
{
  BwKeptStone stone;
  bw_book_get_stone (book, i, &stone);
  return bw_stone_words (&stone, bw_settings_get_unit (bw_settings_get ()));
}

static void
paint (GtkWidget *widget, cairo_t *cr, const BwBook *book, guint i, int width, int height)
{
  BwKeptStone stone;
  bw_book_get_stone (book, i, &stone);
  bw_stone_sketch_paint (widget, cr, &stone.measures, width, height);
}

static const BwOwnKind kind = { bw_book_n_stones, bw_book_stone_name, words_of, paint, TRUE };

/* FALSE when none is chosen. */
static gboolean
get_chosen (BwStonesPage *self, BwKeptStone *stone)
{
  const BwBook *book = bw_workbook_get_book (self->book);
  int at = bw_own_list_get_chosen (self->list);
  if (!book || at < 0)
    return FALSE;
  bw_book_get_stone (book, (guint)at, stone);
  return TRUE;
}

static GtkWindow *
window_of (BwStonesPage *self)
{
  return GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self)));
}

static void
refresh (BwStonesPage *self)
{
  const BwBook *book = bw_workbook_get_book (self->book);
  gboolean some = book && bw_book_n_stones (book) > 0;
  gtk_widget_set_visible (self->none, !some && bw_workbook_is_known (self->book));
  gtk_widget_set_visible (GTK_WIDGET (self->list), some);
  gtk_widget_set_visible (self->deeds, some);
  gtk_widget_set_sensitive (self->deeds, bw_own_list_get_chosen (self->list) >= 0);
  gtk_widget_set_sensitive (self->keep, book && self->draft);
}

/* --- What is done with one ---------------------------------------------------------------------
 */

static void
begin_clicked (BwStonesPage *self)
{
  BwKeptStone stone;
  if (get_chosen (self, &stone))
    gtk_widget_activate_action (GTK_WIDGET (self), "app.begin-on-stone", "s", stone.name);
}

static void
ways_clicked (BwStonesPage *self)
{
  BwKeptStone stone;
  if (get_chosen (self, &stone))
    gtk_widget_activate_action (GTK_WIDGET (self), "app.ways-for-stone", "s", stone.name);
}

static void
kept_as (const char *name, gpointer data)
{
  bw_own_list_choose (BW_STONES_PAGE (data)->list, name);
}

static void
edit_clicked (BwStonesPage *self)
{
  BwKeptStone stone;
  if (get_chosen (self, &stone))
    bw_stone_dialog_show (window_of (self), self->book, &stone, &stone, kept_as, G_OBJECT (self));
}

static gboolean
take_out (BwBook *book, gpointer stone, GError **error)
{
  return bw_book_change_stone (book, stone, NULL, error);
}

static void
remove_answered (GtkDialog *dialog, int answer, BwStonesPage *self)
{
  g_autoptr (GtkDialog) held = g_object_ref (dialog);
  gtk_window_destroy (GTK_WINDOW (dialog));
  if (answer == GTK_RESPONSE_ACCEPT && self->asked)
    bw_workbook_change (self->book, take_out, g_steal_pointer (&self->asked), g_free);
}

static void
remove_clicked (BwStonesPage *self)
{
  BwKeptStone stone;
  if (!get_chosen (self, &stone))
    return;
  g_free (self->asked);
  self->asked = g_memdup2 (&stone, sizeof stone);
  g_autofree char *question = g_strdup_printf (_ ("Remove “%s” from your stones?"), stone.name);
  bw_ask_sure (window_of (self), question,
               _ ("Designs that were begun on it keep its measurements. The stone itself is gone."),
               _ ("_Cancel"), _ ("_Remove"), G_CALLBACK (remove_answered), self);
}

static void
write_out (GFile *file, gpointer data)
{
  BwStonesPage *self = data;
  const BwBook *book = bw_workbook_get_book (self->book);
  int at = bw_own_list_get_chosen (self->list);
  g_autoptr (GError) error = NULL;
  gsize length;
  if (!book || at < 0)
    return;
  g_autoptr (BwBook) alone = bw_book_new ();
  bw_book_copy_stone (alone, book, (guint)at);
  g_autofree char *text = bw_book_to_data (alone, &length);
  bw_save_file (file, text, length, BW_SAVE_PLAIN, NULL, NULL, &error);
  bw_tell_file_written (GTK_WIDGET (self), file, error);
}

static void
export_clicked (BwStonesPage *self)
{
  BwKeptStone stone;
  if (!get_chosen (self, &stone))
    return;
  g_autofree char *name = bw_file_name_for (stone.name, BW_FILES_BOOK);
  bw_file_dialog_save (window_of (self), BW_FILES_BOOK, name, NULL, write_out, self);
}

/* --- The design's stone ------------------------------------------------------------------------
 */

/* The stone that is kept, as it looks now. */
static void
look_anew (BwStonesPage *self, const BwKeptStone *before, const BwKeptStone *stone)
{
  BwKeptStone now = *before;
  now.look = stone->look;
  bw_stone_dialog_show (window_of (self), self->book, before, &now, kept_as, G_OBJECT (self));
}

/* Asks for its name, unless it is kept already. */
static void
keep (BwStonesPage *self, const BwKeptStone *stone)
{
  const BwBook *book = bw_workbook_get_book (self->book);
  int at = book ? bw_book_find_same_stone (book, stone) : -1;
  BwKeptStone before;
  if (at < 0) {
    bw_stone_dialog_show (window_of (self), self->book, NULL, stone, kept_as, G_OBJECT (self));
    return;
  }
  bw_book_get_stone (book, (guint)at, &before);
  if (!bw_stone_look_equal (&before.look, &stone->look)) {
    look_anew (self, &before, stone);
    return;
  }
  const char *name = bw_book_stone_name (book, (guint)at);
  g_autofree char *sentence = g_strdup_printf (_ ("This stone is kept already: “%s”."), name);
  bw_own_list_choose (self->list, name);
  bw_tell (GTK_WIDGET (self), GTK_MESSAGE_INFO, sentence);
}

static void
keep_clicked (BwStonesPage *self)
{
  BwKeptStone stone = { .state = BW_STONE_WAITING };
  if (!self->draft)
    return;
  BwProject *project = bw_draft_get_project (self->draft);
  bw_draft_settle (self->draft);
  if (bw_project_stone_is_example (project)) {
    bw_tell (GTK_WIDGET (self), GTK_MESSAGE_WARNING,
             _ ("This design’s stone is still the invented one. Measure yours first."));
    return;
  }
  g_autofree char *today = bw_observed_today ();
  stone.measures = bw_project_get_design (project)->stone;
  stone.look = bw_project_get_design (project)->look;
  if (stone.measures.base != BW_BASE_FLAT)
    stone.look.base = BW_BASE_PLAIN; /* nothing is said of it */
  bw_copy_text (stone.name, sizeof stone.name, bw_project_get_title (project));
  bw_copy_text (stone.mineral, sizeof stone.mineral, bw_project_get_mineral (project));
  bw_copy_text (stone.date, sizeof stone.date, today);
  keep (self, &stone);
}

/* --- The page ----------------------------------------------------------------------------------
 */

static void
bw_stones_page_dispose (GObject *object)
{
  BwStonesPage *self = BW_STONES_PAGE (object);
  g_clear_weak_pointer (&self->draft);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  G_OBJECT_CLASS (bw_stones_page_parent_class)->dispose (object);
}

static void
bw_stones_page_finalize (GObject *object)
{
  g_clear_object (&BW_STONES_PAGE (object)->book);
  g_free (BW_STONES_PAGE (object)->asked);
  G_OBJECT_CLASS (bw_stones_page_parent_class)->finalize (object);
}

static void
bw_stones_page_class_init (BwStonesPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_stones_page_dispose;
  G_OBJECT_CLASS (klass)->finalize = bw_stones_page_finalize;
  g_type_ensure (BW_TYPE_OWN_LIST);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/stones-page.ui");
  gtk_widget_class_bind_template_child (widget_class, BwStonesPage, box);
  gtk_widget_class_bind_template_child (widget_class, BwStonesPage, none);
  gtk_widget_class_bind_template_child (widget_class, BwStonesPage, list);
  gtk_widget_class_bind_template_child (widget_class, BwStonesPage, deeds);
  gtk_widget_class_bind_template_child (widget_class, BwStonesPage, keep);
  gtk_widget_class_bind_template_callback (widget_class, begin_clicked);
  gtk_widget_class_bind_template_callback (widget_class, ways_clicked);
  gtk_widget_class_bind_template_callback (widget_class, edit_clicked);
  gtk_widget_class_bind_template_callback (widget_class, export_clicked);
  gtk_widget_class_bind_template_callback (widget_class, remove_clicked);
  gtk_widget_class_bind_template_callback (widget_class, keep_clicked);
  gtk_widget_class_bind_template_callback (widget_class, refresh);
}

static void
bw_stones_page_init (BwStonesPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_widget_set_layout_manager (self->deeds, bw_wrap_layout_new (8));
}

GtkWidget *
bw_stones_page_new (BwWorkbook *book)
{
  BwStonesPage *self = g_object_new (BW_TYPE_STONES_PAGE, NULL);
  self->book = g_object_ref (book);
  bw_own_list_bind (self->list, &kind, book, _ ("Your stones"));
  g_signal_connect_object (book, "changed", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
  refresh (self);
  return GTK_WIDGET (self);
}

void
bw_stones_page_set_draft (BwStonesPage *self, BwDraft *draft)
{
  g_return_if_fail (BW_IS_STONES_PAGE (self));
  g_set_weak_pointer (&self->draft, draft);
  refresh (self);
}
