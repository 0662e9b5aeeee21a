/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The command line wants the path before the sentence. */
#include "config.h"

#include "output/page/whole-file.h"

#include "project/file/save-whole.h"

cairo_status_t
bw_whole_file_append (void *closure, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

gboolean
bw_whole_file_write_data (const char *data, gsize length, const char *path, GError **error)
{
  g_autoptr (GError) cause = NULL;
  if (bw_save_whole (path, data, length, BW_SAVE_PLAIN, NULL, &cause))
    return TRUE;
  g_autofree char *name = g_filename_display_name (path);
  g_set_error (error, cause->domain, cause->code, "%s: %s", name, cause->message);
  return FALSE;
}

gboolean
bw_whole_file_write (const GByteArray *bytes, cairo_status_t status, const char *path,
                     GError **error)
{
  if (status == CAIRO_STATUS_SUCCESS)
    return bw_whole_file_write_data ((const char *)bytes->data, bytes->len, path, error);
  g_autofree char *name = g_filename_display_name (path);
  g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED, "%s: %s", name,
               cairo_status_to_string (status));
  return FALSE;
}
