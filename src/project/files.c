/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Loading and saving. A load gives a whole project or none; a save leaves the old file or the new
 * one, never half of either, whatever fails in between. */
#include "config.h"

#include "project/json/json.h"
#include "project/project-private.h"
#include "project/file/reader.h"
#include "project/file/read-whole.h"

#include <glib/gi18n-lib.h>

BwProject *
bw_project_load_data (const char *data, gsize length, GError **error)
{
  g_autoptr (JsonNode) root = bw_json_parse (data, length, error);
  BwDocument *document = root ? bw_document_from_json (root, error) : NULL;

  return document ? bw_project_new_for_document (document) : NULL;
}

BwProject *
bw_project_load_stoppable (GFile *file, GCancellable *stop, int *per_mille, GError **error)
{
  BwStamp stamp;
  g_autoptr (GByteArray) bytes
      = bw_read_whole (file, BW_JSON_BYTES_MAX, stop, per_mille, &stamp, error);
  BwProject *self
      = bytes ? bw_project_load_data ((const char *)bytes->data, bytes->len, error) : NULL;

  if (self) {
    bw_project_set_file (self, file);
    self->stamp = stamp;
  }
  return self;
}

BwProject *
bw_project_load (GFile *file, GError **error)
{
  return bw_project_load_stoppable (file, NULL, NULL, error);
}

char *
bw_project_to_data (BwProject *self, gsize *length)
{
  g_autoptr (JsonNode) root = bw_document_to_json (self->document);

  return bw_json_print (root, length);
}

BwFileState
bw_project_look_at_file (BwProject *self)
{
  g_autofree char *path = self->file ? g_file_get_path (self->file) : NULL;

  return path ? bw_stamp_look (&self->stamp, path) : BW_FILE_SAME;
}

/* Its own file, unless another program has changed it: elsewhere nobody expects what is there. */
static gboolean
may_be_saved (BwProject *self, GFile *file, guint how, GError **error)
{
  gboolean own = self->file && g_file_equal (self->file, file);

  if (how & BW_SAVE_OVER || !own || bw_project_look_at_file (self) != BW_FILE_CHANGED)
    return TRUE;
  g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_WRONG_ETAG,
                       _ ("another program has changed it since it was opened here"));
  return FALSE;
}

gboolean
bw_project_save_how (BwProject *self, GFile *file, guint how, guint *lost, GError **error)
{
  gboolean own = self->file && g_file_equal (self->file, file);
  const char *etag = own && !(how & BW_SAVE_OVER) ? self->stamp.etag : NULL;
  g_autofree char *data = NULL;
  BwSaved saved;
  gsize length;

  if (!may_be_saved (self, file, how, error))
    return FALSE;
  data = bw_project_to_data (self, &length);
  if (!bw_save_file (file, data, length, how, etag, &saved, error))
    return FALSE;
  bw_project_set_file (self, file);
  self->stamp = saved.stamp;
  bw_project_set_modified (self, FALSE);
  if (lost)
    *lost = saved.lost;
  return TRUE;
}

gboolean
bw_project_save (BwProject *self, GFile *file, GError **error)
{
  return bw_project_save_how (self, file, BW_SAVE_PLAIN, NULL, error);
}
