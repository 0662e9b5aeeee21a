/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finds the safety copies that a program which is gone has left behind. What is told of a copy may
 * be anything: the state folder is read by more than its writer. */
#include "config.h"

#include "app/keep/leftover.h"
#include "app/keep/recovery-folder.h"
#include "project/file/file-name.h"

#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define TITLE_MOST 80 /* characters */

void
bw_leftover_free (BwLeftover *leftover)
{
  if (leftover->lock >= 0)
    close (leftover->lock);
  g_free (leftover->path);
  g_free (leftover->title);
  g_free (leftover->examples);
  g_clear_object (&leftover->file);
  g_clear_pointer (&leftover->when, g_date_time_unref);
  g_free (leftover);
}

/* The copy's own name means nothing to a maker: the file's stands for a title that there is not. */
static char *
read_title (GKeyFile *keys, GFile *file)
{
  g_autofree char *title = g_key_file_get_string (keys, "copy", "title", NULL);
  if (!title || !*title)
    return file ? bw_file_stem (file) : g_strdup (_ ("Untitled"));
  g_strdelimit (title, "\n\r\t", ' ');
  return g_utf8_strlen (title, -1) > TITLE_MOST ? g_utf8_substring (title, 0, TITLE_MOST)
                                                : g_steal_pointer (&title);
}

static GFile *
read_file (GKeyFile *keys)
{
  g_autofree char *uri = g_key_file_get_string (keys, "copy", "file", NULL);
  g_autofree char *scheme = uri ? g_uri_parse_scheme (uri) : NULL;
  return scheme ? g_file_new_for_uri (uri) : NULL;
}

/* A time outside the calendar is no time: then the copy's own tells. */
static GDateTime *
read_time (GKeyFile *keys, const char *copy)
{
  gint64 seconds = g_key_file_get_int64 (keys, "copy", "time", NULL);
  GDateTime *when = seconds > 0 ? g_date_time_new_from_unix_local (seconds) : NULL;
  GStatBuf status;
  if (!when && g_stat (copy, &status) == 0)
    when = g_date_time_new_from_unix_local (status.st_mtime);
  return when;
}

static BwLeftoverAge
read_age (const BwLeftover *leftover)
{
  const char *path = leftover->file ? g_file_peek_path (leftover->file) : NULL;
  GStatBuf status;
  if (!leftover->file)
    return BW_LEFTOVER_UNSAVED;
  if (!path)
    return BW_LEFTOVER_NEWER;
  if (g_stat (path, &status) != 0)
    return BW_LEFTOVER_ALONE;
  return leftover->when && g_date_time_to_unix (leftover->when) >= status.st_mtime
             ? BW_LEFTOVER_NEWER
             : BW_LEFTOVER_OLDER;
}

/* A copy whose info is unreadable is still somebody's work: it is offered without a title. */
static BwLeftover *
read_leftover (const char *copy, const char *info, int lock)
{
  g_autoptr (GKeyFile) keys = g_key_file_new ();
  BwLeftover *leftover = g_new0 (BwLeftover, 1);
  g_key_file_load_from_file (keys, info, G_KEY_FILE_NONE, NULL);
  g_autofree char *stamp = g_key_file_get_string (keys, "copy", "stamp", NULL);
  leftover->path = g_strdup (copy);
  leftover->lock = lock;
  leftover->file = read_file (keys);
  leftover->title = read_title (keys, leftover->file);
  leftover->when = read_time (keys, copy);
  leftover->age = read_age (leftover);
  leftover->examples = g_key_file_get_string (keys, "copy", "examples", NULL);
  bw_stamp_from_text (stamp, &leftover->stamp);
  return leftover;
}

/* NULL when its program is alive. */
static BwLeftover *
find_one (const char *folder, const char *name)
{
  g_autofree char *copy = g_build_filename (folder, name, NULL);
  g_autofree char *info = bw_recovery_info_of (copy);
  int fd;
  BwLock lock = bw_recovery_lock (info, &fd);
  if (lock == BW_LOCK_ALIVE)
    return NULL;
  if (lock == BW_LOCK_UNKNOWN)
    close (fd);
  return read_leftover (copy, info, lock == BW_LOCK_OURS ? fd : -1);
}

static gint64
seconds_of (const BwLeftover *leftover)
{
  return leftover->when ? g_date_time_to_unix (leftover->when) : 0;
}

static int
newest_first (gconstpointer a, gconstpointer b)
{
  gint64 first = seconds_of (*(const BwLeftover *const *)a);
  gint64 second = seconds_of (*(const BwLeftover *const *)b);
  return first > second ? -1 : first < second;
}

GPtrArray *
bw_recovery_find (void)
{
  GPtrArray *found = g_ptr_array_new_with_free_func ((GDestroyNotify)bw_leftover_free);
  g_autofree char *folder = bw_recovery_folder ();
  bw_recovery_sweep ();
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  for (const char *name; dir && (name = g_dir_read_name (dir));) {
    BwLeftover *leftover = g_str_has_suffix (name, ".bandwright") ? find_one (folder, name) : NULL;
    if (leftover)
      g_ptr_array_add (found, leftover);
  }
  g_ptr_array_sort (found, newest_first);
  return found;
}

BwProject *
bw_leftover_load (const BwLeftover *leftover, GError **error)
{
  g_autoptr (GFile) copy = g_file_new_for_path (leftover->path);
  BwProject *project = bw_project_load (copy, error);
  if (!project)
    return NULL;
  BwExamples examples
      = bw_examples_from_text (leftover->examples, &bw_project_get_design (project)->stone);
  bw_project_recall_examples (project, &examples);
  bw_project_set_file (project, leftover->file);
  bw_project_set_stamp (project, &leftover->stamp);
  bw_project_set_modified (project, TRUE);
  return project;
}

BwCopyFile *
bw_leftover_adopt (BwLeftover *leftover)
{
  int lock = leftover->lock;
  leftover->lock = -1;
  return bw_copy_file_adopt (leftover->path, lock);
}

gboolean
bw_leftover_discard (const BwLeftover *leftover)
{
  return bw_recovery_lay_aside (leftover->path);
}
