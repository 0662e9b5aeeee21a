/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "output/report/report-finished.h"

#include "output/report/csv.h"

#include <glib/gi18n-lib.h>

#define N_FIELDS 12

static void
add_record (GString *text, const BwWoven *piece)
{
  const BwWovenEnd *end = &piece->end;
  const BwDone *done = &end->done;
  g_autofree char *rows = bw_csv_number (end->rows, TRUE);
  g_autofree char *planned = bw_csv_number (done->planned, done->planned > 0);
  g_autofree char *told = bw_csv_number (done->told, done->planned > 0);
  g_autofree char *hours = bw_csv_number (done->hours, done->hours > 0);
  g_autofree char *cost = bw_csv_number (end->cost, end->cost > 0);
  g_autofree char *price = bw_csv_number (done->price, done->price > 0);
  const char *fields[N_FIELDS] = { piece->date,
                                   piece->title,
                                   piece->bead,
                                   rows,
                                   planned,
                                   told,
                                   hours,
                                   cost,
                                   price,
                                   end->currency,
                                   bw_fate_words[done->fate],
                                   done->picture };
  bw_csv_record (text, fields, N_FIELDS);
}

char *
bw_report_finished_csv (const BwBook *book)
{
  const char *heads[N_FIELDS] = { _ ("day"),
                                  _ ("title"),
                                  _ ("bead"),
                                  _ ("rows"),
                                  _ ("rows planned"),
                                  _ ("chance told"),
                                  _ ("hours"),
                                  _ ("cost"),
                                  _ ("price"),
                                  _ ("currency"),
                                  _ ("kept, sold or given"),
                                  _ ("picture") };
  GString *text = g_string_new (NULL);
  bw_csv_record (text, heads, N_FIELDS);
  for (guint i = 0; i < bw_book_n_pieces (book); i++)
    if (bw_book_get_piece (book, i)->has_end)
      add_record (text, bw_book_get_piece (book, i));
  return g_string_free (text, FALSE);
}
