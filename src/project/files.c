/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Loading and saving. A load gives a whole project or none; a save leaves the old file or the new
 * one, never half of either, whatever fails in between. */
#include "config.h"

#include "json.h"
#include "project-private.h"
#include "reader.h"
#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <sys/stat.h>
#include <unistd.h>

#define LINKS_MAX 40 /* as many as the kernel follows */
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

/* The file a chain of symbolic links ends at, which need not exist: the links are kept. */
static char *
follow_links (const char *path)
{
  char *target = g_strdup (path);

  for (int i = 0; i < LINKS_MAX; i++) {
    g_autofree char *link = g_file_read_link (target, NULL);
    g_autofree char *folder = NULL, *from = target;

    if (!link) {
      from = NULL;
      break;
    }
    folder = g_path_get_dirname (from);
    target = g_path_is_absolute (link) ? g_strdup (link) : g_build_filename (folder, link, NULL);
  }
  return target;
}

/* g_file_set_contents_full() speaks G_FILE_ERROR; callers were promised G_IO_ERROR. */
static GIOErrorEnum
io_error_of (const GError *error)
{
  switch (error->domain == G_FILE_ERROR ? error->code : G_FILE_ERROR_FAILED) {
  case G_FILE_ERROR_NOENT:
    return G_IO_ERROR_NOT_FOUND;
  case G_FILE_ERROR_ACCES:
  case G_FILE_ERROR_PERM:
    return G_IO_ERROR_PERMISSION_DENIED;
  case G_FILE_ERROR_ROFS:
    return G_IO_ERROR_READ_ONLY;
  case G_FILE_ERROR_NOSPC:
    return G_IO_ERROR_NO_SPACE;
  case G_FILE_ERROR_NOTDIR:
    return G_IO_ERROR_NOT_DIRECTORY;
  default:
    return G_IO_ERROR_FAILED;
  }
}

static gboolean
fail_with_errno (int number, const char *path, GError **error)
{
  g_autofree char *name = g_filename_display_name (path);

  g_set_error (error, G_IO_ERROR, (int)g_io_error_from_errno (number), _ ("%s cannot be saved: %s"),
               name, g_strerror (number));
  return FALSE;
}

/* Written beside, synced and renamed. A file that the user may not write is not replaced either,
 * though its folder might allow it; the permissions of an old file stay. */
static gboolean
save_local (const char *path, const char *data, gsize length, GError **error)
{
  g_autofree char *target = follow_links (path);
  g_autoptr (GError) inner = NULL;
  gboolean exists;
  struct stat old;

  exists = stat (target, &old) == 0;
  if (!exists && errno != ENOENT)
    return fail_with_errno (errno, target, error);
  if (exists && !S_ISREG (old.st_mode))
    return fail_with_errno (S_ISDIR (old.st_mode) ? EISDIR : EINVAL, target, error);
  if (exists && faccessat (AT_FDCWD, target, W_OK, AT_EACCESS) != 0)
    return fail_with_errno (errno, target, error);
  if (!g_file_set_contents_full (target, data, (gssize)length,
                                 G_FILE_SET_CONTENTS_CONSISTENT | G_FILE_SET_CONTENTS_DURABLE,
                                 exists ? (int)(old.st_mode & 07777) : 0666, &inner)) {
    g_set_error_literal (error, G_IO_ERROR, (int)io_error_of (inner), inner->message);
    return FALSE;
  }
  if (exists && chmod (target, old.st_mode & 07777) != 0)
    return fail_with_errno (errno, target, error);
  return TRUE;
}

gboolean
bw_project_save (BwProject *self, GFile *file, GError **error)
{
  g_autofree char *path = g_file_get_path (file);
  gsize length;
  g_autofree char *data = bw_project_to_data (self, &length);
  gboolean saved = path ? save_local (path, data, length, error)
                        : g_file_replace_contents (file, data, length, NULL, FALSE,
                                                   G_FILE_CREATE_NONE, NULL, NULL, error);

  if (saved) {
    bw_project_set_file (self, file);
    bw_project_set_modified (self, FALSE);
  }
  return saved;
}
