/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "output/report/report-hands.h"

#include "output/report/give-words.h"
#include "output/report/report-parts.h"

#include <glib/gi18n-lib.h>

static BwHandsPitch
pitch_of (const BwBookKind *kind)
{
  return bw_hands_pitch (kind->next, kind->diameter_mm);
}

static void
answer_kind (BwAnswer *json, const BwBookKind *kind)
{
  BwHandsPitch pitch = pitch_of (kind);
  bw_answer_open_object (json, NULL);
  bw_answer_string (json, "name", kind->name);
  bw_answer_number (json, "diameter_mm", kind->diameter_mm);
  bw_answer_count (json, "pieces", (guint64)kind->pieces);
  bw_answer_number (json, "pitch_mm", pitch.mm);
  bw_answer_number (json, "pitch_sd_mm", pitch.sd_mm);
  bw_answer_close (json);
}

/* What threads, or cords, are known to give, by size; in the last place one never used before. */
static void
answer_gives (BwAnswer *json, const char *key, const char *size_key, const BwBookGives *gives)
{
  bw_answer_open_array (json, key);
  for (int k = 0; gives->pieces > 0 && k <= gives->n_kinds; k++) {
    gboolean known = k < gives->n_kinds;
    BwGive next = known ? gives->kinds[k].next : gives->new_kind;
    bw_answer_open_object (json, NULL);
    bw_answer_number_if (json, known, size_key, known ? gives->kinds[k].mm : 0);
    bw_answer_count (json, "pieces", known ? (guint64)gives->kinds[k].pieces : 0);
    bw_answer_number (json, "share", next.share);
    bw_answer_number (json, "sd", next.sd);
    bw_answer_close (json);
  }
  bw_answer_close (json);
}

static char *
hands_json (const BwBookHands *hands)
{
  BwAnswer json;
  bw_answer_init (&json);
  bw_answer_open_object (&json, "sd");
  bw_answer_number (&json, "hands", hands->spread.hands);
  bw_answer_number (&json, "kind", hands->spread.kind);
  bw_answer_number (&json, "piece", hands->spread.piece);
  bw_answer_close (&json);
  bw_answer_boolean (&json, "fitted", hands->fitted);
  bw_answer_open_object (&json, "hands");
  bw_answer_number (&json, "mean", hands->hands.mean);
  bw_answer_number (&json, "sd", hands->hands.sd);
  bw_answer_close (&json);
  bw_answer_open_array (&json, "kinds");
  for (int k = 0; k < hands->n_kinds; k++)
    answer_kind (&json, &hands->kinds[k]);
  bw_answer_close (&json);
  answer_gives (&json, "stretch", "thread_mm", &hands->stretch);
  answer_gives (&json, "squeeze", "cord_width_mm", &hands->squeeze);
  return bw_answer_finish (&json);
}

static void
add_kind (BwTable *table, const BwBookKind *kind)
{
  BwHandsPitch pitch = pitch_of (kind);
  g_autofree char *mm = bw_text_number (pitch.mm, 3), *sd = bw_text_number (pitch.sd_mm, 3);
  bw_table_add (table, g_strdup (*kind->name ? kind->name : "–"), bw_text_mm (kind->diameter_mm, 2),
                bw_text_count ((guint64)kind->pieces), g_strdup_printf (_ ("%s ± %s mm"), mm, sd));
}

static char *
tightness_sentence (const BwBookHands *hands)
{
  double share = 100 * hands->hands.mean, sd = 100 * hands->hands.sd;
  return g_strdup_printf (share < 0 ? _ ("You set beads %.1f %% closer than their size says, give "
                                         "or take %.1f %%.")
                                    : _ ("You set beads %.1f %% wider than their size says, give "
                                         "or take %.1f %%."),
                          ABS (share), sd);
}

static const char *
spread_sentence (gboolean fitted)
{
  return fitted ? _ ("How much pieces differ is learnt from your own.")
                : _ ("How much pieces differ is what is usual; from 20 pieces on it is learnt from "
                     "your own.");
}

static void
add_gives (GString *text, const BwBookGives *gives, char *(*words) (const BwBookGive *, BwUnit))
{
  for (int k = 0; k < gives->n_kinds; k++) {
    g_autofree char *sentence = words (&gives->kinds[k], BW_UNIT_MM);
    bw_text_item (text, sentence);
  }
}

char *
bw_report_hands (const BwBook *book, gboolean json)
{
  g_auto (BwBookHands) hands = { 0 };
  g_auto (BwTable) table = { 0 };
  bw_book_hands_init (&hands, book);
  if (json)
    return hands_json (&hands);
  GString *text = g_string_new (NULL);
  if (hands.n_kinds == 0) {
    g_string_append (text, _ ("Nothing is written in the book yet.\n"));
    return bw_text_done (text);
  }
  g_autofree char *tightness = tightness_sentence (&hands);
  bw_table_init (&table, "lrrr");
  bw_table_add (&table, g_strdup (_ ("bead")), g_strdup (_ ("size")), g_strdup (_ ("pieces")),
                g_strdup (_ ("next piece, bead to bead")));
  for (int k = 0; k < hands.n_kinds; k++)
    add_kind (&table, &hands.kinds[k]);
  bw_table_write (&table, text, 0);
  g_string_append_c (text, '\n');
  bw_text_item (text, tightness);
  bw_text_item (text, spread_sentence (hands.fitted));
  add_gives (text, &hands.stretch, bw_give_words_thread);
  add_gives (text, &hands.squeeze, bw_give_words_cord);
  return bw_text_done (text);
}
