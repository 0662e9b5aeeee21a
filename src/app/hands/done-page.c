/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/hands/done-page.h"

#include "app/ask/file-dialog.h"
#include "app/ask/tell-file.h"
#include "app/kit/when-seen.h"
#include "app/kit/words.h"
#include "app/hands/line-rows.h"
#include "app/hands/told-plot.h"
#include "output/report/report-finished.h"
#include "project/file/save-whole.h"

#include <glib/gi18n-lib.h>
#include <string.h>

struct _BwDonePage {
  GtkWidget parent_instance;
  BwWorkbook *book;
  GtkLabel *none, *right, *hours;
  GtkWidget *some;
  BwToldPlot *plot;
  GtkListView *list;
};

G_DEFINE_FINAL_TYPE (BwDonePage, bw_done_page, GTK_TYPE_WIDGET)

/* --- Words -------------------------------------------------------------------------------------
 */

static char *
right_words (const BwBookDone *all)
{
  g_autofree char *count = g_strdup_printf (
      ngettext ("%d piece is finished.", "%d pieces are finished.", (gulong)all->pieces),
      all->pieces);
  if (all->planned == 0)
    return g_steal_pointer (&count);
  g_autofree char *right = g_strdup_printf (
      _ ("Of %d whose planned rows are known %d came out right the first time: "
         "%.0f %%, where %.0f %% had been told."),
      all->planned, all->right, 100.0 * all->right / all->planned, 100 * all->told);
  return g_strdup_printf ("%s %s", count, right);
}

static char *
hours_words (const BwBookDone *all)
{
  if (!(all->hours > 0))
    return g_strdup (_ ("No hours are noted yet."));
  g_autofree char *rows = g_strdup_printf (_ ("%.1f hours are noted: %.1f minutes a row."),
                                           all->hours, 60 * all->hours / (double)all->hours_rows);
  if (all->beads == 0)
    return g_steal_pointer (&rows);
  /* Translators: the first is the sentence on hours and rows. */
  return g_strdup_printf (_ ("%s That is %.0f beads an hour."), rows,
                          (double)all->beads / all->beads_hours);
}

static char *
money_words (const BwWovenEnd *end)
{
  static const char *const fates[]
      = { N_ ("kept"), N_ ("sold"), N_ ("given away") }; /* as BwFate */
  const char *fate = _ (fates[end->done.fate]);
  g_autofree char *cost
      = end->cost > 0 ? g_strdup_printf (_ ("cost %.2f %s"), end->cost, end->currency) : NULL;
  g_autofree char *price
      = end->done.fate == BW_FATE_SOLD && end->done.price > 0
            ? g_strdup_printf (_ ("%s for %.2f %s"), fate, end->done.price, end->currency)
            : g_strdup (fate);
  return cost ? g_strdup_printf ("%s, %s", cost, price) : g_steal_pointer (&price);
}

static char *
rows_words (const BwWovenEnd *end)
{
  const BwDone *done = &end->done;
  if (done->planned == 0)
    return g_strdup_printf (_ ("%d rows"), end->rows);
  if (done->planned == end->rows)
    return g_strdup_printf (_ ("%d rows as planned (%.0f %% told)"), end->rows, 100 * done->told);
  return g_strdup_printf (_ ("%d rows instead of %d (%.0f %% told)"), end->rows, done->planned,
                          100 * done->told);
}

static char *
piece_words (const BwWoven *piece)
{
  const BwWovenEnd *end = &piece->end;
  g_autofree char *rows = rows_words (end), *money = money_words (end);
  g_autofree char *hours
      = end->done.hours > 0 ? g_strdup_printf (_ ("%.1f h"), end->done.hours) : NULL;
  GString *words = g_string_new (piece->date);
  const char *parts[] = { *piece->title ? piece->title : _ ("Untitled"), rows, hours, money,
                          *end->done.picture ? end->done.picture : NULL };
  for (gsize i = 0; i < G_N_ELEMENTS (parts); i++)
    if (parts[i])
      g_string_append_printf (words, " · %s", parts[i]);
  return g_string_free (words, FALSE);
}

/* --- What is shown -----------------------------------------------------------------------------
 */

static int
newest_first (gconstpointer a, gconstpointer b)
{
  const BwWoven *one = *(const BwWoven *const *)a, *other = *(const BwWoven *const *)b;
  return strcmp (other->date, one->date);
}

