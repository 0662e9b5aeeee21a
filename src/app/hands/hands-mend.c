/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/hands/hands-mend.h"

#include "app/form/field.h"
#include "app/keep/book-dialog.h"
#include "app/kit/part-names.h"
#include "app/kit/settings.h"
#include "app/kit/words.h"
#include "project/document/line.h"
#include "project/fault/fault-error.h"

#include <glib/gi18n-lib.h>

#define GIVES_MOST 3 /* lengths of one reading of what gives */

struct _BwHandsMend {
  GtkWindow parent_instance;
  BwWorkbook *book;
  guint at;
  BwWoven before;
  GtkEntry *thread;
  GtkGrid *readings; /* a row for the swatch, one for each check; columns 1 and 2 are entries */
  GtkGrid *gives; /* a row each for stretch and squeeze, with a number in each of so many columns */
  GtkLabel *result;
  GtkWidget *save;
};

G_DEFINE_FINAL_TYPE (BwHandsMend, bw_hands_mend, GTK_TYPE_WINDOW)

/* --- Into the book -----------------------------------------------------------------------------
 */

typedef struct {
  guint at;
  BwWoven before, after;
} Change;

static void
change_free (gpointer data)
{
  Change *change = data;
  bw_woven_clear (&change->before);
  bw_woven_clear (&change->after);
  g_free (change);
}

static gboolean
mend (BwBook *book, gpointer data, GError **error)
{
  const Change *change = data;
  return bw_book_mend_piece (book, change->at, &change->before, &change->after, error);
}

static Change *
change_new (guint at, const BwWoven *before, const BwWoven *after)
{
  Change *change = g_new0 (Change, 1);
  *change = (Change){ at, bw_woven_copy (before), bw_woven_copy (after) };
  return change;
}

void
bw_hands_put (BwWorkbook *book, guint at, const BwWoven *before, const BwWoven *after)
{
  bw_workbook_change (book, mend, change_new (at, before, after), change_free);
}

/* --- What is typed -----------------------------------------------------------------------------
 */

static int
count_readings (const BwWoven *piece)
{
  return piece->has_swatch + (piece->checks ? (int)piece->checks->len : 0);
}

/* The lengths of one row of what gives; *told is FALSE when all are left empty. */
static gboolean
read_give (BwHandsMend *self, int row, double *const mm[], int n, gboolean *told, GError **error)
{
  static const BwField length = { .pointer = "/length_mm", .quantity = BW_QUANTITY_LENGTH };
  BwUnit unit = bw_settings_get_unit (bw_settings_get ());
  const char *text[GIVES_MOST];
  *told = FALSE;
  for (int i = 0; i < n; i++) {
    text[i] = gtk_editable_get_text (
        GTK_EDITABLE (gtk_grid_get_child_at (self->gives, 1, row + 1 + i)));
    *told |= *text[i] != '\0';
  }
  for (int i = 0; *told && i < n; i++)
    if (!bw_field_parse (&length, text[i], unit, mm[i], error))
      return FALSE;
  return TRUE;
}

/* A reading whose lengths are all taken out is no reading any more. */
static gboolean
read_gives (BwHandsMend *self, BwWoven *piece, GError **error)
{
  BwSqueezeReading *squeeze = &piece->squeeze;
  double *const of_stretch[] = { &piece->stretch.slack_mm, &piece->stretch.pulled_mm };
  double *const of_squeeze[] = { &squeeze->girth_mm, &squeeze->slack_mm, &squeeze->pulled_mm };
  int row = 0;
  if (self->before.has_stretch && !read_give (self, row, of_stretch, 2, &piece->has_stretch, error))
    return FALSE;
  row += self->before.has_stretch ? 3 : 0;
  return !self->before.has_squeeze
         || read_give (self, row, of_squeeze, 3, &piece->has_squeeze, error);
}

