/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Loading and saving. A load gives a whole project or none; a save leaves the old file or the new
 * one, never half of either, whatever fails in between. */
#include "config.h"

#include "project/json/json.h"
#include "project/project-private.h"
#include "project/file/reader.h"
#include "project/file/save-whole.h"

#define CHUNK_BYTES 65536

BwProject *
bw_project_load_data (const char *data, gsize length, GError **error)
{
  g_autoptr (JsonNode) root = bw_json_parse (data, length, error);
  BwDocument *document = root ? bw_document_from_json (root, error) : NULL;

  return document ? bw_project_new_for_document (document) : NULL;
}

/* Reads a file to its end, or to where it is longer than any project. */
static GByteArray *
read_bytes (GFile *file, GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  g_autoptr (GFileInputStream) stream = g_file_read (file, NULL, error);
  gssize n;

  if (!stream)
    return NULL;
  do {
    guint8 chunk[CHUNK_BYTES];

    n = g_input_stream_read (G_INPUT_STREAM (stream), chunk, sizeof chunk, NULL, error);
    if (n < 0)
      return NULL;
    g_byte_array_append (bytes, chunk, (guint)n);
  } while (n > 0 && bytes->len <= BW_JSON_BYTES_MAX);
  return g_steal_pointer (&bytes);
}

BwProject *
bw_project_load (GFile *file, GError **error)
{
  g_autoptr (GByteArray) bytes = read_bytes (file, error);
  BwProject *self
      = bytes ? bw_project_load_data ((const char *)bytes->data, bytes->len, error) : NULL;

  if (self)
    bw_project_set_file (self, file);
  return self;
}

char *
bw_project_to_data (BwProject *self, gsize *length)
{
  g_autoptr (JsonNode) root = NULL;
  BwTrialAside aside = { 0 };

  bw_project_trial_aside (self, &aside);
  root = bw_document_to_json (self->document);
  bw_project_trial_back (self, &aside);
  return bw_json_print (root, length);
}

gboolean
bw_project_save (BwProject *self, GFile *file, GError **error)
{
  g_autofree char *path = g_file_get_path (file);
  gsize length;
  g_autofree char *data = bw_project_to_data (self, &length);
  gboolean saved = path ? bw_save_whole (path, data, length, error)
                        : g_file_replace_contents (file, data, length, NULL, FALSE,
                                                   G_FILE_CREATE_NONE, NULL, NULL, error);

  if (saved) {
    bw_project_set_file (self, file);
    bw_project_set_modified (self, FALSE);
  }
  return saved;
}
