/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "output/report/report-beads.h"

#include "output/report/csv.h"
#include "output/report/report-parts.h"
#include "project/book/book-beads.h"

#include <glib/gi18n-lib.h>

#define N_FIELDS 12

void
bw_report_book_head (BwAnswer *json)
{
  bw_answer_string (json, "format", "bandwright-book");
  bw_answer_count (json, "version", 1);
}

static void
answer_finishes (BwAnswer *json, guint finishes)
{
  bw_answer_open_array (json, "finishes");
  for (int i = 0; i < BW_N_FINISHES; i++)
    if (finishes & 1u << i)
      bw_answer_string (json, NULL, bw_finish_word ((BwFinish)i));
  bw_answer_close (json);
}

/* The keys of the book, and those of a project's "bead" among them. */
static void
answer_kind (BwAnswer *json, const BwBeadKind *kind)
{
  BwBead bead = bw_bead_kind_bead (kind);
  bw_answer_open_object (json, NULL);
  bw_answer_string (json, "name", bead.name);
  bw_answer_number (json, "diameter_mm", bead.diameter_mm);
  bw_answer_number (json, "length_mm", bead.length_mm);
  bw_answer_number (json, "hole_mm", bead.hole_mm);
  bw_answer_number (json, "glass_g_cm3", bead.glass_g_cm3);
  bw_answer_number (json, "per_100_g", 100 * bw_bead_mass_g (&bead));
  answer_finishes (json, kind->finishes);
  bw_answer_string (json, "article", kind->article);
  if (kind->price > 0) {
    bw_answer_number (json, "price", kind->price);
    bw_answer_number (json, "pack_g", kind->pack_g);
    bw_answer_string (json, "currency", kind->currency);
  }
  bw_answer_string (json, "lot", kind->lot);
  bw_answer_string (json, "note", kind->note);
  bw_answer_close (json);
}

static void
add_kind (BwTable *table, const BwBeadKind *kind)
{
  BwBead bead = bw_bead_kind_bead (kind);
  bw_table_add (table, g_strdup (bead.name), bw_text_mm (bead.diameter_mm, 2),
                bw_text_mm (bead.length_mm, 2), bw_text_mm (bead.hole_mm, 2),
                bw_text_number (100 * bw_bead_mass_g (&bead), 2), g_strdup (kind->article));
}

static void
add_head (BwTable *table)
{
  bw_table_init (table, "lrrrrl");
  bw_table_add (table, g_strdup (_ ("bead")), g_strdup (_ ("diameter")), g_strdup (_ ("length")),
                g_strdup (_ ("hole")), g_strdup (_ ("grams of 100")), g_strdup (_ ("article no.")));
}

/* All, or the one at `only`. */
static char *
beads_json (const BwBook *book, int only)
{
  BwAnswer json;
  bw_answer_init (&json);
  bw_report_book_head (&json);
  bw_answer_open_array (&json, "beads");
  for (guint i = 0; i < bw_book_n_beads (book); i++) {
    BwBeadKind kind;
    bw_book_get_bead (book, i, &kind);
    if (only < 0 || (guint)only == i)
      answer_kind (&json, &kind);
  }
  return bw_answer_finish (&json);
}

static char *
beads_text (const BwBook *book, int only)
{
  g_auto (BwTable) table = { 0 };
  GString *text = g_string_new (NULL);
  if (bw_book_n_beads (book) == 0) {
    g_string_append (text, _ ("No bead of your own is in the book yet.\n"));
    return bw_text_done (text);
  }
  add_head (&table);
  for (guint i = 0; i < bw_book_n_beads (book); i++) {
    BwBeadKind kind;
    bw_book_get_bead (book, i, &kind);
    if (only < 0 || (guint)only == i)
      add_kind (&table, &kind);
  }
  bw_table_write (&table, text, 0);
  return bw_text_done (text);
}

char *
bw_report_beads (const BwBook *book, const char *name, gboolean json)
{
  int only = name ? bw_book_find_bead (book, name) : -1;
  if (name && only < 0)
    return NULL;
  return json ? beads_json (book, only) : beads_text (book, only);
}

/* --- CSV ---------------------------------------------------------------------------------------
 */

static char *
finishes_words (guint finishes)
{
  g_autoptr (GPtrArray) words = g_ptr_array_new ();
  for (int i = 0; i < BW_N_FINISHES; i++)
    if (finishes & 1u << i)
      g_ptr_array_add (words, (gpointer)bw_finish_word ((BwFinish)i));
  g_ptr_array_add (words, NULL);
  return g_strjoinv (" ", (char **)words->pdata);
}

static void
add_record (GString *text, const BwBeadKind *kind)
{
  const BwBead *bead = &kind->bead;
  g_autofree char *thick = bw_csv_number (bead->diameter_mm, TRUE),
                  *price = bw_csv_number (kind->price, kind->price > 0);
  g_autofree char *along = bw_csv_number (bead->length_mm, TRUE),
                  *pack = bw_csv_number (kind->pack_g, kind->pack_g > 0);
  g_autofree char *hole = bw_csv_number (bead->hole_mm, TRUE);
  g_autofree char *hundred = bw_csv_number (kind->per_100_g, kind->per_100_g > 0);
  g_autofree char *finishes = finishes_words (kind->finishes);
  const char *fields[N_FIELDS]
      = { bead->name,    thick, along, hole,           hundred,   finishes,
          kind->article, price, pack,  kind->currency, kind->lot, kind->note };
  bw_csv_record (text, fields, N_FIELDS);
}

char *
bw_report_beads_csv (const BwBook *book)
{
  static const char *const heads[N_FIELDS]
      = { "name",    "diameter mm", "length mm", "hole mm",  "grams of 100", "finishes",
          "article", "price",       "for grams", "currency", "lot",          "note" };
  GString *text = g_string_new (NULL);
  bw_csv_record (text, heads, N_FIELDS);
  for (guint i = 0; i < bw_book_n_beads (book); i++) {
    BwBeadKind kind;
    bw_book_get_bead (book, i, &kind);
    add_record (text, &kind);
  }
  return g_string_free (text, FALSE);
}
