/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Place, time and size are compared first, because they are cheap; the bytes decide. */
#include "config.h"

#include "project/file/stamp.h"

#include <errno.h>
#include <gio/gio.h>
#include <string.h>
#include <sys/stat.h>

#define DIGEST_CHARACTERS 64

static void
set_digest (BwStamp *stamp, const void *data, gsize length)
{
  g_autofree char *digest = g_compute_checksum_for_data (G_CHECKSUM_SHA256, data, length);

  g_strlcpy (stamp->digest, digest, sizeof stamp->digest);
}

static BwStamp
stamp_of_status (const struct stat *status)
{
  return (BwStamp){ .known = TRUE,
                    .device = status->st_dev,
                    .inode = status->st_ino,
                    .size = (guint64)status->st_size,
                    .seconds = status->st_mtim.tv_sec,
                    .nanoseconds = status->st_mtim.tv_nsec };
}

BwStamp
bw_stamp_of (const struct stat *status, const char *data, gsize length)
{
  BwStamp stamp = stamp_of_status (status);

  set_digest (&stamp, data, length);
  return stamp;
}

gboolean
bw_stamp_same_file (const BwStamp *a, const BwStamp *b)
{
  return a->known && b->known && a->inode != 0 && a->inode == b->inode && a->device == b->device;
}

static gboolean
untouched (const BwStamp *a, const BwStamp *b)
{
  return bw_stamp_same_file (a, b) && a->size == b->size && a->seconds == b->seconds
         && a->nanoseconds == b->nanoseconds;
}

/* The same size comes first: a file that has grown is not read at all. */
static gboolean
holds_the_same (const BwStamp *stamp, const BwStamp *now, const char *path)
{
  g_autofree char *data = NULL;
  BwStamp found = { 0 };
  gsize length;

  if (!*stamp->digest || stamp->size != now->size
      || !g_file_get_contents (path, &data, &length, NULL))
    return FALSE;
  set_digest (&found, data, length);
  return g_str_equal (stamp->digest, found.digest);
}

BwFileState
bw_stamp_look (const BwStamp *stamp, const char *path)
{
  struct stat status;
  BwStamp now;

  if (!stamp->known)
    return BW_FILE_SAME;
  if (stat (path, &status) != 0)
    return errno == ENOENT || errno == ENOTDIR ? BW_FILE_GONE : BW_FILE_CHANGED;
  if (!S_ISREG (status.st_mode))
    return BW_FILE_CHANGED;
  now = stamp_of_status (&status);
  if (untouched (stamp, &now) || holds_the_same (stamp, &now, path))
    return BW_FILE_SAME;
  return BW_FILE_CHANGED;
}

char *
bw_stamp_to_text (const BwStamp *stamp)
{
  return g_strdup_printf ("%" G_GUINT64_FORMAT " %" G_GUINT64_FORMAT " %" G_GUINT64_FORMAT
                          " %" G_GINT64_FORMAT " %" G_GINT64_FORMAT " %s",
                          stamp->device, stamp->inode, stamp->size, stamp->seconds,
                          stamp->nanoseconds, stamp->digest);
}

static gboolean
is_digest (const char *word)
{
  gsize n = strspn (word, "0123456789abcdef");

  return n == DIGEST_CHARACTERS && word[n] == '\0';
}

gboolean
bw_stamp_from_text (const char *text, BwStamp *stamp)
{
  g_auto (GStrv) words = g_strsplit (text ? text : "", " ", -1);
  guint64 number[4];

  *stamp = (BwStamp){ 0 };
  if (g_strv_length (words) != 6 || !is_digest (words[5]))
    return FALSE;
  for (int i = 0; i < 3; i++)
    if (!g_ascii_string_to_unsigned (words[i], 10, 0, G_MAXUINT64, &number[i], NULL))
      return FALSE;
  if (!g_ascii_string_to_signed (words[3], 10, G_MININT64, G_MAXINT64, &stamp->seconds, NULL)
      || !g_ascii_string_to_unsigned (words[4], 10, 0, 999999999, &number[3], NULL))
    return FALSE;
  stamp->device = number[0];
  stamp->inode = number[1];
  stamp->size = number[2];
  stamp->nanoseconds = (gint64)number[3];
  g_strlcpy (stamp->digest, words[5], sizeof stamp->digest);
  stamp->known = TRUE;
  return TRUE;
}