static void
show_list (BwDonePage *self, const BwBook *book)
{
  g_autoptr (GPtrArray) pieces = g_ptr_array_new ();
  GtkStringList *lines = gtk_string_list_new (NULL);
  for (guint i = 0; i < bw_book_n_pieces (book); i++)
    if (bw_book_get_piece (book, i)->has_end)
      g_ptr_array_add (pieces, (gpointer)bw_book_get_piece (book, i));
  g_ptr_array_sort (pieces, newest_first);
  for (guint i = 0; i < pieces->len; i++) {
    g_autofree char *words = piece_words (g_ptr_array_index (pieces, i));
    gtk_string_list_append (lines, words);
  }
  g_autoptr (GtkNoSelection) model = gtk_no_selection_new (G_LIST_MODEL (lines));
  gtk_list_view_set_model (self->list, GTK_SELECTION_MODEL (model));
}

static void
fill (gpointer page)
{
  BwDonePage *self = page;
  const BwBook *book = bw_workbook_get_book (self->book);
  BwBookDone all = { 0 };
  if (book)
    bw_book_done_init (&all, book);
  gtk_widget_set_visible (self->some, all.pieces > 0);
  gtk_widget_set_visible (GTK_WIDGET (self->none),
                          all.pieces == 0 && bw_workbook_is_known (self->book));
  if (all.pieces == 0)
    return;
  g_autofree char *right = right_words (&all), *hours = hours_words (&all);
  bw_label_set_words (self->right, right);
  bw_label_set_words (self->hours, hours);
  bw_told_plot_set (self->plot, &all, right);
  show_list (self, book);
}

static void
book_changed (BwDonePage *self)
{
  bw_when_seen (GTK_WIDGET (self), fill);
}

static void
write_csv (GFile *file, gpointer data)
{
  BwDonePage *self = data;
  const BwBook *book = bw_workbook_get_book (self->book);
  g_autoptr (GError) error = NULL;
  if (!book)
    return;
  g_autofree char *text = bw_report_finished_csv (book);
  bw_save_file (file, text, strlen (text), BW_SAVE_PLAIN, NULL, NULL, &error);
  bw_tell_file_written (GTK_WIDGET (self), file, error);
}

static void
csv_clicked (BwDonePage *self)
{
  g_autofree char *name = bw_file_name_for (_ ("Finished pieces"), BW_FILES_CSV);
  bw_file_dialog_save (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))), BW_FILES_CSV, name,
                       NULL, write_csv, self);
}

static void
bw_done_page_dispose (GObject *object)
{
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))))
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (bw_done_page_parent_class)->dispose (object);
}

static void
bw_done_page_finalize (GObject *object)
{
  g_clear_object (&BW_DONE_PAGE (object)->book);
  G_OBJECT_CLASS (bw_done_page_parent_class)->finalize (object);
}

static void
bw_done_page_class_init (BwDonePageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_done_page_dispose;
  G_OBJECT_CLASS (klass)->finalize = bw_done_page_finalize;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/done-page.ui");
  gtk_widget_class_bind_template_child (widget_class, BwDonePage, none);
  gtk_widget_class_bind_template_child (widget_class, BwDonePage, right);
  gtk_widget_class_bind_template_child (widget_class, BwDonePage, hours);
  gtk_widget_class_bind_template_child (widget_class, BwDonePage, some);
  gtk_widget_class_bind_template_child (widget_class, BwDonePage, plot);
  gtk_widget_class_bind_template_child (widget_class, BwDonePage, list);
  gtk_widget_class_bind_template_callback (widget_class, csv_clicked);
}

static void
bw_done_page_init (BwDonePage *self)
{
  g_type_ensure (BW_TYPE_TOLD_PLOT);
  gtk_widget_init_template (GTK_WIDGET (self));
  bw_line_rows_use (self->list);
}

GtkWidget *
bw_done_page_new (BwWorkbook *book)
{
  BwDonePage *self = g_object_new (BW_TYPE_DONE_PAGE, NULL);
  self->book = g_object_ref (book);
  g_signal_connect_object (book, "changed", G_CALLBACK (book_changed), self, G_CONNECT_SWAPPED);
  book_changed (self);
  return GTK_WIDGET (self);
}
