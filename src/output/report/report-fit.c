/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fit for programs: every column, the forecast of the row count, what helps, the join. The
 * same for people is in report-fit-text.c. */
#include "config.h"

#include "output/report/report-fit.h"

#include "core/band/other-stones.h"
#include "output/report/help-words.h"
#include "output/report/remedy-keys.h"
#include "output/report/report-parts.h"
#include "output/report/report.h"
#include "output/report/what-if.h"

static void
json_column (BwAnswer *json, const BwFitColumn *column)
{
  bw_answer_open_object (json, NULL);
  bw_answer_count (json, "column", (guint64)column->column);
  bw_answer_number (json, "height_mm", column->height_mm);
  bw_answer_number (json, "girth_mm", column->girth_mm);
  bw_answer_number_if (json, column->has_chord, "chord_mm", column->chord_mm);
  bw_answer_number (json, "gap_mm", column->gap_mm);
  bw_answer_number (json, "pull_mm", column->pull_mm);
  bw_answer_boolean (json, "closes", column->closes);
  bw_answer_boolean (json, "grips", column->grips);
  bw_answer_close (json);
}

static void
json_columns (BwAnswer *json, const BwFit *fit)
{
  bw_answer_open_array (json, "columns");
  for (int c = 0; c < fit->n_columns; c++)
    json_column (json, &fit->column[c]);
  bw_answer_close (json);
}

static void
json_forecast (BwAnswer *json, const BwForecast *forecast)
{
  bw_answer_count (json, "recommended_beads_around", (guint64)forecast->recommended);
  bw_answer_number (json, "closes_probability", forecast->closes_probability);
  bw_answer_open_array (json, "probability");
  for (int i = 0; i < forecast->n_chances; i++) {
    bw_answer_open_object (json, NULL);
    bw_answer_count (json, "beads_around", (guint64)forecast->chance[i].beads_around);
    bw_answer_count (json, "rows", 2 * (guint64)forecast->chance[i].beads_around);
    bw_answer_number (json, "p", forecast->chance[i].p);
    bw_answer_close (json);
  }
  bw_answer_close (json);
  bw_answer_count (json, "try_on_row", (guint64)forecast->try_on_row);
}

/* What to measure next, the most helpful first; likeliest_chance is what there is without. */
static void
json_helps (BwAnswer *json, BwProject *project)
{
  BwHelps helps;
  bw_helps_init (&helps, bw_project_get_design (project), bw_project_stone (project));
  bw_answer_number (json, "likeliest_chance", helps.now);
  bw_answer_open_array (json, "would_help");
  for (int i = 0; i < helps.n; i++) {
    const BwHelp *help = &helps.help[i];
    bw_answer_open_object (json, NULL);
    bw_answer_string (json, "measure", bw_help_word (help->kind));
    bw_answer_number_if (json, help->rows > 0, "rows", help->rows);
    bw_answer_string (json, "tool", bw_help_tool_word (help->kind));
    bw_answer_number (json, "chance", help->chance);
    bw_answer_close (json);
  }
  bw_answer_close (json);
}

/* Grade and bead change more than one key at once: what a maker asks first stands beside their
 * value, all of it in "also". */
static void
json_remedy (BwAnswer *json, BwProject *file, const BwRemedy *remedy)
{
  bw_answer_open_object (json, NULL);
  bw_answer_string (json, "kind", bw_remedy_word (remedy->kind));
  if (remedy->kind == BW_REMEDY_BEAD)
    bw_answer_string (json, "value", remedy->design.bead.name);
  else
    bw_answer_number (json, "value", remedy->value);
  if (remedy->kind == BW_REMEDY_GRADE || remedy->kind == BW_REMEDY_BEAD) {
    bw_answer_count (json, "columns", (guint64)remedy->design.band.columns);
    bw_answer_count (json, "rows", (guint64)remedy->design.band.rows);
  }
  if (remedy->kind == BW_REMEDY_GRADE)
    bw_answer_count (json, "layers", (guint64)remedy->design.bed.layers);
  bw_answer_string (json, "verdict", bw_verdict_word (remedy->verdict));
  bw_answer_number (json, "gap_min_mm", remedy->gap_min_mm);
  bw_answer_number (json, "gap_max_mm", remedy->gap_max_mm);
  bw_answer_remedy_keys (json, file, remedy);
  bw_answer_close (json);
}

static void
json_remedies (BwAnswer *json, BwProject *file, const GArray *remedies)
{
  bw_answer_open_array (json, "remedies");
  for (guint i = 0; i < remedies->len; i++)
    json_remedy (json, file, &g_array_index (remedies, BwRemedy, i));
  bw_answer_close (json);
}

