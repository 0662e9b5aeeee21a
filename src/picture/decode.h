/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Decoding, done in the decoder alone. */
#pragma once

#include "picture/answer.h"
#include <gdk-pixbuf/gdk-pixbuf.h>

/* Gives the points, owned, and DONE in the answer; or NULL and why not. Turned upright when the
 * camera says how; an SVG is drawn finely enough for any band. The points are not looked at before
 * their number is known to be small enough. */
GdkPixbuf *bw_picture_decode (const guint8 *data, gsize length, BwPictureAnswer *answer);
