/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Serials settle what comes first: a slow disk must not bring back a copy whose work was saved
 * meanwhile. */
#include "config.h"

#include "app/keep/copy-file.h"
#include "app/keep/recovery-folder.h"
#include "project/file/io-words.h"
#include "project/file/save-whole.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <unistd.h>

struct _BwCopyFile {
  gatomicrefcount references;
  GMutex mutex;
  char *copy; /* path of NAME.bandwright */
  char *info; /* path of NAME.info */
  int lock;   /* its open descriptor; −1 while there is no copy */
  guint last; /* the highest serial so far */
};

void
bw_copy_label_clear (BwCopyLabel *label)
{
  g_clear_pointer (&label->title, g_free);
  g_clear_pointer (&label->uri, g_free);
  g_clear_pointer (&label->stamp, g_free);
  g_clear_pointer (&label->examples, g_free);
}

BwCopyFile *
bw_copy_file_adopt (const char *copy, int lock)
{
  BwCopyFile *self = g_new0 (BwCopyFile, 1);
  g_atomic_ref_count_init (&self->references);
  g_mutex_init (&self->mutex);
  self->copy = g_strdup (copy);
  self->info = bw_recovery_info_of (copy);
  self->lock = lock;
  return self;
}

BwCopyFile *
bw_copy_file_new (void)
{
  g_autofree char *folder = bw_recovery_folder ();
  g_autofree char *uuid = g_uuid_string_random ();
  g_autofree char *name = g_strconcat (uuid, ".bandwright", NULL);
  g_autofree char *copy = g_build_filename (folder, name, NULL);
  return bw_copy_file_adopt (copy, -1);
}

BwCopyFile *
bw_copy_file_ref (BwCopyFile *self)
{
  g_atomic_ref_count_inc (&self->references);
  return self;
}

void
bw_copy_file_unref (BwCopyFile *self)
{
  if (!g_atomic_ref_count_dec (&self->references))
    return;
  if (self->lock >= 0)
    close (self->lock);
  g_mutex_clear (&self->mutex);
  g_free (self->copy);
  g_free (self->info);
  g_free (self);
}

/* A disk without locks keeps copies too: better offered to a second program than lost. */
static gboolean
open_lock (BwCopyFile *self, GError **error)
{
  g_autofree char *folder = bw_recovery_folder ();
  if (self->lock >= 0)
    return TRUE;
  if (g_mkdir_with_parents (folder, 0700) == 0) {
    BwLock lock = bw_recovery_lock (self->info, &self->lock);
    if (lock == BW_LOCK_OURS || lock == BW_LOCK_UNKNOWN)
      return TRUE;
    if (lock == BW_LOCK_ALIVE)
      errno = EBUSY;
  }
  bw_io_fail (errno, BW_IO_WRITE, error);
  return FALSE;
}

/* Written through the locked descriptor: a file put in its place would not carry the lock. Comes
 * after the document, which is worth something without it. */
static gboolean
write_info (BwCopyFile *self, const BwCopyLabel *label, GError **error)
{
  g_autoptr (GKeyFile) keys = g_key_file_new ();
  gsize length;
  g_key_file_set_string (keys, "copy", "title", label->title ? label->title : "");
  if (label->uri)
    g_key_file_set_string (keys, "copy", "file", label->uri);
  if (label->stamp)
    g_key_file_set_string (keys, "copy", "stamp", label->stamp);
  if (label->examples)
    g_key_file_set_string (keys, "copy", "examples", label->examples);
  g_key_file_set_int64 (keys, "copy", "time", g_get_real_time () / G_USEC_PER_SEC);
  g_autofree char *text = g_key_file_to_data (keys, &length, NULL);
  if (pwrite (self->lock, text, length, 0) == (gssize)length
      && ftruncate (self->lock, (off_t)length) == 0)
    return TRUE;
  bw_io_fail (errno, BW_IO_WRITE, error);
  return FALSE;
}

gboolean
bw_copy_file_write (BwCopyFile *self, guint serial, const BwCopyLabel *label, const char *data,
                    gsize length, GError **error)
{
  g_autoptr (GMutexLocker) locker = g_mutex_locker_new (&self->mutex);
  if (serial <= self->last)
    return TRUE;
  if (!open_lock (self, error)
      || !bw_save_whole (self->copy, data, length, BW_SAVE_PRIVATE, NULL, error)
      || !write_info (self, label, error))
    return FALSE;
  self->last = serial;
  return TRUE;
}

static void
close_lock (BwCopyFile *self)
{
  if (self->lock >= 0)
    close (self->lock);
  self->lock = -1;
}

void
bw_copy_file_remove (BwCopyFile *self, guint serial)
{
  g_autoptr (GMutexLocker) locker = g_mutex_locker_new (&self->mutex);
  self->last = MAX (self->last, serial);
  g_unlink (self->copy);
  g_unlink (self->info);
  close_lock (self);
}

gboolean
bw_copy_file_lay_aside (BwCopyFile *self, guint serial)
{
  g_autoptr (GMutexLocker) locker = g_mutex_locker_new (&self->mutex);
  self->last = MAX (self->last, serial);
  if (!bw_recovery_lay_aside (self->copy))
    return FALSE;
  close_lock (self);
  return TRUE;
}