static gboolean
read_reading (BwHandsMend *self, int row, int *rows, double *length_mm, GError **error)
{
  static const BwField count = { .pointer = "/rows", .quantity = BW_QUANTITY_COUNT };
  static const BwField length = { .pointer = "/length_mm", .quantity = BW_QUANTITY_LENGTH };
  BwUnit unit = bw_settings_get_unit (bw_settings_get ());
  double number;
  GtkEditable *first = GTK_EDITABLE (gtk_grid_get_child_at (self->readings, 1, row));
  GtkEditable *second = GTK_EDITABLE (gtk_grid_get_child_at (self->readings, 2, row));
  if (!bw_field_parse (&count, gtk_editable_get_text (first), unit, &number, error)
      || !bw_field_parse (&length, gtk_editable_get_text (second), unit, length_mm, error))
    return FALSE;
  *rows = (int)CLAMP (number, -1e6, 1e6);
  return TRUE;
}

/* The entry as typed, valid; to be cleared in either case. */
static gboolean
read_piece (BwHandsMend *self, BwWoven *piece, GError **error)
{
  int first = self->before.has_swatch;
  *piece = bw_woven_copy (&self->before);
  bw_copy_text (piece->thread, sizeof piece->thread,
                gtk_editable_get_text (GTK_EDITABLE (self->thread)));
  if (piece->has_swatch
      && !read_reading (self, 0, &piece->swatch.rows, &piece->swatch.length_mm, error))
    return FALSE;
  for (int i = first; i < count_readings (&self->before); i++) {
    BwCheck *check = &g_array_index (piece->checks, BwCheck, i - first);
    if (!read_reading (self, i, &check->rows, &check->length_mm, error))
      return FALSE;
  }
  if (!read_gives (self, piece, error))
    return FALSE;
  return bw_woven_validate (piece, "", error);
}

static void
changed (BwHandsMend *self)
{
  g_autoptr (GError) error = NULL;
  g_auto (BwWoven) piece = { 0 };
  gboolean good = read_piece (self, &piece, &error);
  bw_label_set_words (self->result, good ? "" : bw_fault_sentence (error));
  gtk_widget_set_sensitive (self->save, good);
}

static void
save_clicked (BwHandsMend *self)
{
  const BwBookDialog dialog = { GTK_WINDOW (self), self->save, self->result };
  g_auto (BwWoven) piece = { 0 };
  if (!read_piece (self, &piece, NULL))
    return;
  bw_workbook_try (self->book, mend, change_new (self->at, &self->before, &piece), change_free,
                   bw_book_dialog_told, bw_book_dialog_rest (&dialog, NULL));
}

