/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Four numbers off a swatch, what they were measured with and what they are worth: the gauge they
 * give, how sure it is, and what that does for the row count, told while they are typed. */
#include "config.h"

#include "app/form/doubt.h"
#include "app/kit/part-names.h"
#include "app/kit/select-all.h"
#include "app/kit/settings.h"
#include "app/fit/sure-words.h"
#include "app/kit/words.h"
#include "app/measure/dialog-entry.h"
#include "output/report/give-words.h"
#include "app/measure/swatch-dialog.h"
#include "project/fault/fault-words.h"

#include <glib/gi18n-lib.h>

struct _BwSwatchDialog {
  GtkWindow parent_instance;
  BwDraft *draft;
  GtkEntry *columns;
  GtkEntry *rows;
  GtkEntry *width;
  GtkEntry *length;
  GtkEntry *pulled; /* may be left empty */
  GtkCheckButton *ruler;
  GtkCheckButton *calliper;
  GtkLabel *result;
  GtkLabel *gain;
  GtkLabel *longer;
  GtkButton *use;
  GtkButton *drop;
};

/* Rows of a swatch that is worth weaving. Common practice, no source. */
#define LONG_ROWS 60

G_DEFINE_FINAL_TYPE (BwSwatchDialog, bw_swatch_dialog, GTK_TYPE_WINDOW)

static gboolean
read_swatch (BwSwatchDialog *self, BwSwatch *swatch, GError **error)
{
  double columns, rows;
  if (!bw_entry_read (self->columns, BW_QUANTITY_COUNT, "/gauge/swatch/columns", &columns, error)
      || !bw_entry_read (self->width, BW_QUANTITY_LENGTH, "/gauge/swatch/width_mm",
                         &swatch->width_mm, error)
      || !bw_entry_read (self->rows, BW_QUANTITY_COUNT, "/gauge/swatch/rows", &rows, error)
      || !bw_entry_read (self->length, BW_QUANTITY_LENGTH, "/gauge/swatch/length_mm",
                         &swatch->length_mm, error))
    return FALSE;
  swatch->columns = (int)CLAMP (columns, -1e6, 1e6);
  swatch->rows = (int)CLAMP (rows, -1e6, 1e6);
  swatch->tool
      = gtk_check_button_get_active (self->calliper) ? BW_STRIP_BY_CALLIPER : BW_STRIP_BY_RULER;
  return TRUE;
}

/* What the pieces woven before say of it stays. */
static void
forget_pulled (BwThread *thread)
{
  gboolean has_hands = thread->has_hands;
  if (!thread->has_pulled)
    return;
  bw_thread_unlearn (thread);
  thread->has_hands = has_hands;
}

/* The swatch's own length is the slack one. */
static gboolean
read_pulled (BwSwatchDialog *self, const BwSwatch *swatch, BwThread *thread, GError **error)
{
  BwStretchReading reading = { .slack_mm = swatch->length_mm, .tool = swatch->tool };
  BwFault fault;
  if (*bw_entry_text (self->pulled) == '\0') {
    forget_pulled (thread);
    return TRUE;
  }
  if (!bw_entry_read (self->pulled, BW_QUANTITY_LENGTH, "/thread/pulled/pulled_mm",
                      &reading.pulled_mm, error))
    return FALSE;
  thread->has_pulled = TRUE;
  thread->pulled = reading;
  return bw_stretch_reading_validate (&reading, &fault) || bw_fault_tell (&fault, error);
}

static BwPitch
pitch_of (BwSwatchDialog *self, const BwGauge *gauge)
{
  int n_checks;
  const BwCheck *checks = bw_project_get_checks (bw_draft_get_project (self->draft), &n_checks);
  return bw_gauge_pitch (gauge, checks, n_checks);
}

/* The project's design with the swatch as typed; FALSE when it cannot stand. */
static gboolean
read_design (BwSwatchDialog *self, BwDesign *design, GError **error)
{
  BwSwatch swatch;
  *design = *bw_draft_get_design (self->draft);
  if (!read_swatch (self, &swatch, error))
    return FALSE;
  design->gauge.swatch = swatch;
  design->gauge.has_swatch = TRUE;
  if (swatch.columns > 0 && swatch.rows > 0) {
    design->gauge.column_mm = bw_swatch_column_mm (&swatch);
    design->gauge.pitch_mm = bw_swatch_pitch_mm (&swatch);
  }
  BwFault fault;
  if (!bw_gauge_validate (&design->gauge, &fault))
    return bw_fault_tell (&fault, error);
  if (!read_pulled (self, &swatch, &design->thread, error))
    return FALSE;
  bw_design_give (design);
  design->pitch = pitch_of (self, &design->gauge);
  return bw_design_validate (design, NULL, &fault) || bw_fault_tell (&fault, error);
}