static void
json_broken (BwAnswer *json, const GArray *broken)
{
  bw_answer_open_array (json, "broken_beads");
  for (guint i = 0; i < broken->len; i++) {
    const BwBeadAt *bead = &g_array_index (broken, BwBeadAt, i);
    bw_answer_open_object (json, NULL);
    bw_answer_count (json, "row", (guint64)bead->row);
    bw_answer_count (json, "column", (guint64)bead->column);
    bw_answer_close (json);
  }
  bw_answer_close (json);
}

static void
json_join (BwAnswer *json, const BwJoin *join)
{
  bw_answer_open_object (json, "join");
  bw_answer_count (json, "rows", (guint64)join->rows);
  bw_answer_boolean (json, "interlocks", join->interlocks);
  bw_answer_number_if (json, join->interlocks, "gap_mm", join->gap_mm);
  bw_answer_number_if (json, join->interlocks, "overlap_mm", join->overlap_mm);
  bw_answer_number_if (json, join->repeat_rows > 0, "repeat_rows", join->repeat_rows);
  if (join->repeat_rows > 0 && join->interlocks)
    bw_answer_boolean (json, "repeat_closes", join->repeat_closes);
  else
    bw_answer_null (json, "repeat_closes");
  json_broken (json, join->broken);
  bw_answer_close (json);
}

static void
json_other_stones (BwAnswer *json, BwProject *project)
{
  g_autoptr (GArray) lines
      = bw_other_stones (bw_project_get_design (project), bw_project_stone (project),
                         bw_project_get_drawing (project));
  bw_answer_open_array (json, "other_stones");
  for (guint i = 0; i < lines->len; i++) {
    const BwOtherStone *line = &g_array_index (lines, BwOtherStone, i);
    bw_answer_open_object (json, NULL);
    bw_answer_count (json, "rows", (guint64)line->rows);
    bw_answer_count (json, "beads_around", (guint64)line->beads_around);
    bw_answer_number (json, "over_least_mm", line->least_mm);
    bw_answer_number (json, "over_most_mm", line->most_mm);
    bw_answer_number (json, "bare_least_mm", line->least_mm - line->bed_mm);
    bw_answer_number (json, "bare_most_mm", line->most_mm - line->bed_mm);
    bw_answer_number (json, "rows_over", line->rows_over);
    bw_answer_close (json);
  }
  bw_answer_close (json);
}

/* The strips that were measured, and the pitch each tells. */
static void
json_strips (BwAnswer *json, BwProject *project)
{
  int n;
  const BwCheck *checks = bw_project_get_checks (project, &n);
  bw_answer_open_array (json, "strips");
  for (int i = 0; i < n; i++) {
    bw_answer_open_object (json, NULL);
    bw_answer_count (json, "rows", (guint64)checks[i].rows);
    bw_answer_number (json, "length_mm", checks[i].length_mm);
    bw_answer_number (json, "pitch_mm", 2 * checks[i].length_mm / (checks[i].rows + 1));
    bw_answer_close (json);
  }
  bw_answer_close (json);
}

/* file: the project as it was read, which the remedies are written into. */
static char *
fit_json (BwProject *project, BwProject *file)
{
  const BwDesign *design = bw_project_get_design (project);
  const BwFit *fit = bw_project_fit (project);
  BwAnswer json;
  bw_answer_init (&json);
  json_columns (&json, fit);
  bw_answer_count (&json, "beads_around", (guint64)fit->beads_around);
  bw_answer_count (&json, "rows", (guint64)fit->rows);
  bw_answer_string (&json, "verdict", bw_verdict_word (fit->verdict));
  bw_answer_number (&json, "pitch_mm", design->pitch.mm);
  bw_answer_number (&json, "pitch_sd_mm", design->pitch.sd_mm);
  bw_answer_gives (&json, design);
  bw_answer_number (&json, "sigma_mm", bw_project_forecast (project)->sigma_mm);
  bw_answer_number (&json, "splay_max_deg", bw_project_splay (project)->max_deg);
  bw_answer_number (&json, "splay_limit_deg", BW_SPLAY_LIMIT_DEG);
  bw_answer_number (&json, "splay_cure_mm", MAX (bw_project_splay (project)->cure_mm, 0));
  json_strips (&json, project);
  json_forecast (&json, bw_project_forecast (project));
  json_helps (&json, project);
  json_remedies (&json, file, bw_project_remedies (project));
  json_join (&json, bw_project_join (project));
  json_other_stones (&json, project);
  bw_answer_warnings (&json, project, BW_TOPIC_STONE | BW_TOPIC_FIT,
                      bw_report_voids_girth_over (bw_project_remedies (project)));
  return bw_answer_finish (&json);
}

char *
bw_report_fit (BwProject *project, int rows, gboolean json, GError **error)
{
  g_autoptr (BwProject) asked = bw_what_if_rows (project, rows, error);
  if (!asked)
    return NULL;
  return json ? fit_json (asked, project) : bw_report_fit_text (asked);
}
