/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "project/book/stash-json.h"

#include "project/book/book-keys.h"
#include "project/file/reader.h"
#include "project/file/take.h"
#include "project/json/json.h"

#include <string.h>

static const char *const amount_keys[] = {
  [BW_STASH_BY_GRAMS] = "grams", [BW_STASH_BY_LENGTH] = "length_mm", [BW_STASH_BY_COUNT] = "count"
};

static gboolean
read_what (JsonObject *element, const char *pointer, BwStashWhat *what, GError **error)
{
  JsonNode *node = bw_take_required (element, pointer, "what", error);
  g_autofree char *inner = bw_json_pointer (pointer, "what");
  int index;

  if (!node || !bw_take_word (node, inner, bw_stash_words, &index, error))
    return FALSE;
  *what = (BwStashWhat)index;
  return TRUE;
}

static gboolean
read_beads (JsonObject *element, const char *pointer, BwStashItem *item, GError **error)
{
  item->has_srgb = json_object_has_member (element, "srgb");
  return bw_key_read_text (element, pointer, "bead", item->bead, sizeof item->bead, error)
         && bw_read_srgb (element, pointer, &item->srgb, error)
         && bw_read_finish (element, pointer, &item->finish, error);
}

gboolean
bw_stash_read (JsonObject *element, const char *pointer, BwStashItem *item, GError **error)
{
  memset (item, 0, sizeof *item);
  return read_what (element, pointer, &item->what, error)
         && bw_take_required (element, pointer, "name", error)
         && bw_key_read_text (element, pointer, "name", item->name, sizeof item->name, error)
         && (item->what != BW_STASH_BEADS || read_beads (element, pointer, item, error))
         && bw_key_read_text (element, pointer, "article", item->article, sizeof item->article,
                              error)
         && bw_key_read_text (element, pointer, "lot", item->lot, sizeof item->lot, error)
         && bw_key_read_text (element, pointer, "note", item->note, sizeof item->note, error)
         && (bw_stash_measure (item->what) != BW_STASH_BY_LENGTH
             || bw_key_read_number (element, pointer, "width_mm", &item->width_mm, error))
         && bw_key_need_number (element, pointer, amount_keys[bw_stash_measure (item->what)],
                                &item->amount, error)
         && bw_stash_item_validate (item, pointer, error);
}

static void
write_beads (const BwStashItem *item, JsonObject *element)
{
  g_autofree char *srgb = g_strdup_printf ("#%06x", item->srgb & 0xffffff);

  bw_key_write_text (element, "bead", item->bead);
  bw_key_write_text (element, "srgb", item->has_srgb ? srgb : "");
  json_object_set_string_member (element, "finish", bw_finish_word (item->finish));
}

void
bw_stash_write (const BwStashItem *item, JsonObject *element)
{
  BwStashMeasure measure = bw_stash_measure (item->what);

  json_object_set_string_member (element, "what", bw_stash_words[item->what]);
  json_object_set_string_member (element, "name", item->name);
  if (item->what == BW_STASH_BEADS)
    write_beads (item, element);
  bw_key_write_text (element, "article", item->article);
  bw_key_write_text (element, "lot", item->lot);
  if (measure == BW_STASH_BY_LENGTH)
    bw_key_write_known (element, "width_mm", item->width_mm);
  bw_key_write_number (element, amount_keys[measure], item->amount);
  bw_key_write_text (element, "note", item->note);
}
