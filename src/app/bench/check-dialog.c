/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Everything is computed before anything is changed, and taken as one step of undo. */
#include "config.h"

#include "app/bench/bench-steps.h"
#include "app/bench/bench-words.h"
#include "app/form/card.h"
#include "app/form/doubt.h"
#include "app/bench/check-dialog.h"
#include "app/kit/part-names.h"
#include "app/kit/settings.h"
#include "app/kit/words.h"
#include "core/band/join.h"
#include "project/fault/fault-error.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define CHOICES_MOST 9

struct _BwCheckDialog {
  GtkWindow parent_instance;
  BwDraft *draft;
  double length_mm;  /* 0: no length, a try-on */
  double meant_mm;   /* what was probably meant by a length that is hard to believe */
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
  GtkLabel *join, *reason;
  GtkWidget *use, *cancel;
  GtkButton *meant;
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

/* The rows of the repeat that would break at the join; 0: none would. */
static int
broken_repeat (BwCheckDialog *self, const BwBenchChange *change)
{
  int woven = MIN (bw_project_get_rows_done (project_of (self)), change->rows);
  g_autoptr (BwDrawing) fitted
      = bw_refit (bw_project_get_drawing (project_of (self)), change->rows, woven, change->how);
  int repeat = bw_join_repeat (fitted);
  return repeat > 0 && change->rows % repeat != 0 ? repeat : 0;
}

static void
show_join (BwCheckDialog *self, const BwBenchChange *change)
{
  int repeat = broken_repeat (self, change);
  g_autofree char *words = g_strdup_printf (
      _ ("The pattern repeats every %d rows, which does not go into %d: it breaks at the join."),
      repeat, change->rows);
  bw_label_set_words (self->join, repeat > 0 ? words : "");
  gtk_widget_set_visible (GTK_WIDGET (self->join), repeat > 0);
}

/* The drawing is asked about only where it must change. */
static void
choice_changed (BwCheckDialog *self)
{
  if (!self->draft)
    return;
  BwBenchChange change = chosen (self);
  gtk_widget_set_visible (self->drawing, change.rows != present_rows (self));
  show_join (self, &change);
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

/* Owned. */
static char *
with_what_is_picked_out (BwCheckDialog *self, int rows, const char *words)
{
  int lost = bw_project_get_rows_done (project_of (self)) - rows;
  g_autofree char *out
      = g_strdup_printf (ngettext ("%d woven row is picked out", "%d woven rows are picked out",
                                   (gulong)MAX (lost, 0)),
                         lost);
  return lost > 0 ? g_strdup_printf (C_ ("choice", "%s; %s"), words, out) : g_strdup (words);
}

/* Takes words. */
static void
offer (BwCheckDialog *self, int rows, double bed_mm, char *words)
{
  if (self->n_offered < CHOICES_MOST && (bed_mm > 0 || !is_offered (self, rows))) {
    self->offered[self->n_offered].rows = rows;
    self->offered[self->n_offered++].bed_mm = bed_mm;
    g_autofree char *whole = with_what_is_picked_out (self, rows, words);
    gtk_string_list_append (self->choices, whole);
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

/* What is hard to believe is taken by whoever reaches for it, and by no Enter too many. */
static void
rest_use (BwCheckDialog *self)
{
  gtk_widget_remove_css_class (self->use, "suggested-action");
  gtk_window_set_default_widget (GTK_WINDOW (self), NULL);
  gtk_widget_grab_focus (self->cancel);
}

static void
present (BwCheckDialog *self, const char *words, gboolean believed)
{
  bw_label_set_words (self->words, words);
  gtk_drop_down_set_selected (self->choice, 0);
  choice_changed (self);
  if (believed)
    gtk_widget_grab_focus (self->use);
  else
    rest_use (self);
  gtk_window_present (GTK_WINDOW (self));
}

static void
offer_meant (BwCheckDialog *self, const BwDoubt *doubt)
{
  g_autofree char *length = bw_card_length (doubt->better, 2);
  g_autofree char *label = g_strdup_printf (_ ("I Meant %s"), length);
  self->meant_mm = doubt->better;
  gtk_button_set_label (self->meant, label);
  gtk_widget_set_visible (GTK_WIDGET (self->meant), doubt->has_better);
}

/* The dialog makes way for the one on the length that was meant. */
static void
meant_clicked (BwCheckDialog *self)
{
  g_autoptr (GError) error = NULL;
  GtkWindow *parent = gtk_window_get_transient_for (GTK_WINDOW (self));
  if (bw_check_dialog_show_length (parent, self->draft, self->meant_mm, &error)) {
    gtk_window_destroy (GTK_WINDOW (self));
    return;
  }
  bw_label_set_words (self->reason, bw_fault_sentence (error));
  gtk_widget_set_visible (GTK_WIDGET (self->reason), TRUE);
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
  BwCheckDialog *self = dialog_new (parent, draft);
  BwDoubt doubt;
  gboolean doubtful = bw_doubt_find_strip (&doubt, bw_project_get_design (project),
                                           bw_project_get_rows_done (project), length_mm,
                                           bw_settings_get_unit (bw_settings_get ()));
  g_autofree char *words = doubtful ? g_steal_pointer (&doubt.question)
                                    : length_words (project, &after, forecast, length_mm);
  self->length_mm = length_mm;
  offer_meant (self, &doubt);
  offer_forecast (self, forecast);
  present (self, words, !doubtful);
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
  present (self, words, !(fabs (try_on.astray_mm) > 0));
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
  gtk_widget_class_bind_template_child (widget_class, BwCheckDialog, join);
  gtk_widget_class_bind_template_child (widget_class, BwCheckDialog, reason);
  gtk_widget_class_bind_template_child (widget_class, BwCheckDialog, use);
  gtk_widget_class_bind_template_child (widget_class, BwCheckDialog, cancel);
  gtk_widget_class_bind_template_child (widget_class, BwCheckDialog, meant);
  gtk_widget_class_bind_template_callback (widget_class, choice_changed);
  gtk_widget_class_bind_template_callback (widget_class, use_clicked);
  gtk_widget_class_bind_template_callback (widget_class, meant_clicked);
}

static void
bw_check_dialog_init (BwCheckDialog *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
