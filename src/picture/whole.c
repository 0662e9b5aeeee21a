/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The toolkit's loaders show what has come so far and take an early end for the end; a maker would
 * find half a picture on the band and not know why. */
#include "config.h"

#include "picture/whole.h"

#include <string.h>

#define PNG_SIGNATURE 8
#define PNG_CHUNK 12 /* length, name and check sum of a chunk, without its data */

static gsize
big_endian (const guint8 *data, int bytes)
{
  gsize value = 0;
  for (int i = 0; i < bytes; i++)
    value = value << 8 | data[i];
  return value;
}

static gboolean
png_is_whole (const guint8 *data, gsize length)
{
  for (gsize at = PNG_SIGNATURE; at + PNG_CHUNK <= length;) {
    gsize size = big_endian (data + at, 4);
    if (size > length - at - PNG_CHUNK)
      return FALSE;
    if (memcmp (data + at + 4, "IEND", 4) == 0)
      return TRUE;
    at += PNG_CHUNK + size;
  }
  return FALSE;
}

/* The marker of the end, FF D9, cannot stand within a scan. A small picture inside a segment before
 * the scans is skipped with its segment. */
static gboolean
jpeg_is_whole (const guint8 *data, gsize length)
{
  gsize at = 2;
  while (at + 4 <= length && data[at] == 0xff && data[at + 1] != 0xda)
    at += data[at + 1] == 0xff ? 1 : 2 + big_endian (data + at + 2, 2);
  for (; at + 2 <= length; at++)
    if (data[at] == 0xff && data[at + 1] == 0xd9)
      return TRUE;
  return FALSE;
}

gboolean
bw_picture_is_whole (const guint8 *data, gsize length)
{
  if (length > PNG_SIGNATURE && memcmp (data, "\x89PNG\r\n\x1a\n", PNG_SIGNATURE) == 0)
    return png_is_whole (data, length);
  if (length > 2 && data[0] == 0xff && data[1] == 0xd8)
    return jpeg_is_whole (data, length);
  return TRUE;
}
