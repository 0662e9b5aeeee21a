/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "output/report/report-stash.h"

#include "output/report/csv.h"
#include "output/report/report-beads.h"
#include "output/report/report-parts.h"
#include "project/book/book-stash.h"

#include <glib/gi18n-lib.h>

#define N_FIELDS 11
#define MM_PER_M 1000

/* The keys of the book. */
static void
answer_item (BwAnswer *json, const BwStashItem *item)
{
  static const char *const amounts[] = {
    [BW_STASH_BY_GRAMS] = "grams", [BW_STASH_BY_LENGTH] = "length_mm", [BW_STASH_BY_COUNT] = "count"
  };
  g_autofree char *srgb = g_strdup_printf ("#%06x", item->srgb);
  bw_answer_open_object (json, NULL);
  bw_answer_string (json, "what", bw_stash_words[item->what]);
  bw_answer_string (json, "name", item->name);
  if (item->what == BW_STASH_BEADS) {
    bw_answer_string (json, "bead", item->bead);
    if (item->has_srgb)
      bw_answer_string (json, "srgb", srgb);
    bw_answer_string (json, "finish", bw_finish_word (item->finish));
  }
  if (item->width_mm > 0)
    bw_answer_number (json, "width_mm", item->width_mm);
  bw_answer_number (json, amounts[bw_stash_measure (item->what)], item->amount);
  bw_answer_string (json, "article", item->article);
  bw_answer_string (json, "lot", item->lot);
  bw_answer_string (json, "note", item->note);
  bw_answer_close (json);
}

static char *
stash_json (const BwBook *book)
{
  BwAnswer json;
  bw_answer_init (&json);
  bw_report_book_head (&json);
  bw_answer_open_array (&json, "stash");
  for (guint i = 0; i < bw_book_n_stash (book); i++) {
    BwStashItem item;
    bw_book_get_stash (book, i, &item);
    answer_item (&json, &item);
  }
  return bw_answer_finish (&json);
}

static char *
amount_words (const BwStashItem *item)
{
  BwStashMeasure measure = bw_stash_measure (item->what);
  g_autofree char *number
      = bw_text_number (measure == BW_STASH_BY_LENGTH ? item->amount / MM_PER_M : item->amount,
                        measure == BW_STASH_BY_COUNT ? 0 : 2);
  if (measure == BW_STASH_BY_COUNT)
    return g_steal_pointer (&number);
  return g_strdup_printf ("%s %s", number, measure == BW_STASH_BY_GRAMS ? "g" : "m");
}

static void
add_item (BwTable *table, const BwStashItem *item)
{
  gboolean beads = item->what == BW_STASH_BEADS;
  bw_table_add (table, g_strdup (bw_stash_words[item->what]), g_strdup (item->name),
                g_strdup (item->bead), g_strdup (beads ? _ (bw_finish_word (item->finish)) : ""),
                amount_words (item), g_strdup (item->article));
}

static char *
stash_text (const BwBook *book)
{
  g_auto (BwTable) table = { 0 };
  GString *text = g_string_new (NULL);
  if (bw_book_n_stash (book) == 0) {
    g_string_append (text, _ ("Nothing is in the stash yet.\n"));
    return bw_text_done (text);
  }
  bw_table_init (&table, "llllrl");
  bw_table_add (&table, g_strdup (_ ("what")), g_strdup (_ ("name")), g_strdup (_ ("bead")),
                g_strdup (_ ("finish")), g_strdup (_ ("there")), g_strdup (_ ("article no.")));
  for (guint i = 0; i < bw_book_n_stash (book); i++) {
    BwStashItem item;
    bw_book_get_stash (book, i, &item);
    add_item (&table, &item);
  }
  bw_table_write (&table, text, 0);
  return bw_text_done (text);
}

char *
bw_report_stash (const BwBook *book, gboolean json)
{
  return json ? stash_json (book) : stash_text (book);
}

/* --- CSV ---------------------------------------------------------------------------------------
 */

static void
add_record (GString *text, const BwStashItem *item)
{
  static const char *const units[]
      = { [BW_STASH_BY_GRAMS] = "g", [BW_STASH_BY_LENGTH] = "m", [BW_STASH_BY_COUNT] = "pieces" };
  BwStashMeasure measure = bw_stash_measure (item->what);
  gboolean beads = item->what == BW_STASH_BEADS;
  double amount = measure == BW_STASH_BY_LENGTH ? item->amount / MM_PER_M : item->amount;
  g_autofree char *much = bw_csv_number (amount, TRUE);
  g_autofree char *width = bw_csv_number (item->width_mm, item->width_mm > 0);
  g_autofree char *srgb = item->has_srgb ? g_strdup_printf ("#%06x", item->srgb) : NULL;
  const char *fields[N_FIELDS] = { bw_stash_words[item->what],
                                   item->name,
                                   item->bead,
                                   beads ? bw_finish_word (item->finish) : NULL,
                                   srgb,
                                   width,
                                   much,
                                   units[measure],
                                   item->article,
                                   item->lot,
                                   item->note };
  bw_csv_record (text, fields, N_FIELDS);
}

char *
bw_report_stash_csv (const BwBook *book)
{
  static const char *const heads[N_FIELDS]
      = { "what",   "name", "bead",    "finish", "colour", "width mm",
          "amount", "unit", "article", "lot",    "note" };
  GString *text = g_string_new (NULL);
  bw_csv_record (text, heads, N_FIELDS);
  for (guint i = 0; i < bw_book_n_stash (book); i++) {
    BwStashItem item;
    bw_book_get_stash (book, i, &item);
    add_record (text, &item);
  }
  return g_string_free (text, FALSE);
}
