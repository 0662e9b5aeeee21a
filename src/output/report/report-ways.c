/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a way comes to is told of the project as it would be, by the very reports of a project. */
#include "config.h"

#include "output/report/report-ways.h"

#include "output/report/remedy-keys.h"
#include "output/report/report-parts.h"
#include "output/report/what-if.h"
#include "project/hang-words.h"

#include <glib/gi18n-lib.h>

static void
answer_way (BwAnswer *json, BwProject *project, const BwWay *way)
{
  g_autoptr (BwProject) then = bw_what_if_design (project, &way->design, NULL);
  if (!then)
    return;
  const BwMaterials *needs = bw_project_materials (then);
  bw_answer_open_object (json, NULL);
  bw_answer_string (json, "verdict", bw_verdict_word (bw_project_fit (then)->verdict));
  bw_answer_number (json, "chance", way->worth.chance);
  bw_answer_number (json, "closes_probability", way->worth.closes);
  bw_answer_number (json, "snug_probability", way->worth.snug);
  bw_answer_number_if (json, way->hangs, "tilt_deg", way->tilt_deg);
  bw_answer_number (json, "coverage", way->coverage);
  bw_answer_number (json, "hours", needs->has_cost ? needs->hours : way->worth.hours);
  bw_answer_number_if (json, needs->has_cost, "cost", needs->cost.total);
  bw_answer_count (json, "beads_to_buy", needs->total_with_spare);
  bw_answer_changes (json, "changes", project, &way->design);
  bw_answer_close (json);
}

static char *
ways_json (BwProject *project, const GArray *ways)
{
  BwAnswer json;
  bw_answer_init (&json);
  bw_answer_open_array (&json, "ways");
  for (guint i = 0; i < ways->len; i++)
    answer_way (&json, project, &g_array_index (ways, BwWay, i));
  bw_answer_close (&json);
  return bw_answer_finish (&json);
}

const char *
bw_report_ways_bail (BwBailStyle style)
{
  switch (style) {
  case BW_BAIL_FLAP:
    return _ ("flap");
  case BW_BAIL_UPRIGHT:
    return _ ("upright strip");
  case BW_BAIL_RING:
    return _ ("flap with a ring");
  case BW_BAIL_OVER:
    return _ ("loop over the tip");
  case BW_BAIL_NONE:
  default:
    return _ ("no bail");
  }
}

static char *
stance_words (const BwWay *way)
{
  if (!way->hangs)
    return g_strdup ("–");
  return bw_hang_words (way->up, way->tilt_deg);
}

static void
tell_way (BwTable *table, const BwWay *way, guint number)
{
  const BwDesign *design = &way->design;
  bw_table_add (
      table, g_strdup_printf ("%u", number), g_strdup (design->bead.name),
      g_strdup_printf ("%d × %d", design->band.columns, design->band.rows),
      bw_text_mm (design->band.bottom_mm, BW_TEXT_MEASURED),
      g_strdup_printf ("%d", design->bed.layers), bw_text_mm (design->bed.top_extra_mm, 2),
      g_strdup (bw_report_ways_bail (design->bail.style)),
      g_strdup_printf (_ ("%.0f %%"), 100 * way->worth.chance), stance_words (way),
      g_strdup_printf (_ ("%.0f %%"), 100 * way->coverage),
      g_strdup_printf ("%.0f", way->worth.beads), g_strdup_printf (_ ("%.1f h"), way->worth.hours));
}

static char *
ways_text (BwProject *project, const GArray *ways)
{
  GString *text = g_string_new (NULL);
  g_auto (BwTable) table = { 0 };
  bw_text_heading (text, project, _ ("ways to set this stone"));
  if (ways->len == 0) {
    bw_text_paragraph (text, _ ("None was found: no band of these beads is snug on this stone and "
                                "hangs on this cord."));
    return bw_text_done (text);
  }
  bw_table_init (&table, "rlrrrrlrlrrr");
  bw_table_add (&table, g_strdup (""), g_strdup (_ ("bead")), g_strdup (_ ("columns × rows")),
                g_strdup (_ ("height")), g_strdup (_ ("layers")),
                g_strdup (_ ("thicker at the top")), g_strdup (_ ("bail")),
                g_strdup (_ ("right first time")), g_strdup (_ ("hangs")), g_strdup (_ ("covers")),
                g_strdup (_ ("beads")), g_strdup (_ ("weaving")));
  for (guint i = 0; i < ways->len; i++)
    tell_way (&table, &g_array_index (ways, BwWay, i), i + 1);
  bw_table_write (&table, text, 0);
  return bw_text_done (text);
}

char *
bw_report_ways (BwProject *project, const BwBookHands *hands, const BwWant *want, int limit,
                guint seed, gboolean json)
{
  g_autoptr (BwWaysQuestion) question = bw_ways_question_new (project, hands);
  BwWaysWish *wish = bw_ways_question_wish (question);
  wish->has_stance = want != NULL;
  wish->stance = want ? *want : BW_WANT_LEVEL;
  g_autoptr (GArray) ways = bw_ways_question_answer (question, FALSE, limit, seed, NULL, NULL);
  return json ? ways_json (project, ways) : ways_text (project, ways);
}
