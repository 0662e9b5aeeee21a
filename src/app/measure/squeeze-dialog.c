/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Three girths and what their marks were measured with: how much the bed gives, how sure that is,
 * and what it does for the row count, told while they are typed. */
#include "config.h"

#include "app/measure/squeeze-dialog.h"

#include "app/fit/sure-words.h"
#include "app/kit/part-names.h"
#include "app/kit/select-all.h"
#include "app/kit/words.h"
#include "app/measure/dialog-entry.h"
#include "output/report/give-words.h"
#include "project/fault/fault-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

enum { BARE, SLACK, PULLED, N_GIRTHS };

static const char *const pointers[N_GIRTHS]
    = { "/bed/pulled/girth_mm", "/bed/pulled/slack_mm", "/bed/pulled/pulled_mm" };

struct _BwSqueezeDialog {
  GtkWindow parent_instance;
  BwDraft *draft;
  GtkEntry *entry[N_GIRTHS];
  GtkCheckButton *ruler, *calliper;
  GtkLabel *result, *gain;
  GtkWidget *use, *drop;
};

G_DEFINE_FINAL_TYPE (BwSqueezeDialog, bw_squeeze_dialog, GTK_TYPE_WINDOW)

static gboolean
read_reading (BwSqueezeDialog *self, BwSqueezeReading *reading, GError **error)
{
  double *values[N_GIRTHS] = { &reading->girth_mm, &reading->slack_mm, &reading->pulled_mm };
  for (int i = 0; i < N_GIRTHS; i++)
    if (!bw_entry_read (self->entry[i], BW_QUANTITY_LENGTH, pointers[i], values[i], error))
      return FALSE;
  reading->tool
      = gtk_check_button_get_active (self->calliper) ? BW_STRIP_BY_CALLIPER : BW_STRIP_BY_RULER;
  return TRUE;
}

/* The project's design with the girths as typed; FALSE when they cannot stand. */
static gboolean
read_design (BwSqueezeDialog *self, BwDesign *design, GError **error)
{
  BwFault fault;
  *design = *bw_draft_get_design (self->draft);
  if (!read_reading (self, &design->bed.pulled, error))
    return FALSE;
  design->bed.has_pulled = TRUE;
  if (!bw_squeeze_reading_validate (&design->bed.pulled, &fault))
    return bw_fault_tell (&fault, error);
  bw_design_give (design);
  return bw_design_validate (design, NULL, &fault) || bw_fault_tell (&fault, error);
}

static gboolean
is_whole (BwSqueezeDialog *self)
{
  for (int i = 0; i < N_GIRTHS; i++)
    if (*bw_entry_text (self->entry[i]) == '\0')
      return FALSE;
  return gtk_check_button_get_active (self->ruler) || gtk_check_button_get_active (self->calliper);
}

static void
show_result (BwSqueezeDialog *self, const BwDesign *design)
{
  const BwStone *stone = bw_project_stone (bw_draft_get_project (self->draft));
  g_autofree char *share = bw_give_words ((BwGive){ design->bed.squeeze, design->bed.squeeze_sd });
  g_autofree char *words = g_strdup_printf (_ ("The bed gives %s under the pulled band."), share);
  g_autofree char *gain = bw_sure_words_gain (bw_draft_get_design (self->draft), design, stone);
  bw_label_set_words (self->result, words);
  bw_label_set_words (self->gain, gain);
}

static void
changed (BwSqueezeDialog *self)
{
  g_autoptr (GError) error = NULL;
  BwDesign design;
  if (!self->draft)
    return;
  gboolean whole = is_whole (self), stands = whole && read_design (self, &design, &error);
  for (int i = 0; i < N_GIRTHS; i++)
    bw_entry_mark (self->entry[i], error, pointers[i]);
  bw_entry_show_fault (self->result, error);
  bw_label_set_words (self->gain, "");
  gtk_widget_set_sensitive (self->use, stands);
  if (stands)
    show_result (self, &design);
  else if (!whole)
    bw_label_set_words (self->result,
                        _ ("Three girths, and what you measured their marks with, say how much "
                           "your bed gives."));
}

static void
use_clicked (BwSqueezeDialog *self)
{
  BwDesign design;
  if (read_design (self, &design, NULL)
      && bw_draft_apply (self->draft, _ ("Squeeze measured"), &design, NULL))
    gtk_window_destroy (GTK_WINDOW (self));
}

