/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The pitch decides, more than the girth: these words lead to a swatch and to the try-on. */
#include "config.h"

#include "app/fit/sure-words.h"

#include "output/report/help-words.h"

#include <glib/gi18n-lib.h>

#define HELPS_SHOWN 3 /* more than that nobody does before weaving */

/* One more reading: its weight on the pitch adds to the precision there is. The 0.3 mm are the
 * error of a length as bw_gauge_pitch() has it (common practice, no source). */
double
bw_sure_sd_after (const BwDesign *design, int rows)
{
  const double error_mm = 0.3;
  double weight = (rows + 1) / 2.0 / error_mm;
  double sd = design->pitch.sd_mm;
  return 1 / sqrt (1 / (sd * sd) + weight * weight);
}

static double
chance (const BwDesign *design, const BwStone *stone, double sd_mm)
{
  return 100 * bw_forecast_chance_with (design, stone, sd_mm, design->stone.girth_sd_mm);
}

char *
bw_sure_words_chance (const BwDesign *design, const BwStone *stone, int try_on_row)
{
  double now = chance (design, stone, design->pitch.sd_mm);
  double tried = chance (design, stone, bw_sure_sd_after (design, try_on_row));
  if (design->gauge.has_swatch)
    return g_strdup_printf (
        _ ("Right first time: %.0f %% now, %.0f %% once the strip is measured at row %d."), now,
        tried, try_on_row);
  double swatch = chance (design, stone, bw_sure_sd_after (design, BW_SWATCH_ROWS));
  return g_strdup_printf (
      _ ("Right first time: %.0f %% now, %.0f %% with a swatch, %.0f %% once the "
         "strip is measured at row %d."),
      now, swatch, tried, try_on_row);
}

char *
bw_sure_words_helps (const BwDesign *design, const BwStone *stone, int try_on_row, int rows_done)
{
  BwHelps helps;
  bw_helps_init (&helps, design, stone);
  bw_helps_drop_past (&helps, rows_done);
  if (helps.n == 0 && rows_done >= try_on_row)
    return g_strdup_printf (_ ("Right first time: %.0f %%."),
                            chance (design, stone, design->pitch.sd_mm));
  if (helps.n == 0)
    return bw_sure_words_chance (design, stone, try_on_row);
  GString *words = g_string_new (NULL);
  g_string_append_printf (words, _ ("Right first time: %.0f %%. What helps most:"),
                          100 * helps.now);
  for (int i = 0; i < MIN (helps.n, HELPS_SHOWN); i++) {
    g_autofree char *what = bw_help_words (&helps.help[i]);
    g_string_append_c (words, '\n');
    /* Translators: what to measure, and the chance to be right first time then. */
    g_string_append_printf (words, _ ("%s: %.0f %%"), what, 100 * helps.help[i].chance);
  }
  return g_string_free (words, FALSE);
}

char *
bw_sure_words_gain (const BwDesign *before, const BwDesign *after, const BwStone *stone)
{
  return g_strdup_printf (_ ("Right first time: %.0f %% instead of %.0f %%."),
                          chance (after, stone, after->pitch.sd_mm),
                          chance (before, stone, before->pitch.sd_mm));
}
