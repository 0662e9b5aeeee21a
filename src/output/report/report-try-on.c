/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What to do with a strip that was tried on, for people and for programs. */
#include "config.h"

#include "output/report/report-parts.h"
#include "output/report/report.h"
#include "project/fault/fault-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Owned; NULL when forecast and reading agree. */
static char *
astray_sentence (const BwTryOn *try_on)
{
  if (!(fabs (try_on->astray_mm) > 0))
    return NULL;
  return g_strdup_printf (_ ("Look at both again first: the reading lies %.1f mm from what the "
                             "measurements foretold. What is told here counts the reading alone."),
                          fabs (try_on->astray_mm));
}

static char *
try_on_json (BwProject *project, const BwTryOn *try_on)
{
  g_autofree char *astray = astray_sentence (try_on);
  BwAnswer json;
  bw_answer_init (&json);
  bw_answer_count (&json, "rows", (guint64)try_on->rows);
  bw_answer_number (&json, "change", try_on->change);
  bw_answer_number (&json, "closes_probability", try_on->closes_probability);
  bw_answer_number (&json, "snug_probability", try_on->snug_probability);
  bw_answer_number (&json, "pulled_mm", try_on->pulled_mm);
  bw_answer_number (&json, "over_mm", try_on->over_mm);
  bw_answer_number (&json, "bed_mm", try_on->bed_mm);
  bw_answer_gives (&json, bw_project_get_design (project));
  bw_answer_warnings (&json, project, 0, astray);
  return bw_answer_finish (&json);
}

static char *
change_sentence (const BwTryOn *try_on)
{
  int change = try_on->change;
  if (change == 0)
    return g_strdup (_ ("stay with what is woven"));
  if (change > 0)
    return g_strdup_printf (
        g_dngettext (GETTEXT_PACKAGE, "weave %d row more", "weave %d rows more", (gulong)change),
        change);
  return g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "pick out %d row", "pick out %d rows", (gulong)-change),
      -change);
}

static char *
try_on_text (BwProject *project, const BwTryOn *try_on)
{
  g_autofree char *astray = astray_sentence (try_on);
  GString *text = g_string_new (NULL);
  g_auto (BwTable) facts = { 0 };
  bw_text_heading (text, project, _ ("the try-on"));
  if (astray)
    bw_text_item (text, astray);
  bw_table_init (&facts, "ll");
  bw_text_fact (&facts, _ ("Rows to end with"), bw_text_count ((guint64)try_on->rows));
  bw_text_fact (&facts, _ ("What to do"), change_sentence (try_on));
  bw_text_fact (&facts, _ ("Chance to close and grip"),
                g_strdup_printf (_ ("%.0f %%"), 100 * try_on->snug_probability));
  if (try_on->pulled_mm > 0)
    bw_text_fact (&facts, _ ("Pulling closes"), bw_text_mm (try_on->pulled_mm, 2));
  if (try_on->over_mm > 0)
    bw_text_fact (&facts, _ ("Too long by"), bw_text_mm (try_on->over_mm, 2));
  if (try_on->bed_mm > 0)
    bw_text_fact (&facts, _ ("Bed thicker by"), bw_text_mm (try_on->bed_mm, 2));
  if (try_on->more_bed_mm > 0)
    bw_text_fact (&facts, _ ("Rather 2 rows more, and bed thicker by"),
                  bw_text_mm (try_on->more_bed_mm, 2));
  bw_table_write (&facts, text, 0);
  return bw_text_done (text);
}

char *
bw_report_try_on (BwProject *project, int rows, const BwReading *reading, gboolean json,
                  GError **error)
{
  const BwDesign *design = bw_project_get_design (project);
  BwTryOn try_on;
  BwFault fault;
  if (!bw_reading_validate (reading, design, rows, &fault)) {
    bw_fault_tell (&fault, error);
    return NULL;
  }
  bw_try_on_init (&try_on, design, bw_project_stone (project), rows, reading);
  return json ? try_on_json (project, &try_on) : try_on_text (project, &try_on);
}
