/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The kernel's file lock tells the living from the dead, so that a second running program's copies
 * are never taken away. */
#include "config.h"

#include "app/keep/recovery-folder.h"
#include "project/file/save-beside.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>
#include <utime.h>

#define COPY ".bandwright"
#define INFO ".info"
#define TRIES 5
#define DAY_S (24 * 60 * 60)

char *
bw_recovery_folder (void)
{
  return g_build_filename (g_get_user_state_dir (), "bandwright", "recovery", NULL);
}

char *
bw_recovery_discarded_folder (void)
{
  return g_build_filename (g_get_user_state_dir (), "bandwright", "discarded", NULL);
}

/* A name with another ending. Owned. */
static char *
other_ending (const char *path, const char *old, const char *ending)
{
  g_autofree char *stem = g_strndup (path, strlen (path) - strlen (old));
  return g_strconcat (stem, ending, NULL);
}

char *
bw_recovery_info_of (const char *copy)
{
  return other_ending (copy, COPY, INFO);
}

/* A sweeper may have taken the name away before the lock was had. */
static gboolean
is_still_there (const char *path, int fd)
{
  struct stat named, open;
  return stat (path, &named) == 0 && fstat (fd, &open) == 0 && named.st_ino == open.st_ino
         && named.st_dev == open.st_dev;
}

BwLock
bw_recovery_lock (const char *info, int *fd)
{
  for (int i = 0; i < TRIES; i++) {
    *fd = g_open (info, O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0600);
    if (*fd < 0)
      return BW_LOCK_FAILED;
    gboolean locked = flock (*fd, LOCK_EX | LOCK_NB) == 0;
    gboolean alive = !locked && errno == EWOULDBLOCK;
    if (!locked && !alive)
      return BW_LOCK_UNKNOWN;
    if (locked && is_still_there (info, *fd))
      return BW_LOCK_OURS;
    close (*fd);
    *fd = -1;
    if (alive)
      return BW_LOCK_ALIVE;
  }
  errno = EBUSY;
  return BW_LOCK_FAILED;
}

gboolean
bw_recovery_lay_aside (const char *copy)
{
  g_autofree char *folder = bw_recovery_discarded_folder ();
  g_autofree char *name = g_path_get_basename (copy);
  g_autofree char *target = g_build_filename (folder, name, NULL);
  g_autofree char *info = bw_recovery_info_of (copy);
  if (g_mkdir_with_parents (folder, 0700) != 0 || g_rename (copy, target) != 0)
    return FALSE;
  g_utime (target, NULL); /* its days count from now */
  g_unlink (info);
  return TRUE;
}

static gboolean
is_older (const char *path, gint64 days)
{
  GStatBuf status;
  return g_stat (path, &status) == 0
         && status.st_mtime + days * DAY_S < g_get_real_time () / G_USEC_PER_SEC;
}

static void
sweep_info (const char *info)
{
  g_autofree char *copy = other_ending (info, INFO, COPY);
  int fd;
  if (g_file_test (copy, G_FILE_TEST_EXISTS))
    return;
  BwLock lock = bw_recovery_lock (info, &fd);
  if (lock == BW_LOCK_OURS || (lock == BW_LOCK_UNKNOWN && is_older (info, 1)))
    g_unlink (info);
  if (lock == BW_LOCK_OURS || lock == BW_LOCK_UNKNOWN)
    close (fd);
}

/* As other ways of writing leave them: the copy's name and six characters. */
static gboolean
is_temporary (const char *name)
{
  const char *ending = strrchr (name, '.');
  g_autofree char *stem = ending ? g_strndup (name, (gsize)(ending - name)) : NULL;
  return ending && strlen (ending) == 7 && g_str_has_suffix (stem, COPY);
}

static void
sweep_file (const char *folder, const char *name)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  if (g_str_has_suffix (name, INFO))
    sweep_info (path);
  else if (is_temporary (name) && is_older (path, 1))
    g_unlink (path);
}

static void
sweep_discarded (const char *folder, const char *name)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  if (g_str_has_suffix (name, COPY) && is_older (path, BW_DISCARDED_DAYS))
    g_unlink (path);
}

static void
each_file (const char *folder, void (*visit) (const char *folder, const char *name))
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  for (const char *name; dir && (name = g_dir_read_name (dir));)
    visit (folder, name);
}

void
bw_recovery_sweep (void)
{
  g_autofree char *folder = bw_recovery_folder ();
  g_autofree char *discarded = bw_recovery_discarded_folder ();
  each_file (folder, sweep_file);
  each_file (discarded, sweep_discarded);
  bw_beside_sweep (folder);
  bw_beside_sweep (discarded);
}
