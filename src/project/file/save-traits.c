/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A file that is replaced is another file: what it was besides its bytes has to be given to the new
 * one, and what cannot be given is told. */
#include "config.h"

#include "project/file/save-traits.h"
#include "project/file/save-whole.h"

#include <errno.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/xattr.h>
#include <unistd.h>

#define ACCESS_LIST "system.posix_acl_access"

static gboolean
is_status (int fd, struct stat *now)
{
  return fstat (fd, now) == 0;
}

/* Only an administrator gives files away; a group one belongs to can be given by anybody. */
static gboolean
keep_owner (const struct stat *old, int fd)
{
  struct stat now;

  if (!is_status (fd, &now))
    return FALSE;
  if (now.st_uid == old->st_uid && now.st_gid == old->st_gid)
    return TRUE;
  if (fchown (fd, old->st_uid, old->st_gid) == 0)
    return TRUE;
  if (now.st_gid != old->st_gid && fchown (fd, (uid_t)-1, old->st_gid) != 0)
    return FALSE;
  return now.st_uid == old->st_uid;
}

/* What the former group was allowed is not given to another group. */
static mode_t
mode_for (const struct stat *old, const struct stat *now)
{
  mode_t mode = old->st_mode & 07777;

  if (now->st_gid == old->st_gid)
    return mode;
  return (mode & ~(mode_t)(S_ISUID | S_ISGID | S_IRWXG)) | (mode & S_IRWXO) << 3;
}

/* Disks without permissions refuse to set them and have them all the same. */
static gboolean
keep_permissions (const struct stat *old, int fd)
{
  struct stat now;

  if (!is_status (fd, &now))
    return FALSE;
  if (fchmod (fd, mode_for (old, &now)) == 0 || !is_status (fd, &now))
    return TRUE;
  return (now.st_mode & 07777) == (old->st_mode & 07777);
}

/* The value of an attribute; *length tells its bytes. NULL when it cannot be read. Owned. */
static char *
attribute_of (const char *path, const char *name, gssize *length)
{
  g_autofree char *value = NULL;
  gssize room = getxattr (path, name, NULL, 0);

  if (room < 0)
    return NULL;
  value = g_malloc0 ((gsize)room + 1);
  *length = getxattr (path, name, value, (gsize)room);
  return *length >= 0 ? g_steal_pointer (&value) : NULL;
}

/* Labels of security modules are given by the system's own rules. */
static gboolean
keep_attribute (const char *path, const char *name, int fd)
{
  g_autofree char *value = NULL;
  gssize length;

  if (g_str_has_prefix (name, "security."))
    return TRUE;
  value = attribute_of (path, name, &length);
  return value && fsetxattr (fd, name, value, (gsize)length, 0) == 0;
}

static gboolean
keep_attributes (const char *path, int fd)
{
  gssize room = listxattr (path, NULL, 0);
  g_autofree char *names = room > 0 ? g_malloc0 ((gsize)room + 1) : NULL;
  gssize length = names ? listxattr (path, names, (gsize)room) : 0;
  gboolean kept = room >= 0 || errno == ENOTSUP, has_list = FALSE;

  for (const char *name = names; name && name < names + length; name += strlen (name) + 1) {
    has_list = has_list || g_str_equal (name, ACCESS_LIST);
    kept = keep_attribute (path, name, fd) && kept;
  }
  if (!has_list) /* one that the folder gives to new files is not the old file's */
    fremovexattr (fd, ACCESS_LIST);
  return kept;
}

guint
bw_traits_keep (const char *path, const struct stat *old, int fd)
{
  guint lost = 0;

  if (old->st_nlink > 1)
    lost |= BW_LOST_LINKS;
  if (!keep_owner (old, fd))
    lost |= BW_LOST_OWNER;
  if (!keep_attributes (path, fd))
    lost |= BW_LOST_ATTRIBUTES;
  if (!keep_permissions (old, fd))
    lost |= BW_LOST_PERMISSIONS;
  return lost;
}
