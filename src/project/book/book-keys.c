/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "project/book/book-keys.h"

#include "project/file/take.h"
#include "project/json/json.h"

gboolean
bw_key_read_text (JsonObject *object, const char *pointer, const char *key, char *buffer,
                  gsize bytes, GError **error)
{
  JsonNode *node = json_object_get_member (object, key);
  g_autofree char *inner = bw_json_pointer (pointer, key);

  return !node || bw_take_short_text (node, inner, buffer, bytes, error);
}

gboolean
bw_key_read_number (JsonObject *object, const char *pointer, const char *key, double *number,
                    GError **error)
{
  JsonNode *node = json_object_get_member (object, key);
  g_autofree char *inner = bw_json_pointer (pointer, key);

  return !node || bw_take_number (node, inner, number, error);
}

gboolean
bw_key_need_number (JsonObject *object, const char *pointer, const char *key, double *number,
                    GError **error)
{
  return bw_take_required (object, pointer, key, error)
         && bw_key_read_number (object, pointer, key, number, error);
}

void
bw_key_write_number (JsonObject *object, const char *key, double number)
{
  json_object_set_member (object, key, bw_json_number (number));
}

void
bw_key_write_known (JsonObject *object, const char *key, double number)
{
  if (number > 0)
    bw_key_write_number (object, key, number);
  else
    bw_key_drop (object, key);
}

void
bw_key_write_text (JsonObject *object, const char *key, const char *text)
{
  if (*text)
    json_object_set_string_member (object, key, text);
  else
    bw_key_drop (object, key);
}

void
bw_key_drop (JsonObject *object, const char *key)
{
  if (json_object_has_member (object, key))
    json_object_remove_member (object, key);
}

gboolean
bw_key_same_objects (JsonObject *a, JsonObject *b)
{
  g_autoptr (JsonNode) one = json_node_init_object (json_node_alloc (), a);
  g_autoptr (JsonNode) other = json_node_init_object (json_node_alloc (), b);
  g_autofree char *text = bw_json_print (one, NULL), *other_text = bw_json_print (other, NULL);

  json_object_unref (a);
  json_object_unref (b);
  return g_str_equal (text, other_text);
}
