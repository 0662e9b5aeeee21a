/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What had been told of the planned count is kept when the piece is first marked: afterwards the
 * maker knows, and the forecast with him. */
#include "config.h"

#include "app/hands/done-dialog.h"

#include "app/kit/part-names.h"
#include "app/kit/settings.h"
#include "app/kit/words.h"
#include "app/measure/dialog-entry.h"
#include "app/things/stash-take.h"
#include "project/document/line.h"
#include "project/fault/fault-error.h"
#include "project/observed.h"

#include <glib/gi18n-lib.h>
#include <string.h>

struct _BwDoneDialog {
  GtkWindow parent_instance;
  BwDraft *draft;
  BwDone known; /* as it stands, or as planned */
  GtkEntry *rows, *hours, *price, *picture;
  GtkDropDown *fate;
  GtkLabel *planned, *result;
  GtkWidget *use, *drop;
};

G_DEFINE_FINAL_TYPE (BwDoneDialog, bw_done_dialog, GTK_TYPE_WINDOW)

/* The chance that had been told of these rows: that they are the first to close. */
static double
chance_told (const BwForecast *forecast, int rows)
{
  for (int i = 0; i < forecast->n_chances; i++)
    if (2 * forecast->chance[i].beads_around == rows)
      return CLAMP (forecast->chance[i].p, 0, 1);
  return 0;
}

static BwDone
done_as_planned (BwProject *project)
{
  int rows = bw_project_get_design (project)->band.rows;
  if (rows % 2 == 1 || rows < 6)
    return (BwDone){ 0 };
  return (BwDone){ .planned = rows, .told = chance_told (bw_project_forecast (project), rows) };
}

/* Empty is 0: not noted. */
static gboolean
read_number (GtkEntry *entry, const char *pointer, BwQuantity quantity, double *number,
             GError **error)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (entry));
  BwField field = { .quantity = quantity };
  *number = 0;
  if (strspn (text, " ") == strlen (text))
    return TRUE;
  g_strlcpy (field.pointer, pointer, sizeof field.pointer);
  return bw_field_parse (&field, text, bw_settings_get_unit (bw_settings_get ()), number, error);
}

static gboolean
read_done (BwDoneDialog *self, BwDone *done, GError **error)
{
  double rows;
  *done = self->known;
  if (!read_number (self->rows, "/finished/rows", BW_QUANTITY_COUNT, &rows, error)
      || !read_number (self->hours, "/finished/hours", BW_QUANTITY_NUMBER, &done->hours, error)
      || !read_number (self->price, "/finished/price", BW_QUANTITY_NUMBER, &done->price, error))
    return FALSE;
  done->rows = (int)CLAMP (rows, -1e6, 1e6);
  done->fate = (BwFate)MIN (gtk_drop_down_get_selected (self->fate), BW_N_FATES - 1);
  bw_copy_text (done->picture, sizeof done->picture,
                gtk_editable_get_text (GTK_EDITABLE (self->picture)));
  return bw_done_validate (done, "/finished", error)
         && (done->rows == 0
             || bw_observed_check_rows (bw_draft_get_project (self->draft), done->rows, error));
}

static void
changed (BwDoneDialog *self)
{
  g_autoptr (GError) error = NULL;
  BwDone done;
  if (!self->draft)
    return;
  gboolean good = read_done (self, &done, &error);
  bw_entry_mark (self->rows, error, "/finished/rows");
  bw_entry_mark (self->hours, error, "/finished/hours");
  bw_entry_mark (self->price, error, "/finished/price");
  bw_entry_mark (self->picture, error, "/finished/picture");
  bw_label_set_words (self->result, good ? "" : bw_fault_sentence (error));
  gtk_widget_set_sensitive (self->use, good && done.rows > 0);
}

static gboolean
put (BwDoneDialog *self, const char *label, const BwDone *done)
{
  g_autoptr (GError) error = NULL;
  bw_draft_settle (self->draft);
  if (!bw_project_set_done (bw_draft_get_project (self->draft), label, done, &error)) {
    bw_label_set_words (self->result, bw_fault_sentence (error));
    return FALSE;
  }
  gtk_window_close (GTK_WINDOW (self));
  return TRUE;
}

