/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A maker's file is all there is of hours of work, so it is read to the letter or not at all. The
 * parser of json-glib 1.6 takes comments and trailing commas, lets the last of two equal keys win,
 * bends large whole numbers and refuses the empty key; so the text is read here, by the grammar of
 * RFC 8259, into json-glib's tree. */
#include "config.h"

#include "project/json/json-write.h"
#include "project/json/json.h"
#include "project/fault/fault-error.h"
#include <glib/gi18n-lib.h>
#include <string.h>

/* Where the reader stands in the tree, outwards; key NULL for an element of a list. */
typedef struct Place {
  const struct Place *up;
  const char *key;
  guint index;
} Place;

typedef struct {
  const char *start, *p, *end;
  int depth;
  guint n_values, values_max;
  GError **error;
} Reader;

static JsonNode *read_value (Reader *reader, const Place *place);

char *
bw_json_pointer (const char *pointer, const char *key)
{
  GString *text = g_string_new (pointer);

  g_string_append_c (text, '/');
  for (; *key; key++)
    if (*key == '~')
      g_string_append (text, "~0");
    else if (*key == '/')
      g_string_append (text, "~1");
    else
      g_string_append_c (text, *key);
  return g_string_free (text, FALSE);
}

/* Appends the pointer of the place; FALSE when it stopped at one round it, lest it get too long. */
static gboolean
append_place (GString *pointer, const Place *place)
{
  g_autofree char *inner = NULL;

  if (!place->up)
    return TRUE;
  if (!append_place (pointer, place->up)
      || (place->key && strlen (place->key) > BW_JSON_POINTER_MAX))
    return FALSE;
  inner = place->key ? bw_json_pointer ("", place->key) : g_strdup_printf ("/%u", place->index);
  if (pointer->len + strlen (inner) > BW_JSON_POINTER_MAX)
    return FALSE;
  g_string_append (pointer, inner);
  return TRUE;
}

static char *
place_pointer (const Place *place)
{
  GString *pointer = g_string_new (NULL);

  append_place (pointer, place);
  return g_string_free (pointer, FALSE);
}

/* A fault of the grammar where the reader stands. Returns NULL. */
static JsonNode *
fail (Reader *reader, const Place *place, const char *what)
{
  g_autofree char *pointer = place_pointer (place);
  const char *line_start = reader->start;
  int line = 1;

  for (const char *p = reader->start; p < reader->p; p++)
    if (*p == '\n') {
      line++;
      line_start = p + 1;
    }
  bw_fault_set (reader->error, BW_FAULT_SYNTAX, pointer, _ ("line %d, column %d: %s"), line,
                (int)g_utf8_strlen (line_start, reader->p - line_start) + 1,
                reader->p < reader->end ? what : _ ("the file breaks off here"));
  return NULL;
}

static void
skip_spaces (Reader *reader)
{
  while (reader->p < reader->end && strchr (" \t\n\r", *reader->p) && *reader->p)
    reader->p++;
}

static gboolean
next_is (const Reader *reader, char c)
{
  return reader->p < reader->end && *reader->p == c;
}

static gboolean
take (Reader *reader, char c)
{
  if (!next_is (reader, c))
    return FALSE;
  reader->p++;
  return TRUE;
}

static gboolean
take_word (Reader *reader, const char *word)
{
  gsize n = strlen (word);

  if ((gsize)(reader->end - reader->p) < n || memcmp (reader->p, word, n) != 0)
    return FALSE;
  reader->p += n;
  return TRUE;
}

static JsonNode *
read_number (Reader *reader, const Place *place)
{
  const char *from = reader->p, *to = bw_json_scan_number (from, reader->end);

  if (!to)
    return fail (reader, place, _ ("this is not a number"));
  reader->p = to;
  return bw_json_number_as (from, (gsize)(to - from));
}

/* Four hexadecimal digits, −1 when there are none. */
static int
take_hex (Reader *reader)
{
  int value = 0;

  if (reader->end - reader->p < 4)
    return -1;
  for (int i = 0; i < 4; i++, reader->p++) {
    int digit = g_ascii_xdigit_value (*reader->p);

    if (digit < 0)
      return -1;
    value = value * 16 + digit;
  }
  return value;
}

