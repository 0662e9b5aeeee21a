/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What can go wrong with a file, in plain sentences. */
#include "config.h"

#include "output/page/whole-file.h"

#include "project/file/save-whole.h"

#include <glib/gi18n-lib.h>

cairo_status_t
bw_whole_file_append (void *closure, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

/* The sentences of the system speak of the file beside; the common cases get our own. */
static const char *
sentence_of (const GError *cause)
{
  switch (cause->domain == G_IO_ERROR ? cause->code : G_IO_ERROR_FAILED) {
  case G_IO_ERROR_NOT_FOUND:
  case G_IO_ERROR_NOT_DIRECTORY:
    return _ ("there is no such folder");
  case G_IO_ERROR_IS_DIRECTORY:
    return _ ("this is a folder");
  case G_IO_ERROR_INVALID_ARGUMENT:
    return _ ("this is no ordinary file");
  case G_IO_ERROR_PERMISSION_DENIED:
  case G_IO_ERROR_READ_ONLY:
    return _ ("you are not allowed to write here");
  case G_IO_ERROR_NO_SPACE:
    return _ ("the disk is full");
  default:
    return cause->message;
  }
}

gboolean
bw_whole_file_write_data (const char *data, gsize length, const char *path, GError **error)
{
  g_autoptr (GError) cause = NULL;
  if (bw_save_whole (path, data, length, &cause))
    return TRUE;
  g_set_error (error, cause->domain, cause->code, "%s: %s", path, sentence_of (cause));
  return FALSE;
}

gboolean
bw_whole_file_write (const GByteArray *bytes, cairo_status_t status, const char *path,
                     GError **error)
{
  if (status == CAIRO_STATUS_SUCCESS)
    return bw_whole_file_write_data ((const char *)bytes->data, bytes->len, path, error);
  g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED, "%s: %s", path,
               cairo_status_to_string (status));
  return FALSE;
}