static void
use_clicked (BwDoneDialog *self)
{
  BwDone done;
  g_autoptr (BwProject) project = g_object_ref (bw_draft_get_project (self->draft));
  GtkWindow *parent = gtk_window_get_transient_for (GTK_WINDOW (self));
  if (read_done (self, &done, NULL) && put (self, _ ("Finished"), &done))
    bw_stash_take_ask (parent, project);
}

static void
drop_clicked (BwDoneDialog *self)
{
  g_autoptr (BwProject) project = g_object_ref (bw_draft_get_project (self->draft));
  GtkWindow *parent = gtk_window_get_transient_for (GTK_WINDOW (self));
  if (put (self, _ ("Not finished"), &(BwDone){ 0 }))
    bw_stash_take_back (parent, project);
}

static void
put_number (GtkEntry *entry, double number)
{
  g_autofree char *text = number > 0 ? g_strdup_printf ("%.10g", number) : g_strdup ("");
  gtk_editable_set_text (GTK_EDITABLE (entry), text);
}

static void
show_known (BwDoneDialog *self)
{
  const BwDone *known = &self->known;
  put_number (self->rows, known->rows > 0 ? known->rows : known->planned);
  put_number (self->hours, known->hours);
  put_number (self->price, known->price);
  gtk_editable_set_text (GTK_EDITABLE (self->picture), known->picture);
  gtk_drop_down_set_selected (self->fate, known->fate);
  gtk_widget_set_visible (self->drop, known->rows > 0);
  if (known->planned == 0)
    return;
  g_autofree char *words
      = g_strdup_printf (_ ("%d rows were planned; of that count %.0f %% had been told."),
                         known->planned, 100 * known->told);
  bw_label_set_words (self->planned, words);
}

void
bw_done_dialog_show (GtkWindow *parent, BwDraft *draft)
{
  g_return_if_fail (BW_IS_DRAFT (draft));
  BwDoneDialog *self = g_object_new (BW_TYPE_DONE_DIALOG, "transient-for", parent, NULL);
  BwProject *project = bw_draft_get_project (draft);
  const BwDone *done = bw_project_get_done (project);
  self->known = done->rows > 0 ? *done : done_as_planned (project);
  show_known (self);
  self->draft = g_object_ref (draft);
  changed (self);
  bw_part_names_give (GTK_WIDGET (self));
  gtk_window_present (GTK_WINDOW (self));
}

static void
bw_done_dialog_finalize (GObject *object)
{
  g_clear_object (&BW_DONE_DIALOG (object)->draft);
  G_OBJECT_CLASS (bw_done_dialog_parent_class)->finalize (object);
}

static void
bw_done_dialog_class_init (BwDoneDialogClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->finalize = bw_done_dialog_finalize;
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/done-dialog.ui");
  gtk_widget_class_bind_template_child (widget_class, BwDoneDialog, rows);
  gtk_widget_class_bind_template_child (widget_class, BwDoneDialog, hours);
  gtk_widget_class_bind_template_child (widget_class, BwDoneDialog, price);
  gtk_widget_class_bind_template_child (widget_class, BwDoneDialog, picture);
  gtk_widget_class_bind_template_child (widget_class, BwDoneDialog, fate);
  gtk_widget_class_bind_template_child (widget_class, BwDoneDialog, planned);
  gtk_widget_class_bind_template_child (widget_class, BwDoneDialog, result);
  gtk_widget_class_bind_template_child (widget_class, BwDoneDialog, use);
  gtk_widget_class_bind_template_child (widget_class, BwDoneDialog, drop);
  gtk_widget_class_bind_template_callback (widget_class, changed);
  gtk_widget_class_bind_template_callback (widget_class, use_clicked);
  gtk_widget_class_bind_template_callback (widget_class, drop_clicked);
}

static void
bw_done_dialog_init (BwDoneDialog *self)
{
  const char *const fates[] = { _ ("kept"), _ ("sold"), _ ("given away"), NULL };
  g_autoptr (GtkStringList) list = gtk_string_list_new (fates);
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_drop_down_set_model (self->fate, G_LIST_MODEL (list));
}
