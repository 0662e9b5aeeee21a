/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Written beside, synced and renamed: a disk that fills up half way through must not leave half a
 * file where a whole one was, nor half a file at all. */
#include "config.h"

#include "project/file/save-whole.h"

#include "project/file/io-words.h"
#include "project/file/save-beside.h"
#include "project/file/save-traits.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define LINKS_MAX 40 /* as many as the kernel follows */
#define NAME_BYTES 255

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

/* Whether it may be replaced; *old is zero when there is nothing yet. */
static gboolean
look_at_old (const char *target, struct stat *old, GError **error)
{
  *old = (struct stat){ 0 };
  if (stat (target, old) != 0) {
    if (errno == ENOENT)
      return TRUE;
    bw_io_fail (errno, BW_IO_WRITE, error);
    return FALSE;
  }
  if (S_ISDIR (old->st_mode))
    bw_io_fail (EISDIR, BW_IO_WRITE, error);
  else if (!S_ISREG (old->st_mode))
    bw_io_fail_irregular (error);
  else if (faccessat (AT_FDCWD, target, W_OK, AT_EACCESS) != 0)
    bw_io_fail (errno, BW_IO_WRITE, error);
  else
    return TRUE;
  return FALSE;
}

char *
bw_save_backup_path (const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);
  g_autofree char *name = g_path_get_basename (path);
  g_autofree char *backup = NULL;

  if (strlen (name) >= NAME_BYTES) {
    char *cut = g_utf8_find_prev_char (name, name + NAME_BYTES);

    if (cut)
      *cut = '\0';
  }
  backup = g_strconcat (name, "~", NULL);
  return g_build_filename (folder, backup, NULL);
}

/* Where the disk has no second names a copy must do. */
static gboolean
copy_to_backup (const char *target)
{
  g_autofree char *backup = bw_save_backup_path (target);
  g_autofree char *data = NULL;
  gsize length;

  return g_file_get_contents (target, &data, &length, NULL)
         && bw_save_whole (backup, data, length, BW_SAVE_PRIVATE, NULL, NULL);
}

/* A second name for what is there costs nothing and keeps all there is about it. It becomes the
 * backup only once the new file is in place: until then the backup before it stays. */
static gboolean
put_with_backup (BwBeside *beside, const char *target, struct stat *now, guint *lost,
                 GError **error)
{
  g_autofree char *backup = bw_save_backup_path (target);
  g_autofree char *second = bw_beside_link (target);
  gboolean copied = !second && copy_to_backup (target);
  gboolean put = bw_beside_put (beside, target, now, error);

  if (put && !copied && !(second && g_rename (second, backup) == 0))
    *lost |= BW_LOST_BACKUP;
  if (second)
    g_unlink (second); /* still there when it did not become the backup */
  return put;
}

gboolean
bw_save_whole (const char *path, const char *data, gsize length, guint how, BwSaved *saved,
               GError **error)
{
  g_autofree char *target = follow_links (path);
  g_autofree char *folder = g_path_get_dirname (target);
  g_auto (BwBeside) beside = BW_BESIDE_NONE;
  BwSaved done = { 0 };
  struct stat old, now;

  if (!look_at_old (target, &old, error))
    return FALSE;
  gboolean exists = old.st_nlink > 0;
  if (!bw_beside_open (&beside, folder, exists || how & BW_SAVE_PRIVATE, error)
      || !bw_beside_write (&beside, data, length, error))
    return FALSE;
  if (exists)
    done.lost = bw_traits_keep (target, &old, beside.fd);
  if (exists && how & BW_SAVE_BACKUP ? !put_with_backup (&beside, target, &now, &done.lost, error)
                                     : !bw_beside_put (&beside, target, &now, error))
    return FALSE;
  done.stamp = bw_stamp_of (&now, data, length);
  if (saved)
    *saved = done;
  bw_beside_sweep (folder);
  return TRUE;
}

static gboolean
replace_elsewhere (GFile *file, const char *data, gsize length, guint how, const char *etag,
                   BwSaved *saved, GError **error)
{
  g_autofree char *new_etag = NULL;
  BwSaved done = { .stamp = { .known = TRUE, .size = length } };
  GFileCreateFlags flags = how & BW_SAVE_PRIVATE ? G_FILE_CREATE_PRIVATE : G_FILE_CREATE_NONE;

  if (!g_file_replace_contents (file, data, length, etag && *etag ? etag : NULL,
                                (how & BW_SAVE_BACKUP) != 0, flags, &new_etag, NULL, error))
    return FALSE;
  if (new_etag && strlen (new_etag) < sizeof done.stamp.etag)
    g_strlcpy (done.stamp.etag, new_etag, sizeof done.stamp.etag);
  if (saved)
    *saved = done;
  return TRUE;
}

gboolean
bw_save_file (GFile *file, const char *data, gsize length, guint how, const char *etag,
              BwSaved *saved, GError **error)
{
  g_autofree char *path = g_file_get_path (file);

  return path ? bw_save_whole (path, data, length, how, saved, error)
              : replace_elsewhere (file, data, length, how, etag, saved, error);
}

char *
bw_save_lost_words (guint lost)
{
  static const struct {
    guint flag;
    const char *words;
  } table[] = {
    { BW_LOST_LINKS, N_ ("its other names (hard links) still hold the version before") },
    { BW_LOST_OWNER, N_ ("it belongs to you now and not to its former owner or group") },
    { BW_LOST_PERMISSIONS, N_ ("others have other permissions on it than before") },
    { BW_LOST_ATTRIBUTES, N_ ("its access list or extended attributes are gone") },
    { BW_LOST_BACKUP, N_ ("no backup copy of the version before could be kept") },
  };
  g_autoptr (GString) words = g_string_new (NULL);

  if (!lost)
    return NULL;
  for (gsize i = 0; i < G_N_ELEMENTS (table); i++)
    if (lost & table[i].flag)
      g_string_append_printf (words, "%s%s", words->len ? "; " : "", _ (table[i].words));
  return g_string_free (g_steal_pointer (&words), FALSE);
}