/* What is hard to believe of the gauge it gives; NULL for nothing. */
static char *
words_of_doubt (const BwDesign *design)
{
  static const char *const pointers[] = { "/gauge/pitch_mm", "/gauge/column_mm" };
  const BwExamples none = { 0 };
  for (gsize i = 0; i < G_N_ELEMENTS (pointers); i++) {
    BwField field;
    BwDoubt doubt;
    bw_field_find (&field, pointers[i]);
    if (bw_doubt_find (&doubt, &field, design, &none, bw_settings_get_unit (bw_settings_get ())))
      return g_strdup_printf ("%s: %s", _ (field.label), doubt.question);
  }
  return NULL;
}

/* What the same hands' long swatch by calliper would be worth; NULL where this is one. */
static char *
words_of_longer (BwSwatchDialog *self, const BwDesign *design)
{
  BwGauge gauge = design->gauge;
  gboolean is_short = gauge.swatch.rows < LONG_ROWS;
  if (!is_short && gauge.swatch.tool == BW_STRIP_BY_CALLIPER)
    return NULL;
  gauge.swatch.length_mm *= (MAX (gauge.swatch.rows, LONG_ROWS) + 1) / (gauge.swatch.rows + 1.0);
  gauge.swatch.rows = MAX (gauge.swatch.rows, LONG_ROWS);
  gauge.swatch.tool = BW_STRIP_BY_CALLIPER;
  g_autofree char *sd = bw_length_format (pitch_of (self, &gauge).sd_mm,
                                          bw_settings_get_unit (bw_settings_get ()), 3);
  if (!is_short)
    return g_strdup_printf (_ ("Measured with a calliper it would be sure to ± %s."), sd);
  return g_strdup_printf (
      _ ("%d rows measured with a calliper would make it sure to ± %s: what the "
         "measuring is off by is then shared among more beads."),
      LONG_ROWS, sd);
}

static char *
gauge_words (const BwDesign *design)
{
  BwUnit unit = bw_settings_get_unit (bw_settings_get ());
  g_autofree char *w = bw_length_format (design->gauge.column_mm, unit, 3);
  g_autofree char *p = bw_length_format (design->pitch.mm, unit, 3);
  g_autofree char *sd = bw_length_format (design->pitch.sd_mm, unit, 3);
  if (!design->thread.has_pulled)
    return g_strdup_printf (_ ("Column to column %s, bead to bead %s ± %s"), w, p, sd);
  g_autofree char *stretch
      = bw_give_words ((BwGive){ design->thread.stretch, design->thread.stretch_sd });
  return g_strdup_printf (
      _ ("Column to column %s, bead to bead %s ± %s; pulled it is longer by %s"), w, p, sd,
      stretch);
}

/* What is hard to believe is taken by who says so, not by Return. */
static void
show_whether_doubted (BwSwatchDialog *self, gboolean doubted)
{
  const char *styles[] = { doubted ? "reason" : "small", NULL };
  gtk_widget_set_css_classes (GTK_WIDGET (self->gain), styles);
  gtk_window_set_default_widget (GTK_WINDOW (self), doubted ? NULL : GTK_WIDGET (self->use));
}

static void
show_result (BwSwatchDialog *self, const BwDesign *design)
{
  const BwStone *stone = bw_project_stone (bw_draft_get_project (self->draft));
  g_autofree char *gauge = gauge_words (design);
  g_autofree char *gain = bw_sure_words_gain (bw_draft_get_design (self->draft), design, stone);
  g_autofree char *doubt = words_of_doubt (design);
  g_autofree char *longer = words_of_longer (self, design);
  bw_label_set_words (self->result, gauge);
  bw_label_set_words (self->gain, doubt ? doubt : gain);
  show_whether_doubted (self, doubt != NULL);
  bw_label_set_words (self->longer, longer ? longer : "");
}

/* Nothing is wrong with what nobody has typed yet. */
static gboolean
is_whole (BwSwatchDialog *self)
{
  GtkEntry *entries[] = { self->columns, self->width, self->rows, self->length };
  for (gsize i = 0; i < G_N_ELEMENTS (entries); i++)
    if (*bw_entry_text (entries[i]) == '\0')
      return FALSE;
  return gtk_check_button_get_active (self->ruler) || gtk_check_button_get_active (self->calliper);
}

static void
show_fault (BwSwatchDialog *self, const GError *error)
{
  bw_entry_mark (self->columns, error, "/gauge/swatch/columns");
  bw_entry_mark (self->width, error, "/gauge/swatch/width_mm");
  bw_entry_mark (self->rows, error, "/gauge/swatch/rows");
  bw_entry_mark (self->length, error, "/gauge/swatch/length_mm");
  bw_entry_mark (self->pulled, error, "/thread/pulled/pulled_mm");
  bw_entry_show_fault (self->result, error);
  show_whether_doubted (self, FALSE);
  bw_label_set_words (self->gain, "");
  bw_label_set_words (self->longer, "");
}

static void
changed (BwSwatchDialog *self)
{
  g_autoptr (GError) error = NULL;
  BwDesign design;
  if (!self->draft)
    return;
  gboolean whole = is_whole (self);
  gboolean stands = whole && read_design (self, &design, &error);
  show_fault (self, error);
  gtk_widget_set_sensitive (GTK_WIDGET (self->use), stands);
  if (stands)
    show_result (self, &design);
  else if (!whole)
    bw_label_set_words (
        self->result,
        _ ("Four numbers off your swatch, and what you measured it with, say how your "
           "hands weave."));
}

