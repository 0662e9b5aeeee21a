/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A document that shares nothing with the one it was made from: neither our reference counts nor
 * those of the JSON tree may be touched from two threads. */
#include "config.h"

#include "project/document/document.h"

static JsonNode *copy_node (JsonNode *node);

static JsonObject *
copy_object (JsonObject *from)
{
  JsonObject *copy = json_object_new ();
  JsonObjectIter iter;
  const char *key;
  JsonNode *value;

  json_object_iter_init_ordered (&iter, from);
  while (json_object_iter_next_ordered (&iter, &key, &value))
    json_object_set_member (copy, key, copy_node (value));
  return copy;
}

static JsonArray *
copy_array (JsonArray *from)
{
  JsonArray *copy = json_array_sized_new (json_array_get_length (from));

  for (guint i = 0; i < json_array_get_length (from); i++)
    json_array_add_element (copy, copy_node (json_array_get_element (from, i)));
  return copy;
}

static JsonNode *
copy_value (JsonNode *node)
{
  JsonNode *copy = json_node_new (JSON_NODE_VALUE);
  GValue value = G_VALUE_INIT;

  json_node_get_value (node, &value);
  json_node_set_value (copy, &value);
  g_value_unset (&value);
  return copy;
}

static JsonNode *
copy_node (JsonNode *node)
{
  JsonNode *copy;

  switch (json_node_get_node_type (node)) {
  case JSON_NODE_OBJECT:
    copy = json_node_new (JSON_NODE_OBJECT);
    json_node_take_object (copy, copy_object (json_node_get_object (node)));
    return copy;
  case JSON_NODE_ARRAY:
    copy = json_node_new (JSON_NODE_ARRAY);
    json_node_take_array (copy, copy_array (json_node_get_array (node)));
    return copy;
  case JSON_NODE_VALUE:
    return copy_value (node);
  case JSON_NODE_NULL:
  default:
    return json_node_new (JSON_NODE_NULL);
  }
}

static void
copy_extras (JsonObject **copy, JsonObject *const *from, int n)
{
  for (int i = 0; i < n; i++)
    copy[i] = from[i] ? copy_object (from[i]) : NULL;
}

static BwTrayValue *
copy_tray (const BwTrayValue *from)
{
  BwTrayValue *copy = bw_tray_value_new ();

  copy->tray = from->tray;
  copy_extras (copy->extra, from->extra, BW_TRAY_MAX);
  return copy;
}

static BwProgress *
copy_progress (const BwProgress *from)
{
  BwProgress *copy = bw_progress_new ();

  *copy = *from;
  copy_extras (copy->extra, from->extra, BW_CHECKS_MAX);
  copy_extras (&copy->tried_extra, &from->tried_extra, 1);
  copy_extras (&copy->done_extra, &from->done_extra, 1);
  return copy;
}

static BwMotifs *
copy_motifs (const BwMotifs *from)
{
  BwMotifs *copy = bw_motifs_new ();

  *copy = *from;
  copy_extras (copy->extra, from->extra, BW_MADE_MAX);
  return copy;
}

BwDocument *
bw_document_copy (const BwDocument *from)
{
  BwDocument *copy = bw_document_new ();
  GHashTableIter iter;
  gpointer pointer, object;

  bw_head_clear (&copy->head);
  copy->head = (BwHead){
    .frame = bw_frame_new (from->head.frame),
    .tray = copy_tray (from->head.tray),
    .text = bw_text_with_title (from->head.text, from->head.text->title),
    .progress = copy_progress (from->head.progress),
    .motifs = copy_motifs (from->head.motifs),
  };
  for (int c = 0; c < BW_N_CANVASES; c++)
    copy->drawing[c] = from->drawing[c] ? bw_drawing_copy (from->drawing[c]) : NULL;
  copy->id = g_strdup (from->id);
  g_hash_table_iter_init (&iter, from->extras);
  while (g_hash_table_iter_next (&iter, &pointer, &object))
    g_hash_table_insert (copy->extras, g_strdup (pointer), copy_object (object));
  return copy;
}