/* What the pieces woven before say of it stays. */
static void
drop_clicked (BwSqueezeDialog *self)
{
  BwDesign design = *bw_draft_get_design (self->draft);
  gboolean has_hands = design.bed.has_hands;
  bw_bed_unlearn (&design.bed);
  design.bed.has_hands = has_hands;
  if (bw_draft_apply (self->draft, _ ("Squeeze forgotten"), &design, NULL))
    gtk_window_destroy (GTK_WINDOW (self));
}

/* What is known already stands there: the stone's girth at the band's middle, and the one over the
 * bed where it was measured. */
static void
show_girths (BwSqueezeDialog *self)
{
  const BwBed *bed = &bw_draft_get_design (self->draft)->bed;
  BwBandSpan span = bw_design_span (bw_draft_get_design (self->draft));
  BwSection section;
  bw_section_init (&section, bw_project_stone (bw_draft_get_project (self->draft)),
                   bw_band_span_mid (span));
  gtk_widget_set_visible (self->drop, bed->has_pulled);
  /* Nobody measures a girth more finely. */
  double reckoned = round (10 * section.girth_mm) / 10;
  bw_entry_put_length (self->entry[BARE], bed->has_pulled ? bed->pulled.girth_mm : reckoned);
  if (bed->has_pulled || bed->has_girth_over)
    bw_entry_put_length (self->entry[SLACK],
                         bed->has_pulled ? bed->pulled.slack_mm : bed->girth_over_mm);
  if (!bed->has_pulled)
    return;
  bw_entry_put_length (self->entry[PULLED], bed->pulled.pulled_mm);
  gtk_check_button_set_active (
      bed->pulled.tool == BW_STRIP_BY_CALLIPER ? self->calliper : self->ruler, TRUE);
}

void
bw_squeeze_dialog_show (GtkWindow *parent, BwDraft *draft)
{
  g_return_if_fail (BW_IS_DRAFT (draft));
  BwSqueezeDialog *self = g_object_new (BW_TYPE_SQUEEZE_DIALOG, "transient-for", parent, NULL);
  self->draft = g_object_ref (draft);
  show_girths (self);
  changed (self);
  bw_part_names_give (GTK_WIDGET (self));
  gtk_window_present (GTK_WINDOW (self));
}

static void
bw_squeeze_dialog_finalize (GObject *object)
{
  g_clear_object (&BW_SQUEEZE_DIALOG (object)->draft);
  G_OBJECT_CLASS (bw_squeeze_dialog_parent_class)->finalize (object);
}

static void
bind_entry (GtkWidgetClass *class, const char *name, int at)
{
  gtk_widget_class_bind_template_child_full (
      class, name, FALSE,
      (gssize)(G_STRUCT_OFFSET (BwSqueezeDialog, entry) + (gsize)at * sizeof (GtkEntry *)));
}

static void
bw_squeeze_dialog_class_init (BwSqueezeDialogClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->finalize = bw_squeeze_dialog_finalize;
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/io/github/bandwright/Bandwright/squeeze-dialog.ui");
  bind_entry (widget_class, "bare", BARE);
  bind_entry (widget_class, "slack", SLACK);
  bind_entry (widget_class, "pulled", PULLED);
  gtk_widget_class_bind_template_child (widget_class, BwSqueezeDialog, ruler);
  gtk_widget_class_bind_template_child (widget_class, BwSqueezeDialog, calliper);
  gtk_widget_class_bind_template_child (widget_class, BwSqueezeDialog, result);
  gtk_widget_class_bind_template_child (widget_class, BwSqueezeDialog, gain);
  gtk_widget_class_bind_template_child (widget_class, BwSqueezeDialog, use);
  gtk_widget_class_bind_template_child (widget_class, BwSqueezeDialog, drop);
  gtk_widget_class_bind_template_callback (widget_class, changed);
  gtk_widget_class_bind_template_callback (widget_class, use_clicked);
  gtk_widget_class_bind_template_callback (widget_class, drop_clicked);
}

static void
bw_squeeze_dialog_init (BwSqueezeDialog *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  for (int i = 0; i < N_GIRTHS; i++)
    bw_select_all_on_click (GTK_WIDGET (self->entry[i]));
}
