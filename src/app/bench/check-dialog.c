/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Everything is computed before anything is changed, and taken as one step of undo. */
#include "config.h"

#include "app/bench/bench-steps.h"
#include "app/bench/bench-words.h"
#include "app/form/card.h"
#include "app/bench/check-dialog.h"
#include "app/kit/part-names.h"
#include "app/kit/settings.h"
#include "app/kit/words.h"
#include "project/fault/fault-error.h"

#include <glib/gi18n-lib.h>

#define CHOICES_MOST 9

struct _BwCheckDialog {
  GtkWindow parent_instance;
  BwDraft *draft;
  double length_mm;  /* 0: no length, a try-on */
  BwReading reading; /* of a try-on */
  struct {
    int rows;
    double bed_mm;
  } offered[CHOICES_MOST];
  int n_offered;
  GtkLabel *words;
  GtkDropDown *choice;
  GtkStringList *choices;
  GtkDropDown *refit;
  GtkWidget *drawing;
  GtkLabel *reason;
  GtkWidget *use;
};

#define BW_TYPE_CHECK_DIALOG (bw_check_dialog_get_type ())
G_DECLARE_FINAL_TYPE (BwCheckDialog, bw_check_dialog, BW, CHECK_DIALOG, GtkWindow)
G_DEFINE_FINAL_TYPE (BwCheckDialog, bw_check_dialog, GTK_TYPE_WINDOW)

static BwProject *
project_of (BwCheckDialog *self)
{
  return bw_draft_get_project (self->draft);
}

static int
present_rows (BwCheckDialog *self)
{
  return bw_project_get_design (project_of (self))->band.rows;
}

static BwBenchChange
chosen (BwCheckDialog *self)
{
  guint i = gtk_drop_down_get_selected (self->choice);
  BwBenchChange change = { .rows = present_rows (self),
                           .how = (BwRefit)gtk_drop_down_get_selected (self->refit),
                           .length_mm = self->length_mm,
                           .reading = self->length_mm > 0 ? NULL : &self->reading };
  if (i < (guint)self->n_offered) {
    change.rows = self->offered[i].rows;
    change.bed_mm = self->offered[i].bed_mm;
  }
  return change;
}

/* The drawing is asked about only where it must change. */
static void
choice_changed (BwCheckDialog *self)
{
  if (self->draft)
    gtk_widget_set_visible (self->drawing, chosen (self).rows != present_rows (self));
}

static void
use_clicked (BwCheckDialog *self)
{
  g_autoptr (GError) error = NULL;
  BwBenchChange change = chosen (self);
  bw_draft_settle (self->draft);
  if (bw_bench_take (project_of (self), &change, &error)) {
    gtk_window_destroy (GTK_WINDOW (self));
    return;
  }
  bw_label_set_words (self->reason, bw_fault_sentence (error));
  gtk_widget_set_visible (GTK_WIDGET (self->reason), TRUE);
}

static gboolean
is_offered (BwCheckDialog *self, int rows)
{
  for (int i = 0; i < self->n_offered; i++)
    if (self->offered[i].rows == rows && self->offered[i].bed_mm <= 0)
      return TRUE;
  return FALSE;
}

/* Takes words. */
static void
offer (BwCheckDialog *self, int rows, double bed_mm, char *words)
{
  if (self->n_offered < CHOICES_MOST && (bed_mm > 0 || !is_offered (self, rows))) {
    self->offered[self->n_offered].rows = rows;
    self->offered[self->n_offered++].bed_mm = bed_mm;
    gtk_string_list_append (self->choices, words);
  }
  g_free (words);
}

static void
offer_present (BwCheckDialog *self)
{
  int rows = present_rows (self);
  offer (self, rows, 0, g_strdup_printf (_ ("Stay with %d rows"), rows));
}

static void
offer_bed (BwCheckDialog *self, int rows, double bed_mm)
{
  g_autofree char *bed = bw_card_length (bed_mm, 2);
  if (bed_mm > 0)
    offer (self, rows, bed_mm, g_strdup_printf (_ ("%d rows, and the bed %s thicker"), rows, bed));
}

static double
chance_of (const BwForecast *forecast, int n)
{
  for (int i = 0; i < forecast->n_chances; i++)
    if (forecast->chance[i].beads_around == n)
      return forecast->chance[i].p;
  return 0;
}

/* The recommended count first, then its neighbours while they have a chance. */
static void
offer_forecast (BwCheckDialog *self, const BwForecast *forecast)
{
  static const int away[] = { 0, -1, 1, -2, 2, -3, 3 };
  for (gsize i = 0; i < G_N_ELEMENTS (away); i++) {
    int n = forecast->recommended + away[i];
    double p = chance_of (forecast, n);
    if (away[i] == 0 || p > 0)
      offer (self, 2 * n, 0, g_strdup_printf (_ ("%d rows, right with %.0f %%"), 2 * n, 100 * p));
  }
  offer_present (self);
}

