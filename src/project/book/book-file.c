/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The lock is a file of its own beside the book: the book itself is replaced by every change, and a
 * lock on what was replaced holds nobody back. It stays there; removing it would let two programs
 * hold two locks of one name. */
#include "config.h"

#include "project/book/book-file.h"
#include "project/book/book-private.h"
#include "project/file/io-words.h"
#include "project/file/read-whole.h"
#include "project/file/save-whole.h"
#include "project/json/json.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <sys/file.h>
#include <unistd.h>

char *
bw_book_usual_path (void)
{
  return g_build_filename (g_get_user_data_dir (), "bandwright", "bandwright-book.json", NULL);
}

BwBook *
bw_book_load (const char *path, GError **error)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GError) failure = NULL;
  BwStamp stamp;
  g_autoptr (GByteArray) bytes
      = bw_read_whole (file, BW_JSON_BYTES_MAX, NULL, NULL, &stamp, &failure);

  if (bytes)
    return bw_book_from_data ((const char *)bytes->data, bytes->len, error);
  if (g_error_matches (failure, G_IO_ERROR, G_IO_ERROR_NOT_FOUND))
    return bw_book_new ();
  g_propagate_error (error, g_steal_pointer (&failure));
  return NULL;
}

/* −1 with an error. Waits until no other program holds it. */
static int
take_lock (const char *path, GError **error)
{
  g_autofree char *name = g_strconcat (path, ".lock", NULL);
  int fd = g_open (name, O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0600), failed;

  if (fd < 0) {
    bw_io_fail (errno, BW_IO_WRITE, error);
    return -1;
  }
  do
    failed = flock (fd, LOCK_EX) != 0 ? errno : 0;
  while (failed == EINTR);
  /* A disk without locks has no two programs' worth of safety to give; the change goes on. */
  if (failed == 0 || failed == ENOLCK || failed == EOPNOTSUPP)
    return fd;
  bw_io_fail (failed, BW_IO_WRITE, error);
  close (fd);
  return -1;
}

static gboolean
change_locked (const char *path, BwBookEdit edit, gpointer data, GError **error)
{
  g_autoptr (BwBook) book = bw_book_load (path, error);
  g_autofree char *text = NULL;
  gsize length;

  if (!book || !edit (book, data, error))
    return FALSE;
  text = bw_book_to_data (book, &length);
  return bw_save_whole (path, text, length, BW_SAVE_PRIVATE | BW_SAVE_BACKUP, NULL, error);
}

gboolean
bw_book_change (const char *path, BwBookEdit edit, gpointer data, GError **error)
{
  g_autofree char *folder = g_path_get_dirname (path);
  gboolean changed;
  int lock;

  if (g_mkdir_with_parents (folder, 0700) != 0) {
    bw_io_fail (errno, BW_IO_WRITE, error);
    return FALSE;
  }
  lock = take_lock (path, error);
  if (lock < 0)
    return FALSE;
  changed = change_locked (path, edit, data, error);
  close (lock);
  return changed;
}