/* After "\u". A character above U+FFFF comes as two halves; half of one is no character. */
static gboolean
take_code_point (Reader *reader, GString *text)
{
  int unit = take_hex (reader), low;

  if (unit >= 0xd800 && unit < 0xdc00) {
    low = take_word (reader, "\\u") ? take_hex (reader) : -1;
    if (low < 0xdc00 || low > 0xdfff)
      return FALSE;
    unit = 0x10000 + (unit - 0xd800) * 0x400 + (low - 0xdc00);
  }
  if (unit <= 0 || (unit >= 0xdc00 && unit <= 0xdfff))
    return FALSE;
  g_string_append_unichar (text, (gunichar)unit);
  return TRUE;
}

static gboolean
take_escape (Reader *reader, GString *text)
{
  static const char signs[] = "\"\\/bfnrt", meant[] = "\"\\/\b\f\n\r\t";
  const char *sign;

  if (reader->p == reader->end)
    return FALSE;
  if (take (reader, 'u'))
    return take_code_point (reader, text);
  sign = *reader->p ? strchr (signs, *reader->p) : NULL;
  if (!sign)
    return FALSE;
  g_string_append_c (text, meant[sign - signs]);
  reader->p++;
  return TRUE;
}

/* After the opening quotation mark. */
static char *
read_text (Reader *reader, const Place *place)
{
  g_autoptr (GString) text = g_string_new (NULL);

  while (reader->p < reader->end && *reader->p != '"') {
    const char *from = reader->p;

    if ((guchar)*reader->p < 0x20) {
      fail (reader, place, _ ("a control character stands in a text; it must be escaped"));
      return NULL;
    }
    if (!take (reader, '\\')) {
      g_string_append_c (text, *reader->p++);
    } else if (!take_escape (reader, text)) {
      reader->p = from;
      fail (reader, place, _ ("this escape stands for no character a text can hold"));
      return NULL;
    }
  }
  if (!take (reader, '"')) {
    fail (reader, place, _ ("a text does not end"));
    return NULL;
  }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static JsonNode *
read_list (Reader *reader, const Place *place)
{
  g_autoptr (JsonArray) list = json_array_new ();
  Place inner = { .up = place };

  skip_spaces (reader);
  while (!next_is (reader, ']') || inner.index > 0) {
    JsonNode *element = read_value (reader, &inner);

    if (!element)
      return NULL;
    json_array_add_element (list, element);
    inner.index++;
    skip_spaces (reader);
    if (!take (reader, ','))
      break;
  }
  if (!take (reader, ']'))
    return fail (reader, place, _ ("a comma or “]” is missing"));
  return json_node_init_array (json_node_alloc (), list);
}

static gboolean
read_member (Reader *reader, const Place *place, JsonObject *object)
{
  g_autofree char *key = NULL;
  Place inner = { .up = place };
  JsonNode *value;

  skip_spaces (reader);
  if (!take (reader, '"')) {
    fail (reader, place, _ ("a key in quotation marks must stand here"));
    return FALSE;
  }
  if (json_object_get_size (object) == BW_JSON_KEYS_MAX) {
    fail (reader, place, _ ("one object holds more keys than any project has"));
    return FALSE;
  }
  key = read_text (reader, place);
  if (!key)
    return FALSE;
  inner.key = key;
  if (json_object_has_member (object, key)) {
    fail (reader, &inner, _ ("this key stands twice"));
    return FALSE;
  }
  skip_spaces (reader);
  if (!take (reader, ':')) {
    fail (reader, &inner, _ ("“:” is missing"));
    return FALSE;
  }
  value = read_value (reader, &inner);
  if (value)
    json_object_set_member (object, key, value);
  return value != NULL;
}

static JsonNode *
read_object (Reader *reader, const Place *place)
{
  g_autoptr (JsonObject) object = json_object_new ();

  skip_spaces (reader);
  while (!next_is (reader, '}') || json_object_get_size (object) > 0) {
    if (!read_member (reader, place, object))
      return NULL;
    skip_spaces (reader);
    if (!take (reader, ','))
      break;
  }
  if (!take (reader, '}'))
    return fail (reader, place, _ ("a comma or “}” is missing"));
  return json_node_init_object (json_node_alloc (), object);
}

static JsonNode *
read_nested (Reader *reader, const Place *place,
             JsonNode *(*read) (Reader *reader, const Place *place))
{
  JsonNode *node;

  if (reader->depth == BW_JSON_DEPTH_MAX)
    return fail (reader, place, _ ("the values are nested too deep"));
  reader->p++;
  reader->depth++;
  node = read (reader, place);
  reader->depth--;
  return node;
}

static JsonNode *
read_text_node (Reader *reader, const Place *place)
{
  g_autofree char *text = NULL;

  reader->p++;
  text = read_text (reader, place);
  return text ? json_node_init_string (json_node_alloc (), text) : NULL;
}

static JsonNode *
read_value (Reader *reader, const Place *place)
{
  skip_spaces (reader);
  if (++reader->n_values > reader->values_max)
    return fail (reader, place, _ ("the file holds more values than any project has"));
  if (next_is (reader, '{'))
    return read_nested (reader, place, read_object);
  if (next_is (reader, '['))
    return read_nested (reader, place, read_list);
  if (next_is (reader, '"'))
    return read_text_node (reader, place);
  if (next_is (reader, '-') || (reader->p < reader->end && g_ascii_isdigit (*reader->p)))
    return read_number (reader, place);
  if (take_word (reader, "true"))
    return json_node_init_boolean (json_node_alloc (), TRUE);
  if (take_word (reader, "false"))
    return json_node_init_boolean (json_node_alloc (), FALSE);
  if (take_word (reader, "null"))
    return json_node_init_null (json_node_alloc ());
  return fail (reader, place, _ ("a value is missing, or this is none"));
}

/* What must hold of the bytes before any of them is looked at as JSON. */
static gboolean
check_bytes (Reader *reader, const Place *root)
{
  gsize length = (gsize)(reader->end - reader->start);
  const char *bad;

  if (length > BW_JSON_BYTES_MAX) {
    bw_fault_set (reader->error, BW_FAULT_SYNTAX, "",
                  _ ("the file holds more than %d MiB; no project is that large."),
                  BW_JSON_BYTES_MAX / (1024 * 1024));
    return FALSE;
  }
  if (take_word (reader, "\xef\xbb\xbf")) {
    bw_fault_set (reader->error, BW_FAULT_SYNTAX, "",
                  _ ("the file begins with a byte order mark; it must be UTF-8 without one."));
    return FALSE;
  }
  if (!g_utf8_validate_len (reader->start, length, &bad)) {
    reader->p = bad;
    fail (reader, root, _ ("this byte is not UTF-8 text"));
    return FALSE;
  }
  return TRUE;
}

JsonNode *
bw_json_parse (const char *data, gsize length, GError **error)
{
  return bw_json_parse_up_to (data, length, BW_JSON_VALUES_MAX, error);
}

JsonNode *
bw_json_parse_up_to (const char *data, gsize length, guint values_max, GError **error)
{
  Reader reader = {
    .start = data, .p = data, .end = data + length, .values_max = values_max, .error = error
  };
  const Place root = { 0 };
  g_autoptr (JsonNode) node = NULL;

  if (!check_bytes (&reader, &root))
    return NULL;
  skip_spaces (&reader);
  if (reader.p == reader.end) {
    bw_fault_set (error, BW_FAULT_SYNTAX, "", _ ("the file is empty."));
    return NULL;
  }
  node = read_value (&reader, &root);
  if (!node)
    return NULL;
  skip_spaces (&reader);
  if (reader.p < reader.end)
    return fail (&reader, &root, _ ("the file must end here, but something follows"));
  return g_steal_pointer (&node);
}
