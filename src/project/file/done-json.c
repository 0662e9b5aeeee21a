/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "project/file/done-json.h"

#include "core/base/limits.h"
#include "project/file/take.h"
#include "project/json/json.h"

const char *const bw_done_keys[]
    = { "rows", "planned", "told", "hours", "price", "picture", "sold", NULL };

static gboolean
read_number (JsonObject *object, const char *pointer, const char *key, double *number,
             GError **error)
{
  JsonNode *node = json_object_get_member (object, key);
  g_autofree char *at = bw_json_pointer (pointer, key);

  return !node || bw_take_number (node, at, number, error);
}

static gboolean
read_rows (JsonObject *object, const char *pointer, BwDone *done, GError **error)
{
  JsonNode *rows = bw_take_required (object, pointer, "rows", error);
  JsonNode *planned = json_object_get_member (object, "planned");
  g_autofree char *at = bw_json_pointer (pointer, "rows");
  g_autofree char *planned_at = bw_json_pointer (pointer, "planned");

  return rows && bw_take_whole (rows, at, 1, BW_ROWS_MAX, &done->rows, error)
         && (!planned
             || (bw_take_whole (planned, planned_at, 1, BW_ROWS_MAX, &done->planned, error)
                 && bw_take_required (object, pointer, "told", error)));
}

static gboolean
read_texts (JsonObject *object, const char *pointer, BwDone *done, GError **error)
{
  JsonNode *picture = json_object_get_member (object, "picture");
  JsonNode *sold = json_object_get_member (object, "sold");
  g_autofree char *picture_at = bw_json_pointer (pointer, "picture");
  g_autofree char *sold_at = bw_json_pointer (pointer, "sold");
  int fate = BW_FATE_KEPT;

  if ((picture
       && !bw_take_short_text (picture, picture_at, done->picture, sizeof done->picture, error))
      || (sold && !bw_take_word (sold, sold_at, bw_fate_words, &fate, error)))
    return FALSE;
  done->fate = (BwFate)fate;
  return TRUE;
}

gboolean
bw_read_done (JsonObject *object, const char *pointer, BwDone *done, GError **error)
{
  return read_rows (object, pointer, done, error)
         && read_number (object, pointer, "told", &done->told, error)
         && read_number (object, pointer, "hours", &done->hours, error)
         && read_number (object, pointer, "price", &done->price, error)
         && read_texts (object, pointer, done, error);
}

static void
write_number (JsonObject *object, const char *key, double number, gboolean known)
{
  if (known)
    json_object_set_member (object, key, bw_json_number (number));
  else if (json_object_has_member (object, key))
    json_object_remove_member (object, key);
}

static void
write_text (JsonObject *object, const char *key, const char *text, gboolean known)
{
  if (known)
    json_object_set_string_member (object, key, text);
  else if (json_object_has_member (object, key))
    json_object_remove_member (object, key);
}

void
bw_write_done (const BwDone *done, JsonObject *object)
{
  write_number (object, "rows", done->rows, TRUE);
  write_number (object, "planned", done->planned, done->planned > 0);
  write_number (object, "told", done->told, done->planned > 0);
  write_number (object, "hours", done->hours, done->hours > 0);
  write_number (object, "price", done->price, done->price > 0);
  write_text (object, "picture", done->picture, *done->picture != '\0');
  write_text (object, "sold", bw_fate_words[done->fate],
              done->fate != BW_FATE_KEPT || json_object_has_member (object, "sold"));
}
