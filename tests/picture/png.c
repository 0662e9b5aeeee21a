/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "png.h"

#include <gio/gio.h>
#include <string.h>

static void
add_number (GByteArray *to, guint32 number)
{
  number = GUINT32_TO_BE (number);
  g_byte_array_append (to, (const guint8 *)&number, 4);
}

/* The check sum of ISO 3309. */
static guint32
check_sum (const guint8 *data, gsize length)
{
  guint32 crc = 0xffffffffu;
  for (gsize i = 0; i < length; i++) {
    crc ^= data[i];
    for (int k = 0; k < 8; k++)
      crc = crc & 1 ? crc >> 1 ^ 0xedb88320u : crc >> 1;
  }
  return ~crc;
}

static void
add_chunk (GByteArray *to, const char *name, const guint8 *data, gsize length)
{
  add_number (to, (guint32)length);
  gsize from = to->len;
  g_byte_array_append (to, (const guint8 *)name, 4);
  if (length)
    g_byte_array_append (to, data, (guint)length);
  add_number (to, check_sum (to->data + from, length + 4));
}

static GBytes *
packed (gsize length)
{
  g_autoptr (GZlibCompressor) zlib = g_zlib_compressor_new (G_ZLIB_COMPRESSOR_FORMAT_ZLIB, 6);
  g_autoptr (GOutputStream) memory = g_memory_output_stream_new_resizable ();
  g_autoptr (GOutputStream) stream = g_converter_output_stream_new (memory, G_CONVERTER (zlib));
  g_autofree guint8 *zeros = g_malloc0 (length + 1);
  g_output_stream_write_all (stream, zeros, length, NULL, NULL, NULL);
  g_output_stream_close (stream, NULL, NULL);
  return g_memory_output_stream_steal_as_bytes (G_MEMORY_OUTPUT_STREAM (memory));
}

GByteArray *
png_new (const PngSpec *spec)
{
  GByteArray *file = g_byte_array_new ();
  g_autoptr (GByteArray) header = g_byte_array_new ();
  g_autoptr (GBytes) data = packed (spec->data);
  const guint8 rest[] = { spec->depth, spec->colour_type, 0, 0, spec->interlaced };
  g_byte_array_append (file, (const guint8 *)"\x89PNG\r\n\x1a\n", 8);
  add_number (header, spec->width);
  add_number (header, spec->height);
  g_byte_array_append (header, rest, sizeof rest);
  add_chunk (file, "IHDR", header->data, header->len);
  add_chunk (file, "IDAT", g_bytes_get_data (data, NULL), g_bytes_get_size (data) - spec->cut);
  add_chunk (file, "IEND", NULL, 0);
  return file;
}
