/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sentences of every fault of kind or range that a file can have, in one place. */
#include "config.h"

#include "project/file/take.h"
#include "project/document/line.h"
#include "project/fault/fault-error.h"
#include "project/json/json.h"
#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

/* Characters of a text or a number that is told as it stands. */
#define SHORT 40

char *
bw_take_describe (JsonNode *node)
{
  g_autofree char *text = NULL;

  if (JSON_NODE_HOLDS_OBJECT (node))
    return g_strdup (_ ("an object"));
  if (JSON_NODE_HOLDS_ARRAY (node))
    return g_strdup (_ ("a list"));
  if (bw_json_is_text (node) && g_utf8_strlen (json_node_get_string (node), -1) > SHORT)
    return g_strdup (_ ("a long text"));
  if (bw_json_is_number (node) && strlen (bw_json_number_text (node)) > SHORT)
    return g_strdup (_ ("a long number"));
  text = bw_json_print (node, NULL);
  return g_strdup (g_strchomp (text));
}

static gboolean
wrong_kind (JsonNode *node, const char *pointer, const char *wanted, GError **error)
{
  g_autofree char *found = bw_take_describe (node);

  /* Translators: what was found in a file, and what is needed there instead. */
  bw_fault_set (error, BW_FAULT_TYPE, pointer, _ ("%s was found; %s is needed."), found, wanted);
  return FALSE;
}

gboolean
bw_take_number (JsonNode *node, const char *pointer, double *number, GError **error)
{
  if (!bw_json_is_number (node))
    return wrong_kind (node, pointer, _ ("a number"), error);
  *number = bw_json_get_number (node);
  if (isfinite (*number))
    return TRUE;
  bw_fault_set (error, BW_FAULT_RANGE, pointer, _ ("this number is too large to hold."));
  return FALSE;
}

gboolean
bw_take_whole (JsonNode *node, const char *pointer, int lo, int hi, int *number, GError **error)
{
  g_autofree char *found = NULL;
  double value;

  if (!bw_take_number (node, pointer, &value, error))
    return FALSE;
  if (value >= lo && value <= hi && !(floor (value) < value)) {
    *number = (int)value;
    return TRUE;
  }
  found = bw_take_describe (node);
  bw_fault_set (error, BW_FAULT_RANGE, pointer,
                _ ("%s was found; a whole number from %d to %d is needed."), found, lo, hi);
  return FALSE;
}

gboolean
bw_take_text (JsonNode *node, const char *pointer, const char **text, GError **error)
{
  if (!bw_json_is_text (node))
    return wrong_kind (node, pointer, _ ("a text"), error);
  *text = json_node_get_string (node);
  return TRUE;
}

gboolean
bw_take_line (JsonNode *node, const char *pointer, const char **text, GError **error)
{
  glong length;

  if (!bw_take_text (node, pointer, text, error))
    return FALSE;
  length = g_utf8_strlen (*text, -1);
  if (length <= BW_LINE_MAX)
    return bw_line_check (*text, pointer, error);
  bw_fault_set (error, BW_FAULT_RANGE, pointer,
                _ ("a text of %ld characters was found; at most %d fit."), length, BW_LINE_MAX);
  return FALSE;
}

gboolean
bw_take_short_text (JsonNode *node, const char *pointer, char *buffer, gsize bytes, GError **error)
{
  const char *text;

  if (!bw_take_text (node, pointer, &text, error))
    return FALSE;
  if (strlen (text) >= bytes) {
    bw_fault_set (error, BW_FAULT_RANGE, pointer,
                  _ ("a text of %d bytes was found; at most %d fit."), (int)strlen (text),
                  (int)bytes - 1);
    return FALSE;
  }
  if (!bw_line_check (text, pointer, error))
    return FALSE;
  strcpy (buffer, text);
  return TRUE;
}

gboolean
bw_take_word (JsonNode *node, const char *pointer, const char *const *words, int *index,
              GError **error)
{
  g_autofree char *found = NULL, *allowed = NULL;
  const char *text;

  if (!bw_take_text (node, pointer, &text, error))
    return FALSE;
  for (int i = 0; words[i]; i++)
    if (g_str_equal (text, words[i])) {
      *index = i;
      return TRUE;
    }
  found = bw_take_describe (node);
  allowed = g_strjoinv (", ", (char **)words);
  bw_fault_set (error, BW_FAULT_RANGE, pointer, _ ("%s was found; allowed are: %s."), found,
                allowed);
  return FALSE;
}

gboolean
bw_take_numbers (JsonNode *node, const char *pointer, double *numbers, int n, GError **error)
{
  JsonArray *list = bw_take_list (node, pointer, error);

  if (!list)
    return FALSE;
  if (json_array_get_length (list) != (guint)n) {
    bw_fault_set (error, BW_FAULT_RANGE, pointer,
                  _ ("a list of length %u was found; one of length %d is needed."),
                  json_array_get_length (list), n);
    return FALSE;
  }
  for (int i = 0; i < n; i++) {
    g_autofree char *inner = g_strdup_printf ("%s/%d", pointer, i);

    if (!bw_take_number (json_array_get_element (list, (guint)i), inner, &numbers[i], error))
      return FALSE;
  }
  return TRUE;
}

JsonArray *
bw_take_list (JsonNode *node, const char *pointer, GError **error)
{
  if (JSON_NODE_HOLDS_ARRAY (node))
    return json_node_get_array (node);
  wrong_kind (node, pointer, _ ("a list"), error);
  return NULL;
}

JsonObject *
bw_take_object (JsonNode *node, const char *pointer, GError **error)
{
  if (JSON_NODE_HOLDS_OBJECT (node))
    return json_node_get_object (node);
  wrong_kind (node, pointer, _ ("an object"), error);
  return NULL;
}

JsonNode *
bw_take_required (JsonObject *object, const char *pointer, const char *key, GError **error)
{
  JsonNode *node = json_object_get_member (object, key);

  if (!node) {
    g_autofree char *inner = bw_json_pointer (pointer, key);

    bw_fault_set (error, BW_FAULT_MISSING, inner, _ ("this key is missing, and it is needed."));
  }
  return node;
}

JsonObject *
bw_take_unknown (JsonObject *object, const char *const *known)
{
  g_autoptr (JsonObject) unknown = json_object_new ();
  JsonObjectIter iter;
  const char *key;
  JsonNode *value;

  json_object_iter_init_ordered (&iter, object);
  while (json_object_iter_next_ordered (&iter, &key, &value))
    if (!g_strv_contains (known, key))
      json_object_set_member (unknown, key, json_node_copy (value));
  return json_object_get_size (unknown) > 0 ? g_steal_pointer (&unknown) : NULL;
}
