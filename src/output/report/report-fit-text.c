/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fit for people: the verdict first, then how sure it is, what to do, and the columns it rests
 * on. */
#include "config.h"

#include "output/report/report-fit.h"

#include "output/report/fit-sentence.h"
#include "output/report/help-words.h"
#include "output/report/remedy-also.h"
#include "output/report/report-parts.h"

#include <glib/gi18n-lib.h>
#include <math.h>

char *
bw_text_verdict (BwProject *project, BwUnit unit)
{
  BwFitTold told = bw_fit_told (project);
  g_autofree char *sentence = bw_fit_words_sentence (
      &told, bw_project_fit (project), bw_project_get_design (project)->limits.slack_mm, unit);
  return g_strdup_printf ("%s. %s", bw_fit_words_head (&told), sentence);
}

static char *
percent (double p)
{
  return g_strdup_printf (_ ("%.0f %%"), 100 * p);
}

static void
text_band (GString *text, BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  const BwFit *fit = bw_project_fit (project);
  g_auto (BwTable) facts = { 0 };
  bw_table_init (&facts, "ll");
  bw_text_fact (&facts, _ ("Verdict"), bw_text_verdict (project, BW_UNIT_MM));
  bw_text_fact (&facts, _ ("Rows"), bw_text_count ((guint64)fit->rows));
  bw_text_fact (&facts, _ ("Beads round"), bw_text_count ((guint64)fit->beads_around));
  bw_text_fact (&facts, _ ("Bead"), g_strdup (design->bead.name));
  bw_text_fact (&facts, _ ("Bead to bead"),
                g_strdup_printf (_ ("%.3f ± %.3f mm"), design->pitch.mm, design->pitch.sd_mm));
  g_autofree char *least = bw_text_number (fit->gap_min_mm, 2);
  g_autofree char *most = bw_text_mm (fit->gap_max_mm, 2);
  /* Translators: the least and the greatest gap. */
  bw_text_fact (&facts, _ ("Gap"), g_strdup_printf (_ ("%s to %s"), least, most));
  bw_text_fact (&facts, _ ("Sharpest turn between beads"),
                g_strdup_printf (_ ("%.1f°"), bw_project_splay (project)->max_deg));
  bw_table_write (&facts, text, 0);
}

static void
text_chances (GString *text, const BwForecast *forecast)
{
  g_auto (BwTable) table = { 0 };
  bw_table_init (&table, "rrr");
  bw_table_add (&table, g_strdup (_ ("Beads round")), g_strdup (_ ("rows")),
                g_strdup (_ ("chance to be the right count")));
  for (int i = 0; i < forecast->n_chances; i++) {
    const BwChance *chance = &forecast->chance[i];
    bw_table_add (&table, bw_text_count ((guint64)chance->beads_around),
                  bw_text_count (2 * (guint64)chance->beads_around), percent (chance->p));
  }
  g_string_append_c (text, '\n');
  bw_table_write (&table, text, 0);
}

static void
text_forecast (GString *text, BwProject *project)
{
  const BwForecast *forecast = bw_project_forecast (project);
  BwFitTold told = bw_fit_told (project);
  g_auto (BwTable) facts = { 0 };
  bw_table_init (&facts, "ll");
  bw_text_fact (&facts, _ ("Recommended"),
                g_strdup_printf (_ ("%d beads round, %d rows"), forecast->recommended,
                                 2 * forecast->recommended));
  bw_text_fact (&facts, _ ("Chances"), bw_fit_words_odds (&told));
  if (told.verdict != BW_VERDICT_ODD_ROWS)
    bw_text_fact (&facts, "", bw_fit_words_chances (&told));
  g_autofree char *sigma = bw_text_mm (forecast->sigma_mm, 2);
  bw_text_fact (&facts, _ ("Known to"), g_strdup_printf (_ ("± %s round the ring"), sigma));
  bw_text_fact (
      &facts, _ ("First try-on"),
      g_strdup_printf (_ ("after row %d, then at every second row"), forecast->try_on_row));
  g_string_append_c (text, '\n');
  bw_table_write (&facts, text, 0);
  text_chances (text, forecast);
}

static void
text_helps (GString *text, const BwHelps *helps)
{
  g_auto (BwTable) table = { 0 };
  if (helps->n == 0)
    return;
  bw_table_init (&table, "lr");
  bw_table_add (&table, g_strdup (_ ("What helps most")), g_strdup (_ ("right the first time")));
  bw_table_add (&table, g_strdup (_ ("As it is now")), percent (helps->now));
  for (int i = 0; i < helps->n; i++)
    bw_table_add (&table, bw_help_words (&helps->help[i]), percent (helps->help[i].chance));
  g_string_append_c (text, '\n');
  bw_table_write (&table, text, 0);
}

