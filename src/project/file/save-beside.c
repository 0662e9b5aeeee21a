/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The name does not depend on the file's: one of 255 bytes can be saved like any other. */
#include "config.h"

#include "project/file/save-beside.h"
#include "project/file/io-words.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#define LETTERS 8
#define TRIES 100
#define DAY_S (24 * 60 * 60)

/* A name nobody has. Owned. */
static char *
new_name (const char *folder)
{
  static const char letters[] = "abcdefghijklmnopqrstuvwxyz0123456789";
  char name[sizeof BW_BESIDE_PREFIX + LETTERS] = BW_BESIDE_PREFIX;
  char *end = name + strlen (name);

  for (int i = 0; i < LETTERS; i++)
    *end++ = letters[g_random_int_range (0, sizeof letters - 1)];
  return g_build_filename (folder, name, NULL);
}

static gboolean
is_our_name (const char *name)
{
  return g_str_has_prefix (name, BW_BESIDE_PREFIX)
         && strlen (name) == strlen (BW_BESIDE_PREFIX) + LETTERS;
}

/* A sweeper that came between the making and the lock has taken the name away again. Where the disk
 * has no locks, age alone protects the file. */
static gboolean
lock (int fd)
{
  struct stat status;

  if (flock (fd, LOCK_EX | LOCK_NB) != 0)
    return errno != EWOULDBLOCK;
  return fstat (fd, &status) == 0 && status.st_nlink > 0;
}

gboolean
bw_beside_open (BwBeside *beside, const char *folder, gboolean own, GError **error)
{
  for (int i = 0; i < TRIES; i++) {
    beside->path = new_name (folder);
    beside->fd = g_open (beside->path, O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW,
                         own ? 0600 : 0666);
    if (beside->fd >= 0 && lock (beside->fd))
      return TRUE;
    if (beside->fd < 0 && errno != EEXIST)
      break;
    bw_beside_clear (beside);
    errno = EBUSY;
  }
  bw_io_fail (errno, BW_IO_WRITE, error);
  g_clear_pointer (&beside->path, g_free);
  return FALSE;
}

/* A disk with nothing to sync says EINVAL. */
static gboolean
sync_all (int fd)
{
  int result;

  do
    result = fsync (fd);
  while (result != 0 && errno == EINTR);
  return result == 0 || errno == EINVAL;
}

gboolean
bw_beside_write (BwBeside *beside, const char *data, gsize length, GError **error)
{
  while (length > 0) {
    gssize n = write (beside->fd, data, length);

    if (n < 0 && errno == EINTR)
      continue;
    if (n <= 0) {
      bw_io_fail (n < 0 ? errno : EIO, BW_IO_WRITE, error);
      return FALSE;
    }
    data += n;
    length -= (gsize)n;
  }
  return TRUE;
}

/* Only then does the new name outlive a power cut; where it cannot be had the old one does. */
static void
sync_folder (const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);
  int fd = g_open (folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC, 0);

  if (fd < 0)
    return;
  fsync (fd);
  close (fd);
}

gboolean
bw_beside_put (BwBeside *beside, const char *path, struct stat *now, GError **error)
{
  if (!sync_all (beside->fd) || fstat (beside->fd, now) != 0
      || g_rename (beside->path, path) != 0) {
    bw_io_fail (errno, BW_IO_WRITE, error);
    return FALSE;
  }
  g_clear_pointer (&beside->path, g_free);
  sync_folder (path);
  return TRUE;
}

void
bw_beside_clear (BwBeside *beside)
{
  if (beside->path)
    g_unlink (beside->path);
  if (beside->fd >= 0)
    close (beside->fd);
  g_free (beside->path);
  *beside = BW_BESIDE_NONE;
}

char *
bw_beside_link (const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);
  g_autofree char *name = new_name (folder);

  return link (path, name) == 0 ? g_steal_pointer (&name) : NULL;
}

/* Ours and nobody's: what can be locked has no writer. */
static gboolean
is_left_over (int fd)
{
  struct stat status;

  if (fstat (fd, &status) != 0 || !S_ISREG (status.st_mode) || status.st_uid != geteuid ())
    return FALSE;
  if (flock (fd, LOCK_EX | LOCK_NB) == 0)
    return TRUE;
  return errno != EWOULDBLOCK
         && status.st_mtim.tv_sec + DAY_S < g_get_real_time () / G_USEC_PER_SEC;
}

void
bw_beside_sweep (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);

  for (const char *name; dir && (name = g_dir_read_name (dir));) {
    g_autofree char *path = NULL;
    int fd;

    if (!is_our_name (name))
      continue;
    path = g_build_filename (folder, name, NULL);
    fd = g_open (path, O_RDWR | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC, 0);
    if (fd < 0)
      continue;
    if (is_left_over (fd))
      g_unlink (path);
    close (fd);
  }
}
