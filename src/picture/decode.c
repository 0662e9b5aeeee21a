/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The size is looked at before anything is decoded: a few bytes of a file can promise more points
 * than there is memory. */
#include "config.h"

#include "picture/decode.h"
#include "picture/kind.h"
#include "picture/png-data.h"
#include "picture/whole.h"

#define DRAWN_POINTS 2000 /* the longer side of a drawing that has no points of its own */
#define CHUNK 65536

static const char *const loaders[] = {
  [BW_PICTURE_KIND_OTHER] = NULL,
  [BW_PICTURE_KIND_PNG] = "png",
  [BW_PICTURE_KIND_JPEG] = "jpeg",
  [BW_PICTURE_KIND_SVG] = "svg",
};

static gboolean
is_too_large (gint64 width, gint64 height)
{
  return width > BW_PICTURE_POINTS_MAX || height > BW_PICTURE_POINTS_MAX
         || width * height > BW_PICTURE_POINTS_MAX;
}

/* Before the points are made. A size of nothing makes the loader stop. */
static void
size_prepared (GdkPixbufLoader *loader, int width, int height, gpointer data)
{
  BwPictureAnswer *answer = data;
  if (!is_too_large (width, height))
    return;
  *answer = (BwPictureAnswer){ .outcome = BW_PICTURE_TOO_LARGE, .width = width, .height = height };
  gdk_pixbuf_loader_set_size (loader, 0, 0);
}

/* A drawing has no points of its own. */
static void
drawing_prepared (GdkPixbufLoader *loader, int width, int height, gpointer data)
{
  double scale = (double)DRAWN_POINTS / MAX (1, MAX (width, height));
  gdk_pixbuf_loader_set_size (loader, MAX (1, (int)(width * scale)),
                              MAX (1, (int)(height * scale)));
}

static gboolean
feed (GdkPixbufLoader *loader, const guint8 *data, gsize length, const BwPictureAnswer *answer)
{
  for (gsize at = 0; at < length; at += CHUNK)
    if (answer->outcome == BW_PICTURE_TOO_LARGE
        || !gdk_pixbuf_loader_write (loader, data + at, MIN (CHUNK, length - at), NULL))
      return FALSE;
  return TRUE;
}

static GdkPixbuf *
load (BwPictureKind kind, const guint8 *data, gsize length, BwPictureAnswer *answer)
{
  g_autoptr (GdkPixbufLoader) loader = gdk_pixbuf_loader_new_with_type (loaders[kind], NULL);
  if (!loader)
    return NULL;
  g_signal_connect (loader, "size-prepared",
                    G_CALLBACK (kind == BW_PICTURE_KIND_SVG ? drawing_prepared : size_prepared),
                    answer);
  gboolean fed = feed (loader, data, length, answer);
  gboolean closed = gdk_pixbuf_loader_close (loader, NULL);
  GdkPixbuf *pixbuf = fed && closed ? gdk_pixbuf_loader_get_pixbuf (loader) : NULL;
  return pixbuf ? gdk_pixbuf_apply_embedded_orientation (pixbuf) : NULL;
}

/* What can be told from the bytes as they lie. FALSE with the answer when that settles it. */
static gboolean
looks_sound (BwPictureKind kind, const guint8 *data, gsize length, BwPictureAnswer *answer)
{
  guint32 width, height;
  *answer = (BwPictureAnswer){ .outcome = BW_PICTURE_NONE };
  if (kind == BW_PICTURE_KIND_OTHER)
    return FALSE;
  answer->outcome = BW_PICTURE_BROKEN;
  if (bw_picture_png_size (data, length, &width, &height) && width <= G_MAXINT32
      && height <= G_MAXINT32 && is_too_large (width, height)) {
    *answer = (BwPictureAnswer){ .outcome = BW_PICTURE_TOO_LARGE,
                                 .width = (gint32)width,
                                 .height = (gint32)height };
    return FALSE;
  }
  return bw_picture_is_whole (data, length)
         && (kind != BW_PICTURE_KIND_PNG || bw_picture_png_has_all_data (data, length));
}

GdkPixbuf *
bw_picture_decode (const guint8 *data, gsize length, BwPictureAnswer *answer)
{
  BwPictureKind kind = bw_picture_kind (data, length);
  if (!looks_sound (kind, data, length, answer))
    return NULL;
  GdkPixbuf *pixbuf = load (kind, data, length, answer);
  if (pixbuf)
    *answer = (BwPictureAnswer){ .outcome = BW_PICTURE_DONE,
                                 .width = gdk_pixbuf_get_width (pixbuf),
                                 .height = gdk_pixbuf_get_height (pixbuf),
                                 .channels = gdk_pixbuf_get_n_channels (pixbuf) };
  return pixbuf;
}
