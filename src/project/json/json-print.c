/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The file is text that people read, compare and keep under version control: one layout, one way to
 * write each number, whatever the user's locale. */
#include "config.h"

#include "project/json/json-write.h"
#include "project/json/json.h"

static void print_node (GString *text, JsonNode *node, int indent, gboolean in_list);

/* No UTF-8 text begins with this byte, and no part of JSON is anything but UTF-8. */
#define NUMBER_SIGN '\xff'

static void
print_plain (GString *text, JsonNode *node)
{
  if (JSON_NODE_HOLDS_NULL (node))
    g_string_append (text, "null");
  else if (bw_json_is_number (node))
    g_string_append (text, bw_json_number_text (node));
  else if (bw_json_is_text (node))
    bw_json_append_text (text, json_node_get_string (node));
  else
    g_string_append (text, json_node_get_boolean (node) ? "true" : "false");
}

static gboolean
is_nested (JsonNode *node)
{
  return JSON_NODE_HOLDS_OBJECT (node) || JSON_NODE_HOLDS_ARRAY (node);
}

static void
break_line (GString *text, int indent)
{
  g_string_append_printf (text, "\n%*s", indent, "");
}

static gboolean
list_takes_one_line (JsonArray *list)
{
  for (guint i = 0; i < json_array_get_length (list); i++) {
    JsonNode *element = json_array_get_element (list, i);

    if (is_nested (element) || bw_json_is_text (element))
      return FALSE;
  }
  return TRUE;
}

static void
print_list (GString *text, JsonArray *list, int indent)
{
  gboolean one_line = list_takes_one_line (list);

  g_string_append_c (text, '[');
  for (guint i = 0; i < json_array_get_length (list); i++) {
    if (i > 0)
      g_string_append (text, one_line ? ", " : ",");
    if (!one_line)
      break_line (text, indent + 2);
    print_node (text, json_array_get_element (list, i), indent + 2, TRUE);
  }
  if (!one_line)
    break_line (text, indent);
  g_string_append_c (text, ']');
}

static gboolean
object_takes_one_line (JsonObject *object)
{
  JsonObjectIter iter;
  const char *key; /* json-glib 1.6 wants a place for it */
  JsonNode *value;

  json_object_iter_init_ordered (&iter, object);
  while (json_object_iter_next_ordered (&iter, &key, &value))
    if (is_nested (value))
      return FALSE;
  return TRUE;
}

static void
print_object (GString *text, JsonObject *object, int indent, gboolean in_list)
{
  gboolean one_line
      = json_object_get_size (object) == 0 || (in_list && object_takes_one_line (object));
  JsonObjectIter iter;
  const char *key;
  JsonNode *value;
  int n = 0;

  g_string_append (text, one_line && json_object_get_size (object) > 0 ? "{ " : "{");
  json_object_iter_init_ordered (&iter, object);
  while (json_object_iter_next_ordered (&iter, &key, &value)) {
    if (n++ > 0)
      g_string_append (text, one_line ? ", " : ",");
    if (!one_line)
      break_line (text, indent + 2);
    bw_json_append_text (text, key);
    g_string_append (text, ": ");
    print_node (text, value, indent + 2, FALSE);
  }
  if (!one_line)
    break_line (text, indent);
  g_string_append (text, one_line && n > 0 ? " }" : "}");
}

static void
print_node (GString *text, JsonNode *node, int indent, gboolean in_list)
{
  if (JSON_NODE_HOLDS_OBJECT (node))
    print_object (text, json_node_get_object (node), indent, in_list);
  else if (JSON_NODE_HOLDS_ARRAY (node))
    print_list (text, json_node_get_array (node), indent);
  else
    print_plain (text, node);
}

char *
bw_json_print (JsonNode *root, gsize *length)
{
  GString *text = g_string_new (NULL);

  print_node (text, root, 0, FALSE);
  g_string_append_c (text, '\n');
  if (length)
    *length = text->len;
  return g_string_free (text, FALSE);
}

static const char *
held_text (JsonNode *node)
{
  return JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_STRING
             ? json_node_get_string (node)
             : NULL;
}

gboolean
bw_json_is_number (JsonNode *node)
{
  const char *text = held_text (node);

  return text && *text == NUMBER_SIGN;
}

gboolean
bw_json_is_text (JsonNode *node)
{
  const char *text = held_text (node);

  return text && *text != NUMBER_SIGN;
}

const char *
bw_json_number_text (JsonNode *node)
{
  g_return_val_if_fail (bw_json_is_number (node), "0");
  return held_text (node) + 1;
}

double
bw_json_get_number (JsonNode *node)
{
  return g_ascii_strtod (bw_json_number_text (node), NULL);
}

JsonNode *
bw_json_number_as (const char *text, gsize length)
{
  g_autoptr (GString) held = g_string_new (NULL);

  g_string_append_c (held, NUMBER_SIGN);
  g_string_append_len (held, text, (gssize)length);
  return json_node_init_string (json_node_alloc (), held->str);
}

JsonNode *
bw_json_number (double number)
{
  g_autoptr (GString) text = g_string_new (NULL);

  bw_json_append_number (text, number);
  return bw_json_number_as (text->str, text->len);
}