static void
use_clicked (BwSwatchDialog *self)
{
  BwDesign design;
  if (read_design (self, &design, NULL)
      && bw_draft_apply (self->draft, _ ("Swatch"), &design, NULL))
    gtk_window_destroy (GTK_WINDOW (self));
}

static void
drop_clicked (BwSwatchDialog *self)
{
  BwDesign design = *bw_draft_get_design (self->draft);
  design.gauge
      = (BwGauge){ .column_mm = design.bead.length_mm, .pitch_mm = design.bead.diameter_mm };
  forget_pulled (&design.thread);
  if (bw_draft_apply (self->draft, _ ("Swatch dropped"), &design, NULL))
    gtk_window_destroy (GTK_WINDOW (self));
}

static void
put_count (GtkEntry *entry, int count)
{
  g_autofree char *text = g_strdup_printf ("%d", count);
  gtk_editable_set_text (GTK_EDITABLE (entry), text);
}

static void
suggest (GtkEntry *entry, int count)
{
  g_autofree char *text = g_strdup_printf (_ ("such as %d"), count);
  gtk_entry_set_placeholder_text (entry, text);
}

/* The swatch there is; else four open blanks, and how big a swatch is worth weaving. */
static void
show_swatch (BwSwatchDialog *self)
{
  const BwGauge *gauge = &bw_draft_get_design (self->draft)->gauge;
  const BwThread *thread = &bw_draft_get_design (self->draft)->thread;
  suggest (self->columns, BW_SWATCH_COLUMNS);
  suggest (self->rows, LONG_ROWS);
  gtk_widget_set_visible (GTK_WIDGET (self->drop), gauge->has_swatch);
  if (!gauge->has_swatch)
    return;
  put_count (self->columns, gauge->swatch.columns);
  bw_entry_put_length (self->width, gauge->swatch.width_mm);
  put_count (self->rows, gauge->swatch.rows);
  bw_entry_put_length (self->length, gauge->swatch.length_mm);
  if (thread->has_pulled)
    bw_entry_put_length (self->pulled, thread->pulled.pulled_mm);
  gboolean finely = gauge->swatch.tool == BW_STRIP_BY_CALLIPER;
  gtk_check_button_set_active (finely ? self->calliper : self->ruler, TRUE);
}

void
bw_swatch_dialog_show (GtkWindow *parent, BwDraft *draft)
{
  g_return_if_fail (BW_IS_DRAFT (draft));
  BwSwatchDialog *self = g_object_new (BW_TYPE_SWATCH_DIALOG, "transient-for", parent, NULL);
  self->draft = g_object_ref (draft);
  show_swatch (self);
  changed (self);
  bw_part_names_give (GTK_WIDGET (self));
  gtk_window_present (GTK_WINDOW (self));
}

static void
bw_swatch_dialog_finalize (GObject *object)
{
  g_clear_object (&BW_SWATCH_DIALOG (object)->draft);
  G_OBJECT_CLASS (bw_swatch_dialog_parent_class)->finalize (object);
}

static void
bw_swatch_dialog_class_init (BwSwatchDialogClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->finalize = bw_swatch_dialog_finalize;
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/swatch-dialog.ui");
  gtk_widget_class_bind_template_child (widget_class, BwSwatchDialog, columns);
  gtk_widget_class_bind_template_child (widget_class, BwSwatchDialog, rows);
  gtk_widget_class_bind_template_child (widget_class, BwSwatchDialog, width);
  gtk_widget_class_bind_template_child (widget_class, BwSwatchDialog, length);
  gtk_widget_class_bind_template_child (widget_class, BwSwatchDialog, pulled);
  gtk_widget_class_bind_template_child (widget_class, BwSwatchDialog, ruler);
  gtk_widget_class_bind_template_child (widget_class, BwSwatchDialog, calliper);
  gtk_widget_class_bind_template_child (widget_class, BwSwatchDialog, longer);
  gtk_widget_class_bind_template_child (widget_class, BwSwatchDialog, result);
  gtk_widget_class_bind_template_child (widget_class, BwSwatchDialog, gain);
  gtk_widget_class_bind_template_child (widget_class, BwSwatchDialog, use);
  gtk_widget_class_bind_template_child (widget_class, BwSwatchDialog, drop);
  gtk_widget_class_bind_template_callback (widget_class, changed);
  gtk_widget_class_bind_template_callback (widget_class, use_clicked);
  gtk_widget_class_bind_template_callback (widget_class, drop_clicked);
}

static void
bw_swatch_dialog_init (BwSwatchDialog *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  GtkEntry *entries[] = { self->columns, self->width, self->rows, self->length, self->pulled };
  for (gsize i = 0; i < G_N_ELEMENTS (entries); i++)
    bw_select_all_on_click (GTK_WIDGET (entries[i]));
}