/* Owned. */
static char *
length_words (BwProject *project, const BwDesign *after, const BwForecast *forecast,
              double length_mm)
{
  BwUnit unit = bw_settings_get_unit (bw_settings_get ());
  const BwPitch *before = &bw_project_get_design (project)->pitch;
  int rows = bw_project_get_rows_done (project);
  g_autofree char *length = bw_length_format (length_mm, unit, 2);
  g_autofree char *was = bw_length_format (before->mm, unit, 3);
  g_autofree char *is = bw_length_format (after->pitch.mm, unit, 3);
  g_autofree char *sd = bw_length_format (after->pitch.sd_mm, unit, 3);
  g_autofree char *first = g_strdup_printf (
      _ ("After row %d the strip measures %s. Bead follows bead by %s ± %s; until now it was %s."),
      rows, length, is, sd, was);
  g_autofree char *second = g_strdup_printf (_ ("Try it on after row %d."), forecast->try_on_row);
  return g_strjoin (" ", first, forecast->try_on_row > rows ? second : _ ("Try it on now."), NULL);
}

static BwCheckDialog *
dialog_new (GtkWindow *parent, BwDraft *draft)
{
  BwCheckDialog *self = g_object_new (BW_TYPE_CHECK_DIALOG, "transient-for", parent, NULL);
  self->draft = g_object_ref (draft);
  bw_part_names_give (GTK_WIDGET (self));
  return self;
}

static void
present (BwCheckDialog *self, const char *words)
{
  bw_label_set_words (self->words, words);
  gtk_drop_down_set_selected (self->choice, 0);
  choice_changed (self);
  gtk_widget_grab_focus (self->use);
  gtk_window_present (GTK_WINDOW (self));
}

gboolean
bw_check_dialog_show_length (GtkWindow *parent, BwDraft *draft, double length_mm, GError **error)
{
  BwDesign after;
  BwProject *project = bw_draft_get_project (draft);
  g_autofree BwForecast *forecast = g_new (BwForecast, 1);
  if (!bw_bench_try_note (project, length_mm, &after, error))
    return FALSE;
  bw_forecast_init (forecast, &after, bw_project_stone (project));
  g_autofree char *words = length_words (project, &after, forecast, length_mm);
  BwCheckDialog *self = dialog_new (parent, draft);
  self->length_mm = length_mm;
  offer_forecast (self, forecast);
  present (self, words);
  return TRUE;
}

/* What is best first: the bed with it where it must be thicker, and the same rows without. */
static void
offer_try_on (BwCheckDialog *self, const BwTryOn *try_on, int woven)
{
  offer_bed (self, try_on->rows, try_on->bed_mm);
  offer (self, try_on->rows, 0,
         g_strdup_printf (_ ("%d rows, right with %.0f %%"), try_on->rows,
                          100 * try_on->snug_probability));
  offer_bed (self, try_on->rows + 2, try_on->more_bed_mm);
  offer_bed (self, woven, try_on->stay_bed_mm);
  offer_present (self);
}

gboolean
bw_check_dialog_show_try_on (GtkWindow *parent, BwDraft *draft, const BwReading *reading,
                             GError **error)
{
  BwTryOn try_on;
  BwProject *project = bw_draft_get_project (draft);
  int woven = bw_project_get_rows_done (project);
  if (!bw_bench_try_on (project, reading, &try_on, error))
    return FALSE;
  g_autofree char *words = bw_bench_try_on_words (&try_on);
  BwCheckDialog *self = dialog_new (parent, draft);
  self->reading = *reading;
  offer_try_on (self, &try_on, woven);
  present (self, words);
  return TRUE;
}

static void
bw_check_dialog_finalize (GObject *object)
{
  g_clear_object (&BW_CHECK_DIALOG (object)->draft);
  G_OBJECT_CLASS (bw_check_dialog_parent_class)->finalize (object);
}

static void
bw_check_dialog_class_init (BwCheckDialogClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->finalize = bw_check_dialog_finalize;
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/check-dialog.ui");
  gtk_widget_class_bind_template_child (widget_class, BwCheckDialog, words);
  gtk_widget_class_bind_template_child (widget_class, BwCheckDialog, choice);
  gtk_widget_class_bind_template_child (widget_class, BwCheckDialog, choices);
  gtk_widget_class_bind_template_child (widget_class, BwCheckDialog, refit);
  gtk_widget_class_bind_template_child (widget_class, BwCheckDialog, drawing);
  gtk_widget_class_bind_template_child (widget_class, BwCheckDialog, reason);
  gtk_widget_class_bind_template_child (widget_class, BwCheckDialog, use);
  gtk_widget_class_bind_template_callback (widget_class, choice_changed);
  gtk_widget_class_bind_template_callback (widget_class, use_clicked);
}

static void
bw_check_dialog_init (BwCheckDialog *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
