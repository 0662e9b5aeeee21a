/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One row at a time, readable from across the table; what the strip measures sharpens the forecast.
 */
#include "config.h"

#include "app/bench/bench-card.h"
#include "app/bench/bench-needle.h"
#include "app/bench/bench-steps.h"
#include "app/bench/bench-words.h"
#include "app/bench/check-dialog.h"
#include "app/form/field.h"
#include "app/kit/description.h"
#include "app/kit/put-text.h"
#include "app/kit/settings.h"
#include "app/kit/words.h"
#include "output/report/fit-told.h"
#include "project/fault/fault-error.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define BEAD_PX 40

struct _BwBenchCard {
  BwCard parent_instance;
  GtkLabel *row;
  BwBenchNeedle *beads;
  GtkWidget *back;
  GtkWidget *done;
  GtkProgressBar *bar;
  GtkEntry *length;
  GtkLabel *reason;
  GtkWidget *drop;
  GtkLabel *checks;
};

G_DEFINE_FINAL_TYPE (BwBenchCard, bw_bench_card, BW_TYPE_CARD)

static void
show_row (BwBenchCard *self, BwProject *project, int done, int rows)
{
  BwBenchStep step = bw_bench_step (project);
  g_autofree char *title = bw_bench_title (project, step);
  g_autofree char *words = bw_bench_beads (project, step);
  bw_label_set_words (self->row, title);
  gboolean is_row = !step.is_end && step.join == 0;
  bw_bench_needle_set_row (self->beads, project, step.in_bail, is_row ? step.row : G_MAXINT);
  gtk_widget_set_visible (GTK_WIDGET (self->beads), is_row);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->beads), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  words, -1);
  gtk_widget_set_sensitive (self->done, !step.is_end);
  gtk_widget_set_sensitive (self->back, done > 0);
  gtk_progress_bar_set_fraction (self->bar, MIN ((double)done / rows, 1));
}

/* Rows not ticked off one by one were woven all the same. */
static void
show_finished (BwBenchCard *self, int rows)
{
  g_autofree char *title = g_strdup_printf (_ ("Finished with %d rows"), rows);
  bw_label_set_words (self->row, title);
  gtk_widget_set_visible (GTK_WIDGET (self->beads), FALSE);
  gtk_widget_set_sensitive (self->done, FALSE);
  gtk_progress_bar_set_fraction (self->bar, 1);
}

/* What the forecast counts with must be seen to be there. */
static void
append_tried (GString *text, const BwTried *tried)
{
  g_autofree char *length = bw_card_length (fabs (tried->reading.short_mm), 1);
  if (tried->rows == 0)
    return;
  /* Translators: the row of the try-on, a length. */
  g_string_append_printf (text,
                          tried->reading.short_mm < 0
                              ? _ ("Tried on at row %d: the ends lay %s over each other. ")
                              : _ ("Tried on at row %d: %s were missing. "),
                          tried->rows, length);
}

static void
show_checks (BwBenchCard *self, BwProject *project)
{
  int n;
  const BwCheck *checks = bw_project_get_checks (project, &n);
  BwFitTold told = bw_fit_told (project);
  g_autoptr (GString) text = g_string_new (NULL);
  for (int i = 0; i < n; i++) {
    g_autofree char *length = bw_card_length (checks[i].length_mm, 2);
    g_string_append_printf (text, _ ("Row %d: %s. "), checks[i].rows, length);
  }
  append_tried (text, bw_project_get_tried (project));
  if (told.likely_rows > 0)
    g_string_append_printf (text, _ ("As measured so far %d rows are likeliest to be right."),
                            told.likely_rows);
  else if (!bw_fit_told_is_woven (&told))
    g_string_append (text, _ ("No count stands out: weave a swatch first."));
  bw_label_set_words (self->checks, text->str);
  gtk_widget_set_visible (self->drop, n > 0);
}

static void
bw_bench_card_refresh (BwCard *card)
{
  BwBenchCard *self = BW_BENCH_CARD (card);
  BwProject *project = bw_card_get_project (card);
  int done = bw_project_get_rows_done (project);
  show_row (self, project, done, bw_project_get_design (project)->band.rows);
  if (bw_project_get_done (project)->rows > 0)
    show_finished (self, bw_project_get_done (project)->rows);
  show_checks (self, project);
}

static void
done_clicked (BwBenchCard *self)
{
  bw_bench_advance (bw_card_get_project (BW_CARD (self)));
}

static void
back_clicked (BwBenchCard *self)
{
  bw_bench_back (bw_card_get_project (BW_CARD (self)));
}

static void
show_reason (BwBenchCard *self, const GError *error)
{
  bw_label_set_words (self->reason, error ? bw_fault_sentence (error) : "");
  gtk_widget_set_visible (GTK_WIDGET (self->reason), error != NULL);
  if (error)
    gtk_widget_add_css_class (GTK_WIDGET (self->length), "error");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->length), "error");
}

static void
length_typed (BwBenchCard *self)
{
  BwField field = { .quantity = BW_QUANTITY_LENGTH, .pointer = "/progress/checks" };
  GtkWindow *window = GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self)));
  g_autoptr (GError) error = NULL;
  double length;
  if (bw_field_parse (&field, gtk_editable_get_text (GTK_EDITABLE (self->length)),
                      bw_settings_get_unit (bw_settings_get ()), &length, &error)
      && bw_check_dialog_show_length (window, bw_card_get_draft (BW_CARD (self)), length, &error))
    bw_put_text (GTK_EDITABLE (self->length), "");
  show_reason (self, error);
}

static void
drop_clicked (BwBenchCard *self)
{
  bw_bench_drop_note (bw_card_get_project (BW_CARD (self)));
}

static void
bw_bench_card_class_init (BwBenchCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  BW_CARD_CLASS (klass)->refresh = bw_bench_card_refresh;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/bench-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwBenchCard, row);
  gtk_widget_class_bind_template_child (widget_class, BwBenchCard, beads);
  gtk_widget_class_bind_template_child (widget_class, BwBenchCard, back);
  gtk_widget_class_bind_template_child (widget_class, BwBenchCard, done);
  gtk_widget_class_bind_template_child (widget_class, BwBenchCard, bar);
  gtk_widget_class_bind_template_child (widget_class, BwBenchCard, length);
  gtk_widget_class_bind_template_child (widget_class, BwBenchCard, reason);
  gtk_widget_class_bind_template_child (widget_class, BwBenchCard, drop);
  gtk_widget_class_bind_template_child (widget_class, BwBenchCard, checks);
  gtk_widget_class_bind_template_callback (widget_class, done_clicked);
  gtk_widget_class_bind_template_callback (widget_class, back_clicked);
  gtk_widget_class_bind_template_callback (widget_class, length_typed);
  gtk_widget_class_bind_template_callback (widget_class, drop_clicked);
}

static void
bw_bench_card_init (BwBenchCard *self)
{
  g_type_ensure (BW_TYPE_BENCH_NEEDLE);
  gtk_widget_init_template (GTK_WIDGET (self));
  bw_describe (GTK_WIDGET (self->length), self->reason);
  bw_bench_needle_set_size (self->beads, BEAD_PX);
}