static GtkWidget *
add_entry (BwHandsMend *self, GtkGrid *grid, int column, int row, const char *text,
           const char *name)
{
  GtkWidget *entry = gtk_entry_new ();
  gtk_editable_set_text (GTK_EDITABLE (entry), text);
  gtk_editable_set_width_chars (GTK_EDITABLE (entry), 8);
  gtk_entry_set_activates_default (GTK_ENTRY (entry), TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_signal_connect_object (entry, "changed", G_CALLBACK (changed), self, G_CONNECT_SWAPPED);
  gtk_grid_attach (grid, entry, column, row, 1, 1);
  return entry;
}

static void
add_reading (BwHandsMend *self, int row, const char *what, int rows, double length_mm)
{
  g_autofree char *count = g_strdup_printf ("%d", rows);
  g_autofree char *length
      = bw_length_format (length_mm, bw_settings_get_unit (bw_settings_get ()), 2);
  g_autofree char *rows_name = g_strdup_printf (_ ("%s, rows"), what);
  g_autofree char *length_name = g_strdup_printf (_ ("%s, length"), what);
  GtkWidget *name = gtk_label_new (what);
  gtk_label_set_xalign (GTK_LABEL (name), 0);
  gtk_grid_attach (self->readings, name, 0, row, 1, 1);
  add_entry (self, self->readings, 1, row, count, rows_name);
  add_entry (self, self->readings, 2, row, length, length_name);
}

static void
add_words (BwHandsMend *self, int row, const char *words, int columns)
{
  GtkWidget *name = gtk_label_new (words);
  gtk_label_set_xalign (GTK_LABEL (name), 0);
  gtk_label_set_wrap (GTK_LABEL (name), TRUE);
  gtk_grid_attach (self->gives, name, 0, row, columns, 1);
}

/* A heading, and a line for each length. Returns the row after them. */
static int
add_give (BwHandsMend *self, int row, const char *what, const char *const names[],
          const double mm[], int n)
{
  BwUnit unit = bw_settings_get_unit (bw_settings_get ());
  add_words (self, row++, what, 2);
  for (int i = 0; i < n; i++, row++) {
    g_autofree char *length = bw_length_format (mm[i], unit, 2);
    g_autofree char *name = g_strdup_printf ("%s, %s", what, _ (names[i]));
    add_words (self, row, _ (names[i]), 1);
    gtk_widget_set_hexpand (add_entry (self, self->gives, 1, row, length, name), TRUE);
  }
  return row;
}

static void
add_gives (BwHandsMend *self, const BwWoven *piece)
{
  static const char *const of_stretch[] = { N_ ("slack"), N_ ("pulled") };
  static const char *const of_squeeze[]
      = { N_ ("round the bare stone"), N_ ("over the bed"), N_ ("under a pulled strip") };
  const double stretch[] = { piece->stretch.slack_mm, piece->stretch.pulled_mm };
  const double squeeze[]
      = { piece->squeeze.girth_mm, piece->squeeze.slack_mm, piece->squeeze.pulled_mm };
  int row = 0;
  if (piece->has_stretch)
    row = add_give (self, row, _ ("Thread stretch"), of_stretch, stretch, 2);
  if (piece->has_squeeze)
    add_give (self, row, _ ("Squeeze of the bed"), of_squeeze, squeeze, 3);
  gtk_widget_set_visible (GTK_WIDGET (self->gives), piece->has_stretch || piece->has_squeeze);
}

void
bw_hands_mend_show (GtkWindow *parent, BwWorkbook *book, guint at, const BwWoven *piece)
{
  BwHandsMend *self = g_object_new (BW_TYPE_HANDS_MEND, "transient-for", parent, NULL);
  int row = 0;
  self->book = g_object_ref (book);
  self->at = at;
  self->before = bw_woven_copy (piece);
  gtk_editable_set_text (GTK_EDITABLE (self->thread), piece->thread);
  if (piece->has_swatch)
    add_reading (self, row++, _ ("Swatch"), piece->swatch.rows, piece->swatch.length_mm);
  for (guint i = 0; piece->checks && i < piece->checks->len; i++) {
    BwCheck check = g_array_index (piece->checks, BwCheck, i);
    g_autofree char *what = g_strdup_printf (_ ("Strip %u"), i + 1);
    add_reading (self, row++, what, check.rows, check.length_mm);
  }
  add_gives (self, piece);
  changed (self);
  bw_part_names_give (GTK_WIDGET (self));
  gtk_window_present (GTK_WINDOW (self));
}

static void
bw_hands_mend_finalize (GObject *object)
{
  BwHandsMend *self = BW_HANDS_MEND (object);
  bw_woven_clear (&self->before);
  g_clear_object (&self->book);
  G_OBJECT_CLASS (bw_hands_mend_parent_class)->finalize (object);
}

static void
bw_hands_mend_class_init (BwHandsMendClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->finalize = bw_hands_mend_finalize;
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/hands-mend.ui");
  gtk_widget_class_bind_template_child (widget_class, BwHandsMend, thread);
  gtk_widget_class_bind_template_child (widget_class, BwHandsMend, readings);
  gtk_widget_class_bind_template_child (widget_class, BwHandsMend, gives);
  gtk_widget_class_bind_template_child (widget_class, BwHandsMend, result);
  gtk_widget_class_bind_template_child (widget_class, BwHandsMend, save);
  gtk_widget_class_bind_template_callback (widget_class, changed);
  gtk_widget_class_bind_template_callback (widget_class, save_clicked);
}

static void
bw_hands_mend_init (BwHandsMend *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
