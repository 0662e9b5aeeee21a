/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One row at a time, readable from across the table; what the strip measures sharpens the forecast.
 */
#include "config.h"

#include "app/bench-card.h"
#include "app/field.h"
#include "app/settings.h"
#include "core/fault.h"
#include "core/lattice.h"
#include "output/report.h"

#include <glib/gi18n-lib.h>

struct _BwBenchCard {
  BwCard parent_instance;
  GtkLabel *row;
  GtkLabel *words;
  GtkWidget *back;
  GtkWidget *done;
  GtkProgressBar *bar;
  GtkEntry *length;
  GtkLabel *reason;
  GtkWidget *drop;
  GtkLabel *checks;
};

G_DEFINE_FINAL_TYPE (BwBenchCard, bw_bench_card, BW_TYPE_CARD)

/* Rows 1 and 2 are picked up together. */
static int
next_row (int done)
{
  return done < 2 ? 1 : done + 1;
}

static void
show_row (BwBenchCard *self, BwProject *project, int done, int rows)
{
  int next = next_row (done);
  gboolean finished = done >= rows;
  g_autofree char *title = finished ? g_strdup_printf (_ ("All %d rows are woven: zip it up"), rows)
                           : done < 2 ? g_strdup_printf (_ ("Pick-up, rows 1 and 2 of %d"), rows)
                           : bw_lattice_direction (next) > 0
                               ? g_strdup_printf (_ ("Row %d of %d ↑"), next, rows)
                               : g_strdup_printf (_ ("Row %d of %d ↓"), next, rows);
  g_autofree char *words = finished ? g_strdup ("") : bw_words_row (project, next);
  gtk_label_set_text (self->row, title);
  gtk_label_set_text (self->words, g_strstrip (words));
  gtk_widget_set_sensitive (self->done, !finished);
  gtk_widget_set_sensitive (self->back, done > 0);
  gtk_progress_bar_set_fraction (self->bar, MIN ((double)done / rows, 1));
}

static void
show_checks (BwBenchCard *self, BwProject *project)
{
  int n;
  const BwCheck *checks = bw_project_get_checks (project, &n);
  const BwForecast *forecast = bw_project_forecast (project);
  g_autoptr (GString) text = g_string_new (NULL);
  for (int i = 0; i < n; i++) {
    g_autofree char *length = bw_card_length (checks[i].length_mm, 2);
    g_string_append_printf (text, _ ("Row %d: %s. "), checks[i].rows, length);
  }
  g_string_append_printf (text, _ ("By what is known now %d rows will close."),
                          2 * forecast->recommended);
  gtk_label_set_text (self->checks, text->str);
  gtk_widget_set_visible (self->drop, n > 0);
}

static void
bw_bench_card_refresh (BwCard *card)
{
  BwBenchCard *self = BW_BENCH_CARD (card);
  BwProject *project = bw_card_get_project (card);
  int done = bw_project_get_rows_done (project);
  show_row (self, project, done, bw_project_get_design (project)->band.rows);
  show_checks (self, project);
}

static gboolean
set_progress (BwBenchCard *self, const char *label, int done, const BwCheck *checks, int n,
              GError **error)
{
  return bw_project_set_progress (bw_card_get_project (BW_CARD (self)), label, done, checks, n,
                                  error);
}

static void
move (BwBenchCard *self, const char *label, int done)
{
  int n;
  BwProject *project = bw_card_get_project (BW_CARD (self));
  const BwCheck *known = bw_project_get_checks (project, &n);
  g_autofree BwCheck *checks = g_memdup2 (known, (gsize)n * sizeof *known);
  set_progress (self, label, CLAMP (done, 0, bw_project_get_design (project)->band.rows), checks, n,
                NULL);
}

static void
done_clicked (BwBenchCard *self)
{
  int done = bw_project_get_rows_done (bw_card_get_project (BW_CARD (self)));
  move (self, _ ("Row done"), done < 2 ? 2 : done + 1);
}

static void
back_clicked (BwBenchCard *self)
{
  int done = bw_project_get_rows_done (bw_card_get_project (BW_CARD (self)));
  move (self, _ ("Row undone"), done <= 2 ? 0 : done - 1);
}

static void
show_reason (BwBenchCard *self, const GError *error)
{
  gtk_label_set_text (self->reason, error ? bw_fault_sentence (error) : "");
  gtk_widget_set_visible (GTK_WIDGET (self->reason), error != NULL);
  if (error)
    gtk_widget_add_css_class (GTK_WIDGET (self->length), "error");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->length), "error");
}

/* The strip as it is now: as many rows as are done. A second length of the same rows replaces the
 * first. */
static gboolean
add_check (BwBenchCard *self, GError **error)
{
  BwField field = { .quantity = BW_QUANTITY_LENGTH, .pointer = "/progress/checks" };
  BwProject *project = bw_card_get_project (BW_CARD (self));
  int n, done = bw_project_get_rows_done (project), kept = 0;
  const BwCheck *known = bw_project_get_checks (project, &n);
  g_autofree BwCheck *checks = g_new0 (BwCheck, n + 1);
  BwCheck check = { .rows = done };
  if (done < 2) {
    bw_fault_set (error, BW_FAULT_RANGE, "/progress/checks",
                  _ ("Count the woven rows first: a strip is measured at a row."));
    return FALSE;
  }
  if (!bw_field_parse (&field, gtk_editable_get_text (GTK_EDITABLE (self->length)),
                       bw_settings_get_unit (bw_settings_get ()), &check.length_mm, error))
    return FALSE;
  for (int i = 0; i < n; i++)
    if (known[i].rows != done)
      checks[kept++] = known[i];
  checks[kept++] = check;
  return set_progress (self, _ ("Strip measured"), done, checks, kept, error);
}

static void
length_typed (BwBenchCard *self)
{
  g_autoptr (GError) error = NULL;
  if (add_check (self, &error))
    gtk_editable_set_text (GTK_EDITABLE (self->length), "");
  show_reason (self, error);
}

static void
drop_clicked (BwBenchCard *self)
{
  int n;
  BwProject *project = bw_card_get_project (BW_CARD (self));
  const BwCheck *known = bw_project_get_checks (project, &n);
  g_autofree BwCheck *checks = g_memdup2 (known, (gsize)n * sizeof *known);
  if (n > 0)
    set_progress (self, _ ("Strip length dropped"), bw_project_get_rows_done (project), checks,
                  n - 1, NULL);
}

static void
bw_bench_card_class_init (BwBenchCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  BW_CARD_CLASS (klass)->refresh = bw_bench_card_refresh;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/bench-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwBenchCard, row);
  gtk_widget_class_bind_template_child (widget_class, BwBenchCard, words);
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
  gtk_widget_init_template (GTK_WIDGET (self));
}
