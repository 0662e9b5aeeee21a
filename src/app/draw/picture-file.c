/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The file's bytes are taken here, where any place a maker can open is reached; what they mean is
 * found out elsewhere. */
#include "config.h"

#include "app/draw/picture-file.h"
#include "picture/apart.h"
#include "picture/kind.h"

#include <glib/gi18n-lib.h>

#define PATIENCE_SECONDS                                                                           \
  (3 * BW_PICTURE_SECONDS) /* by the clock: others may be at work as well                          \
                            */

static char *
name_of (GFile *file)
{
  g_autoptr (GFileInfo) info = g_file_query_info (file, G_FILE_ATTRIBUTE_STANDARD_DISPLAY_NAME,
                                                  G_FILE_QUERY_INFO_NONE, NULL, NULL);
  return info ? g_strdup (g_file_info_get_display_name (info)) : g_file_get_parse_name (file);
}

static char *
sentence_of (const BwPictureAnswer *answer, const char *name)
{
  switch ((BwPictureOutcome)answer->outcome) {
  case BW_PICTURE_NONE:
    return g_strdup_printf (_ ("“%s” is no PNG, JPEG or SVG picture."), name);
  case BW_PICTURE_TOO_LARGE:
    return g_strdup_printf (
        _ ("“%s” is too large: %d × %d points, and at most %d million can be taken. Save a "
           "smaller copy of it."),
        name, answer->width, answer->height, BW_PICTURE_POINTS_MAX / 1000000);
  case BW_PICTURE_COSTLY:
    return g_strdup_printf (
        _ ("“%s” cannot be drawn: it takes more time or memory than a picture may have. Save it as "
           "a PNG, and open that."),
        name);
  case BW_PICTURE_NO_DECODER:
    return g_strdup_printf (
        _ ("“%s” cannot be read: the part of Bandwright that reads pictures could not be started. "
           "Install Bandwright anew."),
        name);
  case BW_PICTURE_DONE:
  case BW_PICTURE_BROKEN:
    break;
  }
  return g_strdup_printf (_ ("“%s” is broken: it ends early or makes no picture."), name);
}

static GdkPixbuf *
decode (GFile *file, GBytes *bytes, GCancellable *cancellable, GError **error)
{
  BwPictureAnswer answer = { .outcome = BW_PICTURE_NONE };
  gsize length;
  const guint8 *data = g_bytes_get_data (bytes, &length);
  /* What is no picture at all needs no decoder to say so. */
  GdkPixbuf *pixbuf = bw_picture_kind (data, length) == BW_PICTURE_KIND_OTHER
                          ? NULL
                          : bw_picture_decode_apart (bytes, PATIENCE_SECONDS, cancellable, &answer);
  if (!pixbuf && !g_cancellable_set_error_if_cancelled (cancellable, error)) {
    g_autofree char *name = name_of (file);
    g_autofree char *sentence = sentence_of (&answer, name);
    g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_FAILED, sentence);
  }
  return pixbuf;
}

/* Looks at what the file is and at its size first: a pipe might never end, and what is far too long
 * is not read at all. */
static GBytes *
read_bytes (GFile *file, GCancellable *cancellable, GError **error)
{
  g_autofree char *name = name_of (file);
  g_autoptr (GError) reason = NULL;
  g_autoptr (GFileInfo) info
      = g_file_query_info (file, G_FILE_ATTRIBUTE_STANDARD_SIZE "," G_FILE_ATTRIBUTE_STANDARD_TYPE,
                           G_FILE_QUERY_INFO_NONE, cancellable, &reason);
  if (info && g_file_info_get_file_type (info) != G_FILE_TYPE_REGULAR) {
    g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED, _ ("“%s” is no PNG, JPEG or SVG picture."),
                 name);
    return NULL;
  }
  if (info && g_file_info_get_size (info) > BW_PICTURE_BYTES_MAX) {
    g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED,
                 _ ("“%s” is too large: a picture's file may have %d MB."), name,
                 BW_PICTURE_BYTES_MAX / 1000000);
    return NULL;
  }
  GBytes *bytes = info ? g_file_load_bytes (file, cancellable, NULL, &reason) : NULL;
  if (!bytes)
    g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED, _ ("“%s” cannot be read: %s"), name,
                 reason->message);
  return bytes;
}

GdkPixbuf *
bw_picture_read (GFile *file, GCancellable *cancellable, GError **error)
{
  g_autoptr (GBytes) bytes = read_bytes (file, cancellable, error);
  return bytes ? decode (file, bytes, cancellable, error) : NULL;
}

BwPicture
bw_picture_of (const GdkPixbuf *pixbuf)
{
  return (BwPicture){ gdk_pixbuf_read_pixels (pixbuf), gdk_pixbuf_get_width (pixbuf),
                      gdk_pixbuf_get_height (pixbuf), gdk_pixbuf_get_n_channels (pixbuf),
                      (gsize)gdk_pixbuf_get_rowstride (pixbuf) };
}
