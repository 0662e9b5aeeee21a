/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Only bytes that are there are looked at; nothing is believed but what is compared. */
#include "config.h"

#include "picture/kind.h"

#include <string.h>

#define NEAR 65536 /* a document may have a long type declaration before its first element */

static gboolean
begins (const guint8 *data, gsize length, const char *with, gsize n)
{
  return length >= n && memcmp (data, with, n) == 0;
}

static gboolean
ends_a_name (guint8 byte)
{
  return byte == '>' || byte == '/' || byte == ' ' || byte == '\t' || byte == '\r' || byte == '\n';
}

/* "<svg" or, with a prefix, ":svg", and the name ends there. */
static gboolean
is_drawing (const guint8 *data, gsize length)
{
  gsize at = begins (data, length, "\xef\xbb\xbf", 3) ? 3 : 0, end = MIN (length, NEAR);
  while (at < end && g_ascii_isspace (data[at]))
    at++;
  if (at == end || data[at] != '<')
    return FALSE;
  for (; at + 4 < end; at++)
    if ((data[at] == '<' || data[at] == ':') && memcmp (data + at + 1, "svg", 3) == 0
        && ends_a_name (data[at + 4]))
      return TRUE;
  return FALSE;
}

BwPictureKind
bw_picture_kind (const guint8 *data, gsize length)
{
  if (begins (data, length, "\x89PNG\r\n\x1a\n", 8))
    return BW_PICTURE_KIND_PNG;
  if (begins (data, length, "\xff\xd8\xff", 3))
    return BW_PICTURE_KIND_JPEG;
  return is_drawing (data, length) ? BW_PICTURE_KIND_SVG : BW_PICTURE_KIND_OTHER;
}

static guint32
big_endian (const guint8 *data)
{
  return (guint32)data[0] << 24 | (guint32)data[1] << 16 | (guint32)data[2] << 8 | data[3];
}

gboolean
bw_picture_png_size (const guint8 *data, gsize length, guint32 *width, guint32 *height)
{
  if (bw_picture_kind (data, length) != BW_PICTURE_KIND_PNG || length < 24
      || memcmp (data + 12, "IHDR", 4) != 0)
    return FALSE;
  *width = big_endian (data + 16);
  *height = big_endian (data + 20);
  return TRUE;
}
