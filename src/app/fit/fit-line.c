/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fit line tells the truth of what is on screen while a number is dragged. Verdict and strip
 * are cheap and follow every change; the remedies are solved only when the maker pauses. */
#include "config.h"

#include "app/fit/fit-line.h"
#include "app/fit/fit-sign.h"
#include "app/fit/fit-strip.h"
#include "app/fit/remedy-list.h"
#include "app/fit/remedy-words.h"
#include "app/form/typed.h"
#include "app/kit/settings.h"
#include "app/kit/tip.h"
#include "app/kit/words.h"

#include <glib/gi18n-lib.h>

#define PAUSE_MS 250

struct _BwFitLine {
  GtkWidget parent_instance;
  BwDraft *draft;
  BwProject *project;
  guint pause;
  BwFitSignView *sign;
  GtkLabel *verdict;
  GtkLabel *sentence;
  GtkLabel *odds;
  BwFitStrip *strip;
  GtkWidget *helps; /* best remedy and the list's button */
  GtkButton *best;
  GtkLabel *best_words;
  GtkMenuButton *more;
  GtkPopover *popover;
  BwRemedyList *remedies;
};

G_DEFINE_FINAL_TYPE (BwFitLine, bw_fit_line, GTK_TYPE_WIDGET)

static const char *
sign_style (BwFitSign sign)
{
  switch (sign) {
  case BW_SIGN_SNUG:
    return "snug";
  case BW_SIGN_NEAR_EVEN:
  case BW_SIGN_LOOSE:
    return "near-even";
  case BW_SIGN_WILL_NOT_CLOSE:
  default:
    return "unclosed";
  }
}

static void
show_strip (BwFitLine *self)
{
  const BwFit *fit = bw_project_fit (self->project);
  const BwDrawing *drawing = bw_project_get_drawing (self->project);
  const BwTray *tray = bw_project_get_tray (self->project);
  BwColour colours[BW_COLUMNS_MAX];
  for (int i = 0; i < fit->n_columns; i++)
    colours[i] = tray->colour[bw_fit_strip_main (drawing, i + 1)];
  bw_fit_strip_set (self->strip, fit, bw_project_get_design (self->project)->limits.slack_mm,
                    colours);
}

/* What the strip shows, for who does not see it. */
static void
describe_strip (BwFitLine *self, const char *head, const char *sentence)
{
  const BwFit *fit = bw_project_fit (self->project);
  BwUnit unit = bw_settings_get_unit (bw_settings_get ());
  g_autofree char *gaps = bw_fit_words_gaps (fit->gap_min_mm, fit->gap_max_mm, unit);
  g_autofree char *rows = g_strdup_printf (_ ("%d rows, %d around"), fit->rows, fit->beads_around);
  g_autofree char *words = g_strdup_printf ("%s. %s %s: %s.", head, sentence, rows, gaps);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->strip), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  words, -1);
}

/* Of a piece that is finished nothing is foretold any more. Owned. */
static char *
words_of_done (const BwDone *done)
{
  if (done->planned == 0)
    return g_strdup_printf (_ ("Finished with %d rows"), done->rows);
  if (done->planned == done->rows)
    return g_strdup_printf (_ ("Woven with %d rows, as planned."), done->rows);
  return g_strdup_printf (_ ("Woven with %d rows; %d were planned."), done->rows, done->planned);
}

static void
show_done (BwFitLine *self, const BwDone *done)
{
  const char *styles[] = { "verdict", sign_style (BW_SIGN_SNUG), NULL };
  g_autofree char *words = words_of_done (done);
  bw_fit_sign_view_set (self->sign, BW_SIGN_SNUG);
  bw_label_set_words (self->verdict, _ ("Finished"));
  gtk_widget_set_css_classes (GTK_WIDGET (self->verdict), styles);
  bw_label_set_words (self->sentence, words);
  gtk_widget_set_visible (GTK_WIDGET (self->odds), FALSE);
  show_strip (self);
  describe_strip (self, _ ("Finished"), words);
}

static void
show_fit (BwFitLine *self)
{
  const BwDesign *design = bw_project_get_design (self->project);
  BwFitTold told = bw_fit_told (self->project);
  const char *head = bw_fit_words_head (&told),
             *styles[] = { "verdict", sign_style (told.sign), NULL };
  g_autofree char *sentence
      = bw_fit_words_sentence (&told, bw_project_fit (self->project), design->limits.slack_mm,
                               bw_settings_get_unit (bw_settings_get ()));
  g_autofree char *odds = bw_fit_words_odds (&told);
  bw_fit_sign_view_set (self->sign, told.sign);
  bw_label_set_words (self->verdict, head);
  gtk_widget_set_css_classes (GTK_WIDGET (self->verdict), styles);
  bw_label_set_words (self->sentence, sentence);
  bw_label_set_words (self->odds, odds);
  gtk_widget_set_visible (GTK_WIDGET (self->odds), !told.example);
  show_strip (self);
  describe_strip (self, head, sentence);
}

/* The words of the button: the safer count is called that, for it is not what the verdict says. */
static char *
best_words (const BwRemedy *best, const BwFitTold *told, const BwDesign *now)
{
  if (told->verdict == BW_VERDICT_SNUG)
    return g_strdup_printf (_ ("Play safe: weave %d rows"), best->design.band.rows);
  return bw_remedy_words_do (best, now, bw_settings_get_unit (bw_settings_get ()));
}

