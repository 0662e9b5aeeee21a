/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Written beside, synced and renamed: a disk that fills up half way through must not leave half a
 * file where a whole one was, nor half a file at all. */
#include "config.h"

#include "project/file/save-whole.h"

#include <errno.h>
#include <fcntl.h>
#include <gio/gio.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <sys/stat.h>
#include <unistd.h>

#define LINKS_MAX 40 /* as many as the kernel follows */

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

gboolean
bw_save_whole (const char *path, const char *data, gsize length, GError **error)
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
