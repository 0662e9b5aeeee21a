/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Short, and the same beside the needle, on the card and when read aloud. */
#include "config.h"

#include "app/bench/bench-words.h"
#include "app/form/card.h"
#include "core/base/lattice.h"
#include "output/report/report.h"
#include "output/words/words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

static int
rows_of (BwProject *project)
{
  return bw_project_get_design (project)->band.rows;
}

char *
bw_bench_name (BwProject *project, int row)
{
  int rows = rows_of (project);
  if (row > rows)
    return g_strdup_printf (_ ("All %d rows are woven"), rows);
  if (row <= 2)
    return g_strdup_printf (_ ("Pick-up, rows 1 and 2 of %d"), rows);
  return g_strdup_printf (_ ("Row %d of %d"), row, rows);
}

char *
bw_bench_title (BwProject *project, int row)
{
  g_autofree char *name = bw_bench_name (project, row);
  if (row > rows_of (project))
    return g_steal_pointer (&name);
  return g_strdup_printf ("%s %s", name, bw_words_arrow (bw_lattice_direction (row) > 0));
}

const char *
bw_bench_way (BwProject *project, int row)
{
  if (row > rows_of (project))
    return "";
  return bw_lattice_direction (row) > 0 ? _ ("upward, from the lower edge to the upper")
                                        : _ ("downward, from the upper edge to the lower");
}

char *
bw_bench_beads (BwProject *project, int row)
{
  if (row > rows_of (project))
    return g_strdup ("");
  return g_strstrip (bw_words_row (project, row));
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