static char *
grade_sentence (double extra_mm, int rows)
{
  return g_strdup_printf (
      extra_mm >= 0 ? _ (
          "make the bed %.2f mm thicker at the upper edge than at the lower, and weave %d rows")
                    : _ ("make the bed %.2f mm thicker at the lower edge than at the upper, and "
                         "weave %d rows"),
      fabs (extra_mm), rows);
}

/* Layers and grade together, where the grade alone would take away more bed than there is. */
static char *
layers_and_grade_sentence (const BwRemedy *remedy, int layers_now)
{
  int layers = remedy->design.bed.layers;
  g_autofree char *grade = grade_sentence (remedy->value, remedy->design.band.rows);
  if (layers == layers_now)
    return g_steal_pointer (&grade);
  /* Translators: the second is "make the bed … and weave … rows". */
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "wind %d layer of cord, %s",
                                       "wind %d layers of cord, %s", (gulong)layers),
                          layers, grade);
}

/* layers: those there are now. */
static char *
remedy_sentence (const BwRemedy *remedy, int layers)
{
  const BwDesign *design = &remedy->design;
  switch (remedy->kind) {
  case BW_REMEDY_ROWS:
    return g_strdup_printf (
        g_dngettext (GETTEXT_PACKAGE, "weave %d row", "weave %d rows", (gulong)design->band.rows),
        design->band.rows);
  case BW_REMEDY_BED:
    return g_strdup_printf (remedy->value >= 0 ? _ ("make the bed %.2f mm thicker")
                                               : _ ("make the bed %.2f mm thinner"),
                            fabs (remedy->value));
  case BW_REMEDY_LAYERS:
    return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "wind %d layer of cord",
                                         "wind %d layers of cord", (gulong)design->bed.layers),
                            design->bed.layers);
  case BW_REMEDY_GRADE:
    return layers_and_grade_sentence (remedy, layers);
  case BW_REMEDY_MOVE:
    return g_strdup_printf (_ ("set the band's lower edge at %.1f mm"), remedy->value);
  case BW_REMEDY_BEAD:
    break;
  }
  return g_strdup_printf (_ ("take %s beads, %d columns and %d rows"), design->bead.name,
                          design->band.columns, design->band.rows);
}

static const char *
short_verdict (BwVerdict verdict)
{
  switch (verdict) {
  case BW_VERDICT_SNUG:
    return _ ("snug");
  case BW_VERDICT_WILL_NOT_CLOSE:
    return _ ("will not close");
  case BW_VERDICT_LOOSE:
    return _ ("loose");
  case BW_VERDICT_ODD_ROWS:
    break;
  }
  return _ ("odd rows");
}

const char *
bw_report_voids_girth_over (const GArray *remedies)
{
  for (guint i = 0; i < remedies->len; i++)
    if (g_array_index (remedies, BwRemedy, i).voids_girth_over)
      return _ (
          "The girth measured over the bed no longer holds once the bed or its place changes.");
  return NULL;
}

/* What the foot of the window and the odds above name as a count to weave is none to be warned of.
 */
static void
add_remedy (BwTable *table, const BwRemedy *remedy, const BwFitTold *told, const BwDesign *now)
{
  g_autofree char *what
      = bw_remedy_with_also (remedy_sentence (remedy, now->bed.layers), remedy, now, BW_UNIT_MM);
  const char *then = bw_fit_told_is_likely (told, remedy) ? _ ("the try-on decides")
                                                          : short_verdict (remedy->verdict);
  bw_table_add (table, g_strconcat (what, remedy->voids_girth_over ? " *" : "", NULL),
                g_strdup (then), bw_text_number (remedy->gap_min_mm, 2),
                bw_text_number (remedy->gap_max_mm, 2));
}

/* Those that help, or those that were only tried; nothing where there are none. */
static void
text_remedies_that (GString *text, BwProject *project, gboolean help, const char *title)
{
  const GArray *remedies = bw_project_remedies (project);
  BwFitTold told = bw_fit_told (project);
  int n = 0;
  g_auto (BwTable) table = { 0 };
  bw_table_init (&table, "llrr");
  bw_table_add (&table, g_strdup (title), g_strdup (_ ("then")), g_strdup (_ ("least gap mm")),
                g_strdup (_ ("greatest")));
  for (guint i = 0; i < remedies->len; i++) {
    const BwRemedy *remedy = &g_array_index (remedies, BwRemedy, i);
    gboolean helps = bw_fit_told_helps (&told, remedy) || bw_fit_told_is_likely (&told, remedy);
    if (helps != help)
      continue;
    add_remedy (&table, remedy, &told, bw_project_get_design (project));
    n++;
  }
  if (n == 0)
    return;
  g_string_append_c (text, '\n');
  bw_table_write (&table, text, 0);
}

