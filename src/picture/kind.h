/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a file is by its first bytes, whatever its name says: looked at before anything is decoded,
 * so that no library ever meets a file it was not meant for. */
#pragma once

#include <glib.h>

typedef enum {
  BW_PICTURE_KIND_OTHER,
  BW_PICTURE_KIND_PNG,  /* the signature of ISO/IEC 15948 */
  BW_PICTURE_KIND_JPEG, /* SOI and the next marker, ITU-T T.81 annex B */
  BW_PICTURE_KIND_SVG   /* a mark-up document with an element "svg" near its beginning */
} BwPictureKind;

/* data may be NULL when length is 0. */
BwPictureKind bw_picture_kind (const guint8 *data, gsize length);

/* The size a PNG's header tells (IHDR comes first). FALSE when there is none. */
gboolean bw_picture_png_size (const guint8 *data, gsize length, guint32 *width, guint32 *height);
