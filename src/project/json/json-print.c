/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The file is text that people read, compare and keep under version control: one layout, one way to
 * write each number, whatever the user's locale. */
#include "config.h"

#include "project/json/json.h"
#include <math.h>
#include <string.h>

static void print_node (GString *text, JsonNode *node, int indent, gboolean in_list);

/* The fewest digits that read back as the same double. */
static void
append_shortest (GString *text, double number)
{
  char digits[G_ASCII_DTOSTR_BUF_SIZE], format[8];
  double back;
  int precision = 0;

  do {
    g_snprintf (format, sizeof format, "%%.%dg", ++precision);
    g_ascii_formatd (digits, sizeof digits, format, number);
    back = g_ascii_strtod (digits, NULL);
  } while (precision < 17 && memcmp (&back, &number, sizeof back) != 0);
  g_string_append (text, digits);
}

static void
print_text (GString *text, const char *string)
{
  g_string_append_c (text, '"');
  for (const char *p = string; *p; p++)
    if (*p == '"' || *p == '\\')
      g_string_append_printf (text, "\\%c", *p);
    else if (*p == '\n')
      g_string_append (text, "\\n");
    else if (*p == '\t')
      g_string_append (text, "\\t");
    else if ((guchar)*p < 0x20 || *p == 0x7f)
      g_string_append_printf (text, "\\u%04x", (guint)*p);
    else
      g_string_append_c (text, *p);
  g_string_append_c (text, '"');
}

/* A double that happens to be whole keeps a sign that it is one. */
static void
print_double (GString *text, double number)
{
  char digits[G_ASCII_DTOSTR_BUF_SIZE];

  if (fabs (number) < 1e15 && !(floor (number) < number))
    g_string_append (text, g_ascii_formatd (digits, sizeof digits, "%.1f", number));
  else
    append_shortest (text, number);
}

static void
print_plain (GString *text, JsonNode *node)
{
  if (JSON_NODE_HOLDS_NULL (node))
    g_string_append (text, "null");
  else if (json_node_get_value_type (node) == G_TYPE_STRING)
    print_text (text, json_node_get_string (node));
  else if (json_node_get_value_type (node) == G_TYPE_BOOLEAN)
    g_string_append (text, json_node_get_boolean (node) ? "true" : "false");
  else if (json_node_get_value_type (node) == G_TYPE_INT64)
    g_string_append_printf (text, "%" G_GINT64_FORMAT, json_node_get_int (node));
  else
    print_double (text, json_node_get_double (node));
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

    if (is_nested (element) || json_node_get_value_type (element) == G_TYPE_STRING)
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
    print_text (text, key);
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

JsonNode *
bw_json_number (double number)
{
  gboolean whole = number >= -1e15 && number <= 1e15 && !(floor (number) < number)
                   && !(number >= 0 && signbit (number));

  return whole ? json_node_init_int (json_node_alloc (), (gint64)number)
               : json_node_init_double (json_node_alloc (), number);
}
