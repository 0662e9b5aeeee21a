/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/stones/stone-dialog.h"

#include "app/keep/book-dialog.h"
#include "app/ask/file-dialog.h"
#include "app/kit/palette.h"
#include "app/kit/part-names.h"
#include "app/kit/words.h"
#include "app/stones/stone-form.h"
#include "app/stones/stone-sketch.h"
#include "app/stones/stone-words.h"
#include "project/fault/fault-error.h"
#include "project/file/file-name.h"

#include <glib/gi18n-lib.h>

struct _BwStoneDialog {
  GtkWindow parent_instance;
  BwWorkbook *book;
  BwKeptStone *before;   /* NULL: new */
  BwStoneMeasures shown; /* the last that made a stone */
  BwStoneLook look;      /* as it was given */
  GtkEntry *name, *mineral, *picture, *date;
  GtkDropDown *state;
  GtkDrawingArea *sketch;
  BwStoneForm *form;
  GtkLabel *result;
  GtkWidget *save;
  BwStoneKept kept;
  GWeakRef owner;
};

G_DEFINE_FINAL_TYPE (BwStoneDialog, bw_stone_dialog, GTK_TYPE_WINDOW)

/* --- What is typed -----------------------------------------------------------------------------
 */

static char *
line_of (GtkEntry *entry)
{
  g_autofree char *line = bw_line_make (gtk_editable_get_text (GTK_EDITABLE (entry)));
  return g_strdup (g_strstrip (line));
}

static void
take_line (char *buffer, gsize bytes, GtkEntry *entry)
{
  g_autofree char *line = line_of (entry);
  bw_copy_text (buffer, bytes, line);
}

static gboolean
is_day (const char *date)
{
  int year, month, day, used = 0;
  return sscanf (date, "%4d-%2d-%2d%n", &year, &month, &day, &used) == 3 && used == 10
         && !date[used] && year >= 1000 && month > 0 && day > 0
         && g_date_valid_dmy ((GDateDay)day, (GDateMonth)month, (GDateYear)year);
}

static gboolean
is_anothers (BwStoneDialog *self, const char *name)
{
  const BwBook *book = bw_workbook_get_book (self->book);
  return book && bw_book_find_stone (book, name) >= 0
         && !(self->before && g_str_equal (self->before->name, name));
}

/* Why it cannot be kept; NULL when it can. Owned. */
static char *
reason (BwStoneDialog *self)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *name = line_of (self->name), *date = line_of (self->date);
  if (!*name)
    return g_strdup (_ ("Give the stone a name."));
  if (is_anothers (self, name))
    return g_strdup_printf (_ ("Another stone is called “%s”. Give this one another name."), name);
  if (*date && !is_day (date))
    return g_strdup (_ ("A day is written like 2026-11-29."));
  return bw_stone_form_read (self->form, &self->shown, &error)
             ? NULL
             : g_strdup (bw_fault_sentence (error));
}

static void
changed (BwStoneDialog *self)
{
  g_autofree char *why = self->book ? reason (self) : NULL;
  bw_label_set_words (self->result, why ? why : "");
  gtk_widget_set_visible (GTK_WIDGET (self->result), why != NULL);
  gtk_widget_set_sensitive (self->save, why == NULL);
  gtk_widget_queue_draw (GTK_WIDGET (self->sketch));
}

static void
picture_chosen (GFile *file, gpointer data)
{
  g_autofree char *name = bw_file_shown (file);
  gtk_editable_set_text (GTK_EDITABLE (BW_STONE_DIALOG (data)->picture), name);
}

static void
picture_clicked (BwStoneDialog *self)
{
  bw_file_dialog_open (GTK_WINDOW (self), BW_FILES_DRAWN, picture_chosen, self);
}

/* --- Keeping -----------------------------------------------------------------------------------
 */

typedef struct {
  gboolean is_new;
  BwKeptStone before, stone;
} Change;

static gboolean
keep (BwBook *book, gpointer data, GError **error)
{
  const Change *change = data;
  return bw_book_change_stone (book, change->is_new ? NULL : &change->before, &change->stone,
                               error);
}

static void
is_kept (GtkWindow *window)
{
  BwStoneDialog *self = BW_STONE_DIALOG (window);
  g_autoptr (GObject) owner = g_weak_ref_get (&self->owner);
  g_autofree char *name = line_of (self->name);
  if (owner)
    self->kept (name, owner);
}

