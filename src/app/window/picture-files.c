/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/window/picture-files.h"

#include "preview/fine/turntable.h"
#include "project/file/save-whole.h"

static GFile *
numbered_file (GFile *file, int i)
{
  g_autofree char *name = g_file_get_basename (file), *with_number = bw_turntable_name (name, i);
  g_autoptr (GFile) folder = g_file_get_parent (file);
  return g_file_get_child (folder, with_number);
}

GFile *
bw_picture_files_taken (GFile *file, int n)
{
  for (int i = 0; i < n; i++) {
    GFile *taken = numbered_file (file, i);
    if (g_file_query_exists (taken, NULL))
      return taken;
    g_object_unref (taken);
  }
  return NULL;
}

gboolean
bw_picture_files_write (GFile *file, GPtrArray *pictures, gboolean numbered, GFile **last,
                        GError **error)
{
  gboolean written = TRUE;
  *last = NULL;
  for (guint i = 0; written && i < pictures->len; i++) {
    gsize size;
    const char *bytes = g_bytes_get_data (g_ptr_array_index (pictures, i), &size);
    g_clear_object (last);
    *last = numbered ? numbered_file (file, (int)i) : g_object_ref (file);
    written = bw_save_file (*last, bytes, size, BW_SAVE_PLAIN, NULL, NULL, error);
  }
  return written;
}
