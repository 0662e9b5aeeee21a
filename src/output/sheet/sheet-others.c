/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The pattern for stones of the kind that are not this one: nobody else's stone is as thick. */
#include "config.h"

#include "output/sheet/sheet-parts.h"

#include "core/band/other-stones.h"
#include "output/report/report-parts.h"

#include <glib/gi18n-lib.h>

/* What the drawing does at a count. Owned. */
static char *
motif_words (const BwOtherStone *line)
{
  int over = line->rows_over;
  if (line->repeat_rows > 0 && over == 0) {
    int times = line->rows / line->repeat_rows;
    return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "runs on: %d whole repeat of %d rows",
                                         "runs on: %d whole repeats of %d rows", (gulong)times),
                            times, line->repeat_rows);
  }
  if (line->repeat_rows > 0)
    return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "breaks at the join: %d row over",
                                         "breaks at the join: %d rows over", (gulong)over),
                            over);
  if (over == 0)
    return g_strdup (_ ("as drawn"));
  if (over > 0)
    return g_strdup_printf (
        g_dngettext (GETTEXT_PACKAGE, "%d row more to fill", "%d rows more to fill", (gulong)over),
        over);
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "the last %d row is left out",
                                       "the last %d rows are left out", (gulong)-over),
                          -over);
}

static char *
range_words (double least_mm, double most_mm, BwUnit unit)
{
  g_autofree char *least = bw_text_in (least_mm, unit, 1);
  g_autofree char *most = bw_text_in (most_mm, unit, 1);
  return g_strdup_printf ("%s–%s", least, most);
}

static void
add_line (BwTable *table, const BwOtherStone *line, int own_rows, BwUnit unit)
{
  bw_table_add (table, g_strdup (line->rows == own_rows ? "▸" : ""),
                range_words (line->least_mm, line->most_mm, unit),
                range_words (line->least_mm - line->bed_mm, line->most_mm - line->bed_mm, unit),
                g_strdup_printf ("%d", line->rows), g_strdup_printf ("%d", line->beads_around),
                motif_words (line));
}

static void
add_table (BwFlow *flow, const GArray *lines, int own_rows)
{
  g_auto (BwTable) table = { 0 };
  const char *sign = bw_text_unit (flow->unit);
  bw_table_init (&table, "lllrrl");
  bw_table_add (&table, g_strdup (""), g_strdup_printf (_ ("Round the bed, %s"), sign),
                g_strdup_printf (_ ("Bare stone, %s"), sign), g_strdup (_ ("Rows")),
                g_strdup (_ ("Beads round")), g_strdup (_ ("The motif")));
  for (guint i = 0; i < lines->len; i++)
    add_line (&table, &g_array_index (lines, BwOtherStone, i), own_rows, flow->unit);
  bw_flow_table (flow, &table, NULL, NULL);
}

void
bw_sheet_add_others (BwFlow *flow, BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  g_autoptr (GArray) lines
      = bw_other_stones (design, bw_project_stone (project), bw_project_get_drawing (project));
  if (lines->len == 0)
    return;
  bw_flow_heading (flow, _ ("Your stone is not this stone"), 90);
  bw_flow_text (flow, BW_TYPE_TEXT,
                _ ("Wind the bed, lay a strip of paper round it half way up the band, and find the "
                   "girth here: so many rows close and grip. Before winding, the girth of the bare "
                   "stone tells the same for a bed wound as in these pages. Between two lines no "
                   "count is snug: a layer more, or thinner cord, brings the girth into a line."));
  /* Below the table it would now and then have a page to itself. */
  bw_flow_text (
      flow, BW_TYPE_SMALL,
      _ ("For stones of this shape, these beads and the pitch of these pages; a stone that "
         "tapers more wants a bed that makes up for it. The arrow marks the stone these "
         "pages were made for."));
  add_table (flow, lines, design->band.rows);
}