static void
text_remedies (GString *text, BwProject *project)
{
  const char *voids = bw_report_voids_girth_over (bw_project_remedies (project));
  text_remedies_that (text, project, TRUE, _ ("What helps"));
  text_remedies_that (text, project, FALSE, _ ("What else was tried"));
  if (voids)
    bw_text_item (text, voids);
}

static void
text_broken (GString *text, const BwJoin *join)
{
  if (join->broken->len == 0)
    return;
  g_string_append (text, _ ("Beads at the join that break it:"));
  for (guint i = 0; i < join->broken->len; i++) {
    const BwBeadAt *bead = &g_array_index (join->broken, BwBeadAt, i);
    g_string_append_printf (text, i > 0 ? _ ("; row %d, column %d") : _ (" row %d, column %d"),
                            bead->row, bead->column);
  }
  g_string_append (text, ".\n");
}

static void
text_repeat (GString *text, const BwJoin *join)
{
  if (join->repeat_rows == 0 || !join->interlocks)
    return;
  g_string_append_printf (
      text,
      join->repeat_closes ? _ ("The drawing repeats every %d rows and runs on across the join.\n")
                          : _ ("The drawing repeats every %d rows and breaks at the join.\n"),
      join->repeat_rows);
  if (join->repeat_closes)
    return;
  text_broken (text, join);
  if (join->repeat_below > 0 && join->repeat_above > 0)
    g_string_append_printf (text, _ ("It would run on with %d or %d rows.\n"), join->repeat_below,
                            join->repeat_above);
  else if (join->repeat_above > 0)
    g_string_append_printf (text, _ ("It would run on with %d rows.\n"), join->repeat_above);
}

static void
text_join (GString *text, const BwJoin *join)
{
  g_string_append_c (text, '\n');
  if (!join->interlocks)
    g_string_append (text, _ ("The join: odd rows, the raised beads do not interlock.\n"));
  else if (join->gap_mm > 0)
    g_string_append_printf (
        text, _ ("The join: it lies up to %.2f mm (%.2f beads) open before you pull.\n"),
        join->gap_mm, join->gap_beads);
  else
    g_string_append (text, _ ("The join: it meets without pulling.\n"));
  if (join->interlocks && join->overlap_mm > 0)
    g_string_append_printf (text, _ ("It overlaps by up to %.2f mm (%.2f beads).\n"),
                            join->overlap_mm, join->overlap_beads);
  text_repeat (text, join);
}

static void
text_columns (GString *text, const BwFit *fit)
{
  g_auto (BwTable) table = { 0 };
  bw_table_init (&table, "rrrrrrll");
  bw_table_add (&table, g_strdup (_ ("Column")), g_strdup (_ ("height mm")),
                g_strdup (_ ("girth mm")), g_strdup (_ ("room per bead mm")),
                g_strdup (_ ("gap mm")), g_strdup (_ ("pull mm")), g_strdup (_ ("closes")),
                g_strdup (_ ("grips")));
  for (int c = 0; c < fit->n_columns; c++) {
    const BwFitColumn *column = &fit->column[c];
    bw_table_add (&table, bw_text_count ((guint64)column->column),
                  bw_text_number (column->height_mm, BW_TEXT_MEASURED),
                  bw_text_number (column->girth_mm, BW_TEXT_MEASURED),
                  column->has_chord ? bw_text_number (column->chord_mm, 3) : g_strdup ("–"),
                  bw_text_number (column->gap_mm, 2), bw_text_number (column->pull_mm, 2),
                  g_strdup (column->closes ? _ ("yes") : _ ("no")),
                  g_strdup (column->grips ? _ ("yes") : _ ("no")));
  }
  g_string_append_c (text, '\n');
  bw_table_write (&table, text, 0);
}

char *
bw_report_fit_text (BwProject *project)
{
  GString *text = g_string_new (NULL);
  BwHelps helps;
  bw_text_heading (text, project, _ ("the fit"));
  text_band (text, project);
  text_forecast (text, project);
  bw_helps_init (&helps, bw_project_get_design (project), bw_project_stone (project));
  text_helps (text, &helps);
  text_columns (text, bw_project_fit (project));
  text_remedies (text, project);
  text_join (text, bw_project_join (project));
  bw_text_warnings (text, project, BW_TOPIC_STONE | BW_TOPIC_FIT, BW_UNIT_MM);
  return bw_text_done (text);
}
