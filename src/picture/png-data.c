/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The library that decodes a PNG takes data that ends early for a picture that is black from there
 * on; all chunks may be there and hold too little. */
#include "config.h"

#include "picture/kind.h"
#include "picture/png-data.h"

#include <gio/gio.h>
#include <string.h>

#define FIRST_CHUNK 8
#define CHUNK 12 /* length, name and check sum of a chunk, without its data */
#define BLOCK 65536

static guint64
big_endian (const guint8 *data)
{
  return (guint64)data[0] << 24 | (guint64)data[1] << 16 | (guint64)data[2] << 8 | data[3];
}

/* Samples of a point by the colour type; 0: there is no such type. */
static guint64
samples_of (guint8 colour_type)
{
  static const guint8 samples[] = { 1, 0, 3, 1, 2, 0, 4 };
  return colour_type < G_N_ELEMENTS (samples) ? samples[colour_type] : 0;
}

/* A filter byte before each row; a pass without columns has no rows either. */
static guint64
bytes_of_pass (guint64 columns, guint64 rows, guint64 bits)
{
  return columns ? rows * (1 + (columns * bits + 7) / 8) : 0;
}

/* The standard's seven passes: where each begins, and from point to point. */
static guint64
bytes_interlaced (guint64 width, guint64 height, guint64 bits)
{
  static const guint8 pass[7][4] = { { 0, 0, 8, 8 }, { 4, 0, 8, 8 }, { 0, 4, 4, 8 }, { 2, 0, 4, 4 },
                                     { 0, 2, 2, 4 }, { 1, 0, 2, 2 }, { 0, 1, 1, 2 } };
  guint64 bytes = 0;
  for (int i = 0; i < 7; i++) {
    guint64 columns = (width + pass[i][2] - 1 - pass[i][0]) / pass[i][2];
    guint64 rows = (height + pass[i][3] - 1 - pass[i][1]) / pass[i][3];
    bytes += bytes_of_pass (columns, rows, bits);
  }
  return bytes;
}

/* 0 when the header is none. */
static guint64
bytes_wanted (const guint8 *data, gsize length)
{
  guint32 width, height;
  if (length < 33 || !bw_picture_png_size (data, length, &width, &height))
    return 0;
  guint64 bits = data[24] * samples_of (data[25]);
  return data[28] ? bytes_interlaced (width, height, bits) : bytes_of_pass (width, height, bits);
}

typedef struct {
  GConverter *unpacker;
  guint64 bytes;
  gboolean ended, broken;
} Unpacked;

/* What is unpacked is counted, not kept. The check sum at the end of the data is taken in only
 * after all before it has come out, so that nothing is left within when the bytes are used up. */
static void
unpack (Unpacked *unpacked, const guint8 *data, gsize length, guint64 wanted)
{
  guint8 block[BLOCK];
  while (length > 0 && !unpacked->ended && !unpacked->broken && unpacked->bytes < wanted) {
    gsize read = 0, written = 0;
    GConverterResult result
        = g_converter_convert (unpacked->unpacker, data, length, block, sizeof block,
                               G_CONVERTER_NO_FLAGS, &read, &written, NULL);
    unpacked->ended = result == G_CONVERTER_FINISHED;
    unpacked->broken = result == G_CONVERTER_ERROR;
    unpacked->bytes += written;
    data += read;
    length -= read;
  }
}

gboolean
bw_picture_png_has_all_data (const guint8 *data, gsize length)
{
  guint64 wanted = bytes_wanted (data, length);
  g_autoptr (GZlibDecompressor) zlib = g_zlib_decompressor_new (G_ZLIB_COMPRESSOR_FORMAT_ZLIB);
  Unpacked unpacked = { .unpacker = G_CONVERTER (zlib) };
  for (gsize at = FIRST_CHUNK; wanted && length >= CHUNK && at <= length - CHUNK;) {
    guint64 size = big_endian (data + at);
    if (size > length - at - CHUNK)
      return FALSE;
    if (memcmp (data + at + 4, "IDAT", 4) == 0)
      unpack (&unpacked, data + at + 8, size, wanted);
    at += CHUNK + size;
  }
  return wanted > 0 && !unpacked.broken && unpacked.bytes >= wanted;
}
