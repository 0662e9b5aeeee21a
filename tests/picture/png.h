/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PNG files put together chunk by chunk (ISO/IEC 15948), whole or wrong in one place. */
#pragma once

#include <glib.h>

typedef struct {
  guint32 width, height;
  guint8 depth, colour_type, interlaced;
  gsize data; /* bytes of unpacked data the file has */
  gsize cut;  /* bytes of the packed data left out at its end */
} PngSpec;

/* Owned. The data are zeros. */
GByteArray *png_new (const PngSpec *spec);
