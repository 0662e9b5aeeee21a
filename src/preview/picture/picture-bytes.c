/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "preview/picture/picture-bytes.h"

#include <glib/gi18n-lib.h>
#include <webp/encode.h>
#include <webp/mux.h>

#define QUALITY 90 /* of 100: no loss that one sees between beads */

static cairo_status_t
append (void *bytes, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (bytes, data, length);
  return CAIRO_STATUS_SUCCESS;
}

GBytes *
bw_picture_png (cairo_surface_t *surface, GError **error)
{
  GByteArray *png = g_byte_array_new ();
  cairo_status_t status = cairo_surface_write_to_png_stream (surface, append, png);
  if (status == CAIRO_STATUS_SUCCESS)
    return g_byte_array_free_to_bytes (png);
  g_byte_array_unref (png);
  g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_FAILED, cairo_status_to_string (status));
  return NULL;
}

struct _BwMovingPicture {
  WebPAnimEncoder *encoder;
  WebPConfig config;
  int width, height, frame_ms, n;
};

static gboolean
fail (GError **error)
{
  g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_FAILED,
                       _ ("The animated picture could not be put together."));
  return FALSE;
}

BwMovingPicture *
bw_moving_picture_new (int width, int height, int frame_ms, GError **error)
{
  g_autoptr (BwMovingPicture) moving = g_new0 (BwMovingPicture, 1);
  WebPAnimEncoderOptions options;
  *moving = (BwMovingPicture){ .width = width, .height = height, .frame_ms = frame_ms };
  if (!WebPConfigInit (&moving->config) || !WebPAnimEncoderOptionsInit (&options)) {
    fail (error);
    return NULL;
  }
  options.anim_params.loop_count = 0; /* for ever */
  moving->config.quality = QUALITY;
  moving->encoder = WebPAnimEncoderNew (width, height, &options);
  if (!moving->encoder) {
    fail (error);
    return NULL;
  }
  return g_steal_pointer (&moving);
}

void
bw_moving_picture_free (BwMovingPicture *moving)
{
  if (!moving)
    return;
  g_clear_pointer (&moving->encoder, WebPAnimEncoderDelete);
  g_free (moving);
}

/* The colour alone, as the format has it; cairo keeps it weighed with its alpha. */
static guint32
bare_colour (guint32 weighed)
{
  guint32 alpha = weighed >> 24, bare = alpha << 24;
  for (int shift = 0; alpha && shift < 24; shift += 8) {
    guint32 part = ((weighed >> shift & 255) * 255 + alpha / 2) / alpha;
    bare |= MIN (part, 255) << shift;
  }
  return bare;
}

static void
fill (WebPPicture *picture, cairo_surface_t *frame)
{
  cairo_surface_flush (frame);
  const guint8 *data = cairo_image_surface_get_data (frame);
  int stride = cairo_image_surface_get_stride (frame);
  for (int y = 0; y < picture->height; y++) {
    const guint32 *from = (const guint32 *)(const void *)(data + (gsize)y * (gsize)stride);
    for (int x = 0; x < picture->width; x++)
      picture->argb[y * picture->argb_stride + x] = bare_colour (from[x]);
  }
}

gboolean
bw_moving_picture_add (BwMovingPicture *moving, cairo_surface_t *frame, GError **error)
{
  WebPPicture picture;
  if (!WebPPictureInit (&picture))
    return fail (error);
  picture.use_argb = 1;
  picture.width = moving->width;
  picture.height = moving->height;
  gboolean added = WebPPictureAlloc (&picture) != 0;
  if (added) {
    fill (&picture, frame);
    added = WebPAnimEncoderAdd (moving->encoder, &picture, moving->n++ * moving->frame_ms,
                                &moving->config)
            != 0;
  }
  WebPPictureFree (&picture);
  return added || fail (error);
}

GBytes *
bw_moving_picture_end (BwMovingPicture *moving, GError **error)
{
  WebPData data;
  WebPDataInit (&data);
  if (!WebPAnimEncoderAdd (moving->encoder, NULL, moving->n * moving->frame_ms, NULL)
      || !WebPAnimEncoderAssemble (moving->encoder, &data)) {
    fail (error);
    return NULL;
  }
  GBytes *bytes = g_bytes_new (data.bytes, data.size);
  WebPDataClear (&data);
  return bytes;
}