static gboolean
show_remedies (gpointer data)
{
  BwFitLine *self = data;
  BwFitTold told = bw_fit_told (self->project);
  BwRemedy best;
  gboolean has_best = bw_remedy_list_best (self->project, &best);
  self->pause = 0;
  gtk_widget_set_visible (GTK_WIDGET (self->best), has_best);
  if (has_best) {
    g_autofree char *words = best_words (&best, &told, bw_project_get_design (self->project));
    g_autofree char *gives
        = bw_remedy_words_promise (&best, &told, bw_settings_get_unit (bw_settings_get ()));
    bw_label_set_words (self->best_words, words);
    bw_tip_set (GTK_WIDGET (self->best), gives);
  }
  gtk_widget_set_visible (self->helps, TRUE);
  return G_SOURCE_REMOVE;
}

/* A stone that is only an example needs no help but its own measurements, and a band woven whole
 * that fits by them needs none before its ends have met. */
static gboolean
wants_help (BwFitLine *self)
{
  BwFitTold told = bw_fit_told (self->project);
  if (bw_project_get_done (self->project)->rows > 0)
    return FALSE;
  if (bw_fit_told_is_woven (&told) && told.verdict == BW_VERDICT_SNUG)
    return FALSE;
  return told.sign != BW_SIGN_SNUG && !(told.example && told.verdict == BW_VERDICT_SNUG);
}

/* Remedies of a moment ago are no remedies: they go away at once and come back after a pause. */
static void
expect_remedies (BwFitLine *self)
{
  g_clear_handle_id (&self->pause, g_source_remove);
  if (!wants_help (self)) {
    gtk_widget_set_visible (GTK_WIDGET (self->best), FALSE);
    gtk_widget_set_visible (self->helps, FALSE);
    return;
  }
  gtk_widget_set_visible (GTK_WIDGET (self->best), FALSE);
  self->pause = g_timeout_add (PAUSE_MS, show_remedies, self);
}

static void
refresh (BwFitLine *self)
{
  if (!self->project)
    return;
  const BwDone *done = bw_project_get_done (self->project);
  if (done->rows > 0)
    show_done (self, done);
  else
    show_fit (self);
  expect_remedies (self);
}

static void
project_changed (BwFitLine *self, guint what)
{
  if (what & (BW_CHANGED_DESIGN | BW_CHANGED_PROGRESS))
    refresh (self);
  else if (what & (BW_CHANGED_CELLS | BW_CHANGED_TRAY))
    show_strip (self);
}

static void
follow_project (BwFitLine *self)
{
  if (self->project)
    g_signal_handlers_disconnect_by_func (self->project, project_changed, self);
  g_set_object (&self->project, bw_draft_get_project (self->draft));
  g_signal_connect_object (self->project, "changed", G_CALLBACK (project_changed), self,
                           G_CONNECT_SWAPPED);
  refresh (self);
}

void
bw_fit_line_bind (BwFitLine *self, BwDraft *draft)
{
  g_return_if_fail (BW_IS_FIT_LINE (self) && BW_IS_DRAFT (draft));
  g_set_object (&self->draft, draft);
  bw_remedy_list_bind (self->remedies, draft);
  g_signal_connect_object (bw_draft_get_session (draft), "project-changed",
                           G_CALLBACK (follow_project), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (bw_settings_get (), "notify::units", G_CALLBACK (refresh), self,
                           G_CONNECT_SWAPPED);
  follow_project (self);
}

static void
best_clicked (BwFitLine *self)
{
  BwRemedy best;
  bw_typed_take (GTK_WIDGET (self));
  if (bw_remedy_list_best (self->project, &best))
    bw_remedy_try (GTK_WIDGET (self), self->draft, &best);
}

static void
list_opens (BwFitLine *self)
{
  bw_remedy_list_fill (self->remedies);
}

static void
list_applied (BwFitLine *self)
{
  gtk_popover_popdown (self->popover);
}

static void
bw_fit_line_dispose (GObject *object)
{
  BwFitLine *self = BW_FIT_LINE (object);
  GtkWidget *child;
  g_clear_handle_id (&self->pause, g_source_remove);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))))
    gtk_widget_unparent (child);
  g_clear_object (&self->draft);
  g_clear_object (&self->project);
  G_OBJECT_CLASS (bw_fit_line_parent_class)->dispose (object);
}

static void
bw_fit_line_class_init (BwFitLineClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_fit_line_dispose;
  gtk_widget_class_set_css_name (widget_class, "fitline");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/fit-line.ui");
  gtk_widget_class_bind_template_child (widget_class, BwFitLine, sign);
  gtk_widget_class_bind_template_child (widget_class, BwFitLine, verdict);
  gtk_widget_class_bind_template_child (widget_class, BwFitLine, sentence);
  gtk_widget_class_bind_template_child (widget_class, BwFitLine, odds);
  gtk_widget_class_bind_template_child (widget_class, BwFitLine, strip);
  gtk_widget_class_bind_template_child (widget_class, BwFitLine, helps);
  gtk_widget_class_bind_template_child (widget_class, BwFitLine, best);
  gtk_widget_class_bind_template_child (widget_class, BwFitLine, best_words);
  gtk_widget_class_bind_template_child (widget_class, BwFitLine, more);
  gtk_widget_class_bind_template_child (widget_class, BwFitLine, popover);
  gtk_widget_class_bind_template_child (widget_class, BwFitLine, remedies);
  gtk_widget_class_bind_template_callback (widget_class, best_clicked);
  gtk_widget_class_bind_template_callback (widget_class, list_opens);
  gtk_widget_class_bind_template_callback (widget_class, list_applied);
}

static void
bw_fit_line_init (BwFitLine *self)
{
  g_type_ensure (BW_TYPE_FIT_SIGN_VIEW);
  g_type_ensure (BW_TYPE_FIT_STRIP);
  g_type_ensure (BW_TYPE_REMEDY_LIST);
  gtk_widget_init_template (GTK_WIDGET (self));
}
