/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finds the safety copies that a program which is gone has left behind. */
#include "config.h"

#include "app/keep/recovery-folder.h"
#include "app/keep/recovery.h"

#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/file.h>
#include <unistd.h>

static void
leftover_free (gpointer data)
{
  BwLeftover *leftover = data;
  g_free (leftover->path);
  g_free (leftover->title);
  g_clear_object (&leftover->file);
  g_clear_pointer (&leftover->when, g_date_time_unref);
  g_free (leftover);
}

/* Whoever wrote it still runs when its lock cannot be had. */
static gboolean
is_alive (const char *info)
{
  int fd = g_open (info, O_RDWR | O_CLOEXEC, 0);
  if (fd < 0)
    return FALSE;
  gboolean alive = flock (fd, LOCK_EX | LOCK_NB) != 0;
  close (fd);
  return alive;
}

/* A copy whose info is unreadable is still somebody's work: it is offered without a title. */
static BwLeftover *
read_leftover (const char *copy, const char *info)
{
  g_autoptr (GKeyFile) keys = g_key_file_new ();
  BwLeftover *leftover = g_new0 (BwLeftover, 1);
  g_key_file_load_from_file (keys, info, G_KEY_FILE_NONE, NULL);
  g_autofree char *uri = g_key_file_get_string (keys, "copy", "file", NULL);
  leftover->path = g_strdup (copy);
  leftover->title = g_key_file_get_string (keys, "copy", "title", NULL);
  leftover->file = uri ? g_file_new_for_uri (uri) : NULL;
  gint64 seconds = g_key_file_get_int64 (keys, "copy", "time", NULL);
  leftover->when = g_date_time_new_from_unix_local (seconds);
  if (!leftover->title)
    leftover->title = g_path_get_basename (copy);
  return leftover;
}

static char *
info_of (const char *copy)
{
  g_autofree char *stem = g_strndup (copy, strlen (copy) - strlen (".bandwright"));
  return g_strconcat (stem, ".info", NULL);
}

static int
newest_first (gconstpointer a, gconstpointer b)
{
  const BwLeftover *first = *(const BwLeftover *const *)a, *second = *(const BwLeftover *const *)b;
  return g_date_time_compare (second->when, first->when);
}

GPtrArray *
bw_recovery_find (void)
{
  GPtrArray *found = g_ptr_array_new_with_free_func (leftover_free);
  g_autofree char *folder = bw_recovery_folder ();
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  for (const char *name; dir && (name = g_dir_read_name (dir));) {
    if (!g_str_has_suffix (name, ".bandwright"))
      continue;
    g_autofree char *copy = g_build_filename (folder, name, NULL);
    g_autofree char *info = info_of (copy);
    if (!is_alive (info))
      g_ptr_array_add (found, read_leftover (copy, info));
  }
  g_ptr_array_sort (found, newest_first);
  return found;
}

BwProject *
bw_leftover_load (const BwLeftover *leftover, GError **error)
{
  g_autofree char *data = NULL;
  gsize length;
  if (!g_file_get_contents (leftover->path, &data, &length, error))
    return NULL;
  BwProject *project = bw_project_load_data (data, length, error);
  if (!project)
    return NULL;
  bw_project_set_file (project, leftover->file);
  bw_project_set_modified (project, TRUE);
  return project;
}

void
bw_leftover_discard (const BwLeftover *leftover)
{
  g_autofree char *info = info_of (leftover->path);
  g_unlink (leftover->path);
  g_unlink (info);
}
