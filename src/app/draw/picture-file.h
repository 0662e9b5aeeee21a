/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading a picture a maker brings: PNG, JPEG or SVG, of a size that can be worked with. */
#pragma once

#include "core/pattern/mapping.h"
#include <gdk-pixbuf/gdk-pixbuf.h>
#include <gio/gio.h>

#define BW_PICTURE_BYTES_MAX (256 * 1024 * 1024)
#define BW_PICTURE_POINTS_MAX (64 * 1000 * 1000)

/* Safe on any thread. NULL with one plain sentence that names the file. Turned upright when the
 * camera says how; an SVG is drawn finely enough for any band. */
GdkPixbuf *bw_picture_read (GFile *file, GCancellable *cancellable, GError **error);

/* The pixels for the core, borrowed. */
BwPicture bw_picture_of (const GdkPixbuf *pixbuf);
