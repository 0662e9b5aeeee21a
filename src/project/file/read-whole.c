/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A file of this computer is read through a descriptor of our own, so that what is found regular is
 * what is read. */
#include "config.h"

#include "project/file/read-whole.h"
#include "project/file/io-words.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define CHUNK_BYTES 65536

typedef struct {
  GByteArray *bytes;
  gsize most;
  guint64 size; /* as the file says; 0 when it does not */
  GCancellable *stop;
  int *per_mille;
} Reading;

/* FALSE when there is to be no more. */
static gboolean
take (Reading *reading, const guint8 *chunk, gsize n)
{
  g_byte_array_append (reading->bytes, chunk, (guint)n);
  if (reading->per_mille && reading->size > 0)
    g_atomic_int_set (reading->per_mille,
                      (int)(MIN (reading->bytes->len, reading->size) * 1000 / reading->size));
  return n > 0 && reading->bytes->len <= reading->most;
}

static gboolean
read_descriptor (Reading *reading, int fd, GError **error)
{
  guint8 chunk[CHUNK_BYTES];
  gssize n;

  do {
    if (g_cancellable_set_error_if_cancelled (reading->stop, error))
      return FALSE;
    do
      n = read (fd, chunk, sizeof chunk);
    while (n < 0 && errno == EINTR);
    if (n < 0) {
      bw_io_fail (errno, BW_IO_READ, error);
      return FALSE;
    }
  } while (take (reading, chunk, (gsize)n));
  return TRUE;
}

static gboolean
check_regular (const struct stat *status, GError **error)
{
  if (S_ISREG (status->st_mode))
    return TRUE;
  if (S_ISDIR (status->st_mode))
    bw_io_fail (EISDIR, BW_IO_READ, error);
  else
    bw_io_fail_irregular (error);
  return FALSE;
}

/* Looked at before it is opened, because to open a device may already do something; opened without
 * waiting, and looked at again. −1 with *error set. */
static int
open_regular (const char *path, struct stat *status, GError **error)
{
  int fd;

  if (stat (path, status) != 0) {
    bw_io_fail (errno, BW_IO_READ, error);
    return -1;
  }
  if (!check_regular (status, error))
    return -1;
  fd = g_open (path, O_RDONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC, 0);
  if (fd < 0 || fstat (fd, status) != 0)
    bw_io_fail (errno, BW_IO_READ, error);
  else if (check_regular (status, error))
    return fd;
  if (fd >= 0)
    close (fd);
  return -1;
}

static gboolean
read_path (Reading *reading, const char *path, BwStamp *stamp, GError **error)
{
  struct stat status = { 0 };
  int fd = open_regular (path, &status, error);
  gboolean read;

  if (fd < 0)
    return FALSE;
  reading->size = (guint64)status.st_size;
  read = read_descriptor (reading, fd, error);
  close (fd);
  if (read)
    *stamp = bw_stamp_of (&status, (const char *)reading->bytes->data, reading->bytes->len);
  return read;
}

/* Where there is no path the system may still know of what kind a thing is. */
static gboolean
is_irregular (GFile *file, GCancellable *stop)
{
  g_autoptr (GFileInfo) info = g_file_query_info (file, G_FILE_ATTRIBUTE_STANDARD_TYPE,
                                                  G_FILE_QUERY_INFO_NONE, stop, NULL);

  return info && g_file_info_get_file_type (info) == G_FILE_TYPE_SPECIAL;
}

static gboolean
read_stream (Reading *reading, GInputStream *stream, GError **error)
{
  guint8 chunk[CHUNK_BYTES];
  gssize n;

  do {
    n = g_input_stream_read (stream, chunk, sizeof chunk, reading->stop, error);
    if (n < 0)
      return FALSE;
  } while (take (reading, chunk, (gsize)n));
  return TRUE;
}

static gboolean
read_elsewhere (Reading *reading, GFile *file, BwStamp *stamp, GError **error)
{
  g_autoptr (GFileInputStream) stream = NULL;
  g_autoptr (GFileInfo) info = NULL;
  const char *etag;

  if (is_irregular (file, reading->stop)) {
    bw_io_fail_irregular (error);
    return FALSE;
  }
  stream = g_file_read (file, reading->stop, error);
  if (!stream)
    return FALSE;
  info = g_file_input_stream_query_info (
      stream, G_FILE_ATTRIBUTE_ETAG_VALUE "," G_FILE_ATTRIBUTE_STANDARD_SIZE, reading->stop, NULL);
  etag = info ? g_file_info_get_attribute_string (info, G_FILE_ATTRIBUTE_ETAG_VALUE) : NULL;
  reading->size
      = info ? g_file_info_get_attribute_uint64 (info, G_FILE_ATTRIBUTE_STANDARD_SIZE) : 0;
  if (!read_stream (reading, G_INPUT_STREAM (stream), error))
    return FALSE;
  *stamp = (BwStamp){ .known = TRUE, .size = reading->bytes->len };
  if (etag && strlen (etag) < sizeof stamp->etag)
    g_strlcpy (stamp->etag, etag, sizeof stamp->etag);
  return TRUE;
}

GByteArray *
bw_read_whole (GFile *file, gsize most, GCancellable *stop, int *per_mille, BwStamp *stamp,
               GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  g_autofree char *path = g_file_get_path (file);
  Reading reading = { .bytes = bytes, .most = most, .stop = stop, .per_mille = per_mille };

  *stamp = (BwStamp){ 0 };
  if (path ? read_path (&reading, path, stamp, error)
           : read_elsewhere (&reading, file, stamp, error))
    return g_steal_pointer (&bytes);
  return NULL;
}
