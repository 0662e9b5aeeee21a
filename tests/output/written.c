/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "written.h"

#include <string.h>

void
write_at (JsonObject *file, const char *pointer, JsonNode *value)
{
  g_auto (GStrv) steps = g_strsplit (pointer + 1, "/", -1);
  JsonObject *at = file;
  guint last = g_strv_length (steps) - 1;
  for (guint i = 0; i < last; i++) {
    if (!json_object_has_member (at, steps[i]))
      json_object_set_object_member (at, steps[i], json_object_new ());
    at = json_object_get_object_member (at, steps[i]);
  }
  if (JSON_NODE_HOLDS_NULL (value))
    json_object_remove_member (at, steps[last]);
  else
    json_object_set_member (at, steps[last], json_node_copy (value));
}

JsonObject *
parse (const char *text)
{
  g_autoptr (JsonNode) node = json_from_string (text, NULL);
  assert_non_null (node);
  return json_object_ref (json_node_get_object (node));
}

char *
print (JsonObject *object)
{
  g_autoptr (JsonNode) node = json_node_init_object (json_node_alloc (), object);
  return json_to_string (node, FALSE);
}

BwProject *
load (const char *data)
{
  g_autoptr (GError) error = NULL;
  BwProject *project = bw_project_load_data (data, strlen (data), &error);
  if (!project)
    fail_msg ("%s", error->message);
  return project;
}

void
write_all (JsonObject *file, JsonArray *changes)
{
  for (guint i = 0; i < json_array_get_length (changes); i++) {
    JsonObject *pair = json_array_get_object_element (changes, i);
    write_at (file, json_object_get_string_member (pair, "key"),
              json_object_get_member (pair, "value"));
  }
}
