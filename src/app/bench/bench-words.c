/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Short, and the same beside the needle, on the card and when read aloud. */
#include "config.h"

#include "app/bench/bench-words.h"
#include "app/bench/needle-layout.h"
#include "app/form/card.h"
#include "app/kit/settings.h"
#include "core/base/lattice.h"
#include "output/report/report.h"
#include "output/words/words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

static BwUnit
unit (void)
{
  return bw_settings_get_unit (bw_settings_get ());
}

static int
rows_of (BwProject *project)
{
  return bw_project_get_design (project)->band.rows;
}

static char *
bail_name (BwProject *project, int row)
{
  const BwBail *bail = &bw_project_get_design (project)->bail;
  if (bw_bail_is_strip (bail) && row == 1 && bail->rows > 1)
    return g_strdup_printf (_ ("Bail, pick-up, rows 1 and 2 of %d"), bail->rows);
  return g_strdup_printf (_ ("Bail, row %d of %d"), row, bail->rows);
}

/* What the step of the join is for, in a word or two. */
static const char *
join_word (BwProject *project, int step)
{
  BwStep pass;
  if (!bw_bench_join_pass (project, step, &pass))
    return _ ("before the zip");
  if (pass.kind == BW_STEP_ZIP)
    return _ ("the zip");
  return pass.kind == BW_STEP_RETURN ? _ ("the return") : _ ("the anchors");
}

static char *
join_name (BwProject *project, int step)
{
  /* Translators: which of how many steps of the join, and what it is. */
  return g_strdup_printf (_ ("Join, %d of %d: %s"), step, bw_bench_join_steps (project),
                          join_word (project, step));
}

char *
bw_bench_name (BwProject *project, BwBenchStep step)
{
  int rows = rows_of (project);
  if (step.is_end)
    return g_strdup_printf (_ ("All %d rows are woven"), rows);
  if (step.join > 0)
    return join_name (project, step.join);
  if (step.in_bail)
    return bail_name (project, step.row);
  if (step.row <= 2)
    return g_strdup_printf (_ ("Pick-up, rows 1 and 2 of %d"), rows);
  return g_strdup_printf (_ ("Row %d of %d"), step.row, rows);
}

/* The way of a pass that joins, where it has one from end to end. */
static const char *
join_arrow (BwProject *project, int step)
{
  BwStep pass;
  if (!bw_bench_join_pass (project, step, &pass) || pass.kind == BW_STEP_ANCHORS)
    return "";
  const BwPath *path = bw_project_path (project);
  return bw_words_arrow (g_array_index (path->visits, BwVisit, pass.first).direction);
}

/* Of the bail's rows the path knows, for its first one goes on where the needle came from. */
static gboolean
runs_upward (BwProject *project, BwBenchStep step)
{
  gboolean upward;
  if (!step.in_bail)
    return bw_lattice_direction (step.row) > 0;
  g_array_unref (bw_needle_beads (project, TRUE, step.row, &upward));
  return upward;
}

const char *
bw_bench_arrow (BwProject *project, BwBenchStep step)
{
  if (step.join > 0)
    return join_arrow (project, step.join);
  return step.is_end ? "" : bw_words_arrow (runs_upward (project, step));
}

char *
bw_bench_title (BwProject *project, BwBenchStep step)
{
  g_autofree char *name = bw_bench_name (project, step);
  const char *arrow = bw_bench_arrow (project, step);
  if (*arrow == '\0')
    return g_steal_pointer (&name);
  return g_strdup_printf ("%s %s", name, arrow);
}

const char *
bw_bench_way (BwProject *project, BwBenchStep step)
{
  if (step.is_end)
    return "";
  if (step.join > 0)
    return _ ("no beads are picked up");
  BwBailStyle style = bw_project_get_design (project)->bail.style;
  if (step.in_bail && style == BW_BAIL_OVER)
    return runs_upward (project, step) ? _ ("to the left, seen from outside where it begins")
                                       : _ ("to the right, seen from outside where it begins");
  if (step.in_bail && style == BW_BAIL_UPRIGHT)
    return runs_upward (project, step) ? _ ("to the left, seen with the tip up")
                                       : _ ("to the right, seen with the tip up");
  return runs_upward (project, step) ? _ ("upward, from the lower edge to the upper")
                                     : _ ("downward, from the upper edge to the lower");
}

static char *
bail_beads (BwProject *project, int row)
{
  gboolean upward;
  int n = 0;
  g_auto (GStrv) labels = bw_words_labels (bw_project_get_tray (project));
  g_autoptr (GArray) beads = bw_needle_beads (project, TRUE, row, &upward);
  g_autofree guint8 *colours = g_new (guint8, beads->len + 1);
  for (guint i = 0; i < beads->len; i++) {
    const BwNeedleBead *bead = &g_array_index (beads, BwNeedleBead, i);
    if (bead->is_new)
      colours[n++] = bead->colour;
  }
  return bw_words_runs (colours, n, labels);
}

char *
bw_bench_beads (BwProject *project, BwBenchStep step)
{
  if (step.is_end || step.join > 0)
    return g_strdup ("");
  return step.in_bail ? bail_beads (project, step.row)
                      : g_strstrip (bw_words_row (project, step.row));
}

