/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "output/report/report-calibrate.h"

#include "output/report/report-parts.h"

#include <glib/gi18n-lib.h>

static void
answer_tenths (BwAnswer *json, const BwCalibration *found)
{
  bw_answer_open_array (json, "tenths");
  for (int i = 0; i < 10; i++) {
    bw_answer_open_object (json, NULL);
    bw_answer_count (json, "n", (guint64)found->told[i]);
    bw_answer_number_if (json, found->told[i] > 0, "told", found->chance[i]);
    bw_answer_number_if (json, found->told[i] > 0, "came", found->came[i]);
    bw_answer_close (json);
  }
  bw_answer_close (json);
}

static char *
calibration_json (const BwCalibration *found)
{
  gboolean pieces = found->pieces > 0, finished = found->finished > 0;
  BwAnswer json;
  bw_answer_init (&json);
  bw_answer_count (&json, "pieces", (guint64)found->pieces);
  bw_answer_number_if (&json, pieces, "mean_z", found->mean_z);
  bw_answer_number_if (&json, pieces, "sd_z", found->sd_z);
  bw_answer_number_if (&json, pieces, "within_1_sd", found->within_one);
  bw_answer_number_if (&json, pieces, "within_2_sd", found->within_two);
  bw_answer_count (&json, "finished", (guint64)found->finished);
  bw_answer_number_if (&json, finished, "right_told", found->right_told);
  bw_answer_number_if (&json, finished, "right_came", found->right_came);
  answer_tenths (&json, found);
  return bw_answer_finish (&json);
}

static char *
percent (double share)
{
  return g_strdup_printf (_ ("%.0f %%"), 100 * share);
}

static void
text_pieces (GString *text, const BwCalibration *found)
{
  g_autofree char *sentence = g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE,
                   "%d piece was foretold from those before it: %.0f %% lay within the error told, "
                   "%.0f %% within twice that. Told well these are 68 %% and 95 %%.",
                   "%d pieces were foretold from those before them: %.0f %% lay within the error "
                   "told, %.0f %% within twice that. Told well these are 68 %% and 95 %%.",
                   (gulong)found->pieces),
      found->pieces, 100 * found->within_one, 100 * found->within_two);
  bw_text_item (text, sentence);
}

static void
text_finished (GString *text, const BwCalibration *found)
{
  g_autofree char *sentence
      = g_strdup_printf (_ ("By the hands alone the likeliest row count was right for %.0f %% of "
                            "those finished; %.0f %% were promised."),
                         100 * found->right_came, 100 * found->right_told);
  g_auto (BwTable) table = { 0 };
  bw_text_item (text, sentence);
  bw_table_init (&table, "rrr");
  bw_table_add (&table, g_strdup (_ ("chance told")), g_strdup (_ ("came true")),
                g_strdup (_ ("counts told")));
  for (int i = 0; i < 10; i++)
    if (found->told[i] > 0)
      bw_table_add (&table, percent (found->chance[i]), percent (found->came[i]),
                    bw_text_count ((guint64)found->told[i]));
  g_string_append_c (text, '\n');
  bw_table_write (&table, text, 0);
}

char *
bw_report_calibrate (const BwBook *book, gboolean json)
{
  BwCalibration found;
  bw_book_calibrate (&found, book);
  if (json)
    return calibration_json (&found);
  GString *text = g_string_new (NULL);
  if (found.pieces == 0)
    bw_text_paragraph (text, _ ("Nothing was foretold yet: it takes a second piece in the book."));
  else
    text_pieces (text, &found);
  if (found.finished > 0)
    text_finished (text, &found);
  return bw_text_done (text);
}