static void
save_clicked (BwStoneDialog *self)
{
  const BwBookDialog dialog = { GTK_WINDOW (self), self->save, self->result };
  Change *change = g_new0 (Change, 1);
  BwKeptStone *stone = &change->stone;
  change->is_new = self->before == NULL;
  if (self->before)
    change->before = *self->before;
  take_line (stone->name, sizeof stone->name, self->name);
  take_line (stone->mineral, sizeof stone->mineral, self->mineral);
  take_line (stone->picture, sizeof stone->picture, self->picture);
  take_line (stone->date, sizeof stone->date, self->date);
  stone->state = (BwStoneState)gtk_drop_down_get_selected (self->state);
  stone->measures = self->shown;
  stone->look = self->look;
  bw_workbook_try (self->book, keep, change, g_free, bw_book_dialog_told,
                   bw_book_dialog_rest (&dialog, is_kept));
}

/* --- The form ----------------------------------------------------------------------------------
 */

static void
paint (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  bw_stone_sketch_paint (GTK_WIDGET (area), cr, &BW_STONE_DIALOG (data)->shown, width, height);
}

static void
bw_stone_dialog_finalize (GObject *object)
{
  BwStoneDialog *self = BW_STONE_DIALOG (object);
  g_clear_object (&self->book);
  g_free (self->before);
  g_weak_ref_clear (&self->owner);
  G_OBJECT_CLASS (bw_stone_dialog_parent_class)->finalize (object);
}

static void
bw_stone_dialog_class_init (BwStoneDialogClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->finalize = bw_stone_dialog_finalize;
  g_type_ensure (BW_TYPE_STONE_FORM);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/stone-dialog.ui");
  gtk_widget_class_bind_template_child (widget_class, BwStoneDialog, name);
  gtk_widget_class_bind_template_child (widget_class, BwStoneDialog, mineral);
  gtk_widget_class_bind_template_child (widget_class, BwStoneDialog, picture);
  gtk_widget_class_bind_template_child (widget_class, BwStoneDialog, date);
  gtk_widget_class_bind_template_child (widget_class, BwStoneDialog, state);
  gtk_widget_class_bind_template_child (widget_class, BwStoneDialog, sketch);
  gtk_widget_class_bind_template_child (widget_class, BwStoneDialog, form);
  gtk_widget_class_bind_template_child (widget_class, BwStoneDialog, result);
  gtk_widget_class_bind_template_child (widget_class, BwStoneDialog, save);
  gtk_widget_class_bind_template_callback (widget_class, changed);
  gtk_widget_class_bind_template_callback (widget_class, picture_clicked);
  gtk_widget_class_bind_template_callback (widget_class, save_clicked);
}

static void
bw_stone_dialog_init (BwStoneDialog *self)
{
  g_autoptr (GtkStringList) words = gtk_string_list_new (NULL);
  g_weak_ref_init (&self->owner, NULL);
  gtk_widget_init_template (GTK_WIDGET (self));
  for (BwStoneState state = 0; state < BW_N_STONE_STATES; state++)
    gtk_string_list_append (words, bw_stone_state_words (state));
  gtk_drop_down_set_model (self->state, G_LIST_MODEL (words));
  gtk_drawing_area_set_draw_func (self->sketch, paint, self, NULL);
  bw_palette_follow (GTK_WIDGET (self->sketch));
}

/* A name that no other stone has. Owned. */
static char *
free_name (BwStoneDialog *self, const char *wanted)
{
  char *name = g_strdup (wanted);
  for (int i = 2; is_anothers (self, name); i++) {
    g_free (name);
    name = g_strdup_printf ("%s %d", wanted, i);
  }
  return name;
}

void
bw_stone_dialog_show (GtkWindow *parent, BwWorkbook *book, const BwKeptStone *before,
                      const BwKeptStone *stone, BwStoneKept kept, GObject *owner)
{
  BwStoneDialog *self = g_object_new (BW_TYPE_STONE_DIALOG, "transient-for", parent, NULL);
  self->before = g_memdup2 (before, before ? sizeof *before : 0);
  self->shown = stone->measures;
  self->look = stone->look;
  self->kept = kept;
  g_weak_ref_set (&self->owner, owner);
  self->book = g_object_ref (book);
  g_autofree char *name = free_name (self, *stone->name ? stone->name : _ ("Stone"));
  gtk_editable_set_text (GTK_EDITABLE (self->name), name);
  gtk_editable_set_text (GTK_EDITABLE (self->mineral), stone->mineral);
  gtk_editable_set_text (GTK_EDITABLE (self->picture), stone->picture);
  gtk_editable_set_text (GTK_EDITABLE (self->date), stone->date);
  gtk_drop_down_set_selected (self->state, stone->state);
  bw_stone_form_set (self->form, &stone->measures);
  gtk_window_set_title (GTK_WINDOW (self), before ? _ ("Edit a Stone") : _ ("Keep a Stone"));
  changed (self);
  bw_part_names_give (GTK_WIDGET (self));
  gtk_window_present (GTK_WINDOW (self));
}