/* The last row may be one at which the ends are pulled. */
static char *
after_the_band (BwProject *project, char *words)
{
  g_autofree char *rest = words;
  g_autofree char *pull = bw_words_before_row (project, rows_of (project) + 1, unit ());
  return g_strjoin (*pull ? "\n" : "", pull, rest, NULL);
}

static char *
join_words (BwProject *project, int step)
{
  BwStep pass;
  if (bw_bench_join_pass (project, step, &pass))
    return bw_words_join_pass (project, pass.first, unit ());
  return after_the_band (project, bw_words_before_join (project, unit ()));
}

/* A strip that cannot be joined has all that there is to say at its end. */
static char *
plain_note (BwProject *project, BwBenchStep step)
{
  int after = bw_project_get_design (project)->bail.rows + 1;
  if (step.join > 0)
    return join_words (project, step.join);
  if (step.in_bail)
    return bw_words_before_bail_row (project, step.row, unit ());
  if (!step.is_end)
    return bw_words_before_row (project, step.row, unit ());
  if (bw_bench_join_steps (project) > 0)
    return bw_words_before_bail_row (project, after, unit ());
  return after_the_band (project, bw_words_finish (project, unit ()));
}

char *
bw_bench_note_words (BwProject *project, BwBenchStep step)
{
  g_autofree char *plain = g_strstrip (plain_note (project, step));
  g_auto (GStrv) lines = g_strsplit (plain, "\n", -1);
  for (char **line = lines; *line; line++)
    if (g_str_has_prefix (*line, "* ")) {
      g_autofree char *told = *line;
      *line = g_strconcat ("• ", told + 2, NULL);
    }
  return g_strjoinv ("\n", lines);
}

char *
bw_bench_left (BwProject *project, BwBenchStep step)
{
  const BwDesign *design = bw_project_get_design (project);
  int left = MAX (design->band.rows - bw_project_get_rows_done (project), 0);
  int on_bail = design->bail.rows - step.row + 1;
  if (step.in_bail)
    return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%d row of the bail to go.",
                                         "%d rows of the bail to go.", (gulong)on_bail),
                            on_bail);
  if (left == 0)
    return g_strdup ("");
  return g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "%d row to go.", "%d rows to go.", (gulong)left), left);
}

const char *
bw_bench_legend (BwBenchStep step)
{
  if (step.in_bail)
    return _ ("Pale beads are woven, framed ones are the row in hand.");
  return step.join > 1 ? ""
                       : _ ("Pale beads are woven. Towards the sides the same rows are drawn once "
                            "more, fainter, as the band goes round.");
}

char *
bw_bench_duration (double seconds)
{
  int minutes = (int)lround (seconds / 60);
  if (seconds < 99.5)
    return g_strdup_printf (_ ("%.0f s"), seconds);
  if (minutes < 60)
    return g_strdup_printf (_ ("%d min"), minutes);
  return g_strdup_printf (_ ("%d h %d min"), minutes / 60, minutes % 60);
}

static char *
rows_words (const BwTryOn *try_on)
{
  int change = try_on->change;
  if (change > 0)
    return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "Weave %d more row, %d in all.",
                                         "Weave %d more rows, %d in all.", (gulong)change),
                            change, try_on->rows);
  if (change < 0)
    return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "Pick out %d row, to %d in all.",
                                         "Pick out %d rows, to %d in all.", (gulong)-change),
                            -change, try_on->rows);
  return g_strdup_printf (try_on->bed_mm > 0 ? _ ("Stay with %d rows.")
                                             : _ ("It fits: stop at %d rows and zip it up."),
                          try_on->rows);
}

/* Whoever measured amiss must know it before a row is picked out. */
static void
append_astray (GString *words, const BwTryOn *try_on)
{
  if (fabs (try_on->astray_mm) > 0) {
    g_autofree char *astray = bw_card_length (fabs (try_on->astray_mm), 1);
    g_string_append_printf (words,
                            _ ("Look at both again first: this reading lies %s from what the "
                               "measurements foretold. What follows counts the reading alone."),
                            astray);
    g_string_append_c (words, ' ');
  }
}

char *
bw_bench_try_on_words (const BwTryOn *try_on)
{
  g_autofree char *rows = rows_words (try_on);
  GString *words = g_string_new (NULL);
  append_astray (words, try_on);
  g_string_append (words, rows);
  if (try_on->pulled_mm > 0.05) {
    g_autofree char *pulled = bw_card_length (try_on->pulled_mm, 1);
    g_string_append_printf (words, _ (" Pulling closes the last %s."), pulled);
  }
  if (try_on->bed_mm > 0) {
    g_autofree char *over = bw_card_length (try_on->over_mm, 1);
    g_autofree char *bed = bw_card_length (try_on->bed_mm, 2);
    g_string_append_printf (words,
                            _ (" The band is then %s too long: a bed %s thicker takes it "
                               "up."),
                            over, bed);
  }
  if (try_on->more_bed_mm > 0) {
    g_autofree char *bed = bw_card_length (try_on->more_bed_mm, 2);
    g_string_append_printf (words,
                            _ (" That is hardly right: rather end with %d rows and wind the bed "
                               "%s thicker."),
                            try_on->rows + 2, bed);
  }
  if (try_on->stay_bed_mm > 0) {
    g_autofree char *bed = bw_card_length (try_on->stay_bed_mm, 2);
    g_string_append_printf (words, _ (" Or pick out nothing and wind the bed %s thicker."), bed);
  }
  return g_string_free (words, FALSE);
}
