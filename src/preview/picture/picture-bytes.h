/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pictures as the bytes of a file. */
#pragma once

#include <cairo.h>
#include <gio/gio.h>

/* The bytes of a PNG file, owned; NULL with *error set. */
GBytes *bw_picture_png (cairo_surface_t *surface, GError **error);

/* An animated WebP file that begins anew for ever, of ARGB32 surfaces of one size, each side up to
 * 16383 (the format's bound). */
typedef struct _BwMovingPicture BwMovingPicture;

/* frame_ms: how long each is shown. NULL with *error set. */
BwMovingPicture *bw_moving_picture_new (int width, int height, int frame_ms, GError **error);
void bw_moving_picture_free (BwMovingPicture *moving);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwMovingPicture, bw_moving_picture_free)

gboolean bw_moving_picture_add (BwMovingPicture *moving, cairo_surface_t *frame, GError **error);
/* After the last frame: the bytes of the file, owned; NULL with *error set. */
GBytes *bw_moving_picture_end (BwMovingPicture *moving, GError **error);
