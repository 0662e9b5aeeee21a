/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The size is looked at before anything is decoded: a few bytes of a file can promise more points
 * than there is memory. */
#include "config.h"

#include "app/draw/picture-file.h"
#include "app/draw/picture-whole.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define DRAWN_POINTS 2000 /* the longer side of a drawing that has no points of its own */
#define CHUNK 65536

typedef struct {
  int width, height; /* as the file says; 0 before it is known */
  gboolean too_large;
} Size;

static char *
name_of (GFile *file)
{
  g_autoptr (GFileInfo) info = g_file_query_info (file, G_FILE_ATTRIBUTE_STANDARD_DISPLAY_NAME,
                                                  G_FILE_QUERY_INFO_NONE, NULL, NULL);
  return info ? g_strdup (g_file_info_get_display_name (info)) : g_file_get_parse_name (file);
}

static gboolean
is_drawn (GdkPixbufLoader *loader)
{
  GdkPixbufFormat *format = gdk_pixbuf_loader_get_format (loader);
  g_autofree char *name = format ? gdk_pixbuf_format_get_name (format) : NULL;
  return name && g_str_has_prefix (name, "svg");
}

/* Before the points are made. A size of nothing makes the loader stop. */
static void
size_prepared (GdkPixbufLoader *loader, int width, int height, gpointer data)
{
  Size *size = data;
  size->width = width;
  size->height = height;
  size->too_large = width > BW_PICTURE_POINTS_MAX || height > BW_PICTURE_POINTS_MAX
                    || (gint64)width * height > BW_PICTURE_POINTS_MAX;
  if (is_drawn (loader)) {
    double scale = (double)DRAWN_POINTS / MAX (1, MAX (width, height));
    size->too_large = FALSE;
    gdk_pixbuf_loader_set_size (loader, MAX (1, (int)(width * scale)),
                                MAX (1, (int)(height * scale)));
  } else if (size->too_large) {
    gdk_pixbuf_loader_set_size (loader, 0, 0);
  }
}

static gboolean
is_wanted (GdkPixbufLoader *loader)
{
  static const char *const wanted[] = { "png", "jpeg", "svg", NULL };
  GdkPixbufFormat *format = gdk_pixbuf_loader_get_format (loader);
  g_autofree char *name = format ? gdk_pixbuf_format_get_name (format) : NULL;
  return name && g_strv_contains (wanted, name);
}

/* Feeds the loader; FALSE when it will have no more. */
static gboolean
feed (GdkPixbufLoader *loader, GBytes *bytes, const Size *size, GCancellable *cancellable)
{
  gsize length;
  const guint8 *data = g_bytes_get_data (bytes, &length);
  for (gsize at = 0; at < length; at += CHUNK)
    if (size->too_large || g_cancellable_is_cancelled (cancellable)
        || !gdk_pixbuf_loader_write (loader, data + at, MIN (CHUNK, length - at), NULL))
      return FALSE;
  return bw_picture_is_whole (data, length);
}

static void
set_reason (GError **error, GFile *file, GdkPixbufLoader *loader, const Size *size)
{
  g_autofree char *name = name_of (file);
  if (size->too_large)
    g_set_error (
        error, G_IO_ERROR, G_IO_ERROR_FAILED,
        _ ("“%s” is too large: %d × %d points, and at most %d million can be taken. Save a "
           "smaller copy of it."),
        name, size->width, size->height, BW_PICTURE_POINTS_MAX / 1000000);
  else if (!gdk_pixbuf_loader_get_format (loader) || !is_wanted (loader))
    g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED, _ ("“%s” is no PNG, JPEG or SVG picture."),
                 name);
  else
    g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED,
                 _ ("“%s” is broken: it ends early or makes "
                    "no picture."),
                 name);
}

static GdkPixbuf *
decode (GFile *file, GBytes *bytes, GCancellable *cancellable, GError **error)
{
  g_autoptr (GdkPixbufLoader) loader = gdk_pixbuf_loader_new ();
  Size size = { 0 };
  g_signal_connect (loader, "size-prepared", G_CALLBACK (size_prepared), &size);
  gboolean fed = feed (loader, bytes, &size, cancellable);
  gboolean closed = gdk_pixbuf_loader_close (loader, NULL);
  if (g_cancellable_set_error_if_cancelled (cancellable, error))
    return NULL;
  GdkPixbuf *pixbuf
      = fed && closed && is_wanted (loader) ? gdk_pixbuf_loader_get_pixbuf (loader) : NULL;
  if (!pixbuf) {
    set_reason (error, file, loader, &size);
    return NULL;
  }
  return gdk_pixbuf_apply_embedded_orientation (pixbuf);
}

/* Looks at the file's size first: what is far too long is not read at all. */
static GBytes *
read_bytes (GFile *file, GCancellable *cancellable, GError **error)
{
  g_autofree char *name = name_of (file);
  g_autoptr (GError) reason = NULL;
  g_autoptr (GFileInfo) info
      = g_file_query_info (file, G_FILE_ATTRIBUTE_STANDARD_SIZE "," G_FILE_ATTRIBUTE_STANDARD_TYPE,
                           G_FILE_QUERY_INFO_NONE, cancellable, &reason);
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
