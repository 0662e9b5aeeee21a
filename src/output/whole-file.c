/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A disk that fills up half way through must not leave half a sheet where a whole one was. */
#include "config.h"

#include "output/whole-file.h"

#include <glib/gi18n-lib.h>

cairo_status_t
bw_whole_file_append (void *closure, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

/* The sentences of the system repeat the path; the common cases get our own. */
static void
explain (GError **error, GError *cause, const char *path)
{
  const char *sentence = cause->message;
  if (g_error_matches (cause, G_IO_ERROR, G_IO_ERROR_NOT_FOUND))
    sentence = _ ("there is no such folder");
  else if (g_error_matches (cause, G_IO_ERROR, G_IO_ERROR_IS_DIRECTORY))
    sentence = _ ("this is a folder");
  else if (g_error_matches (cause, G_IO_ERROR, G_IO_ERROR_PERMISSION_DENIED)
           || g_error_matches (cause, G_IO_ERROR, G_IO_ERROR_READ_ONLY))
    sentence = _ ("you are not allowed to write here");
  g_set_error (error, cause->domain, cause->code, "%s: %s", path, sentence);
  g_error_free (cause);
}

gboolean
bw_whole_file_write (const GByteArray *bytes, cairo_status_t status, const char *path,
                     GError **error)
{
  GError *cause = NULL;
  g_autoptr (GFile) file = g_file_new_for_path (path);
  if (status != CAIRO_STATUS_SUCCESS)
    g_set_error_literal (&cause, G_IO_ERROR, G_IO_ERROR_FAILED, cairo_status_to_string (status));
  else
    g_file_replace_contents (file, (const char *)bytes->data, bytes->len, NULL, FALSE,
                             G_FILE_CREATE_NONE, NULL, NULL, &cause);
  if (!cause)
    return TRUE;
  explain (error, cause, path);
  return FALSE;
}
