/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading a picture a maker brings: PNG, JPEG or SVG, of a size that can be worked with. */
#pragma once

#include "core/pattern/mapping.h"
#include "picture/answer.h"
#include <gdk-pixbuf/gdk-pixbuf.h>
#include <gio/gio.h>

/* Safe on any thread. NULL with one plain sentence that names the file. Turned upright when the
 * camera says how; an SVG is drawn finely enough for any band. It is decoded by a process of its
 * own (see picture/apart.h), so that nothing in the file can end the program or keep it busy for
 * good. */
GdkPixbuf *bw_picture_read (GFile *file, GCancellable *cancellable, GError **error);

/* The pixels for the core, borrowed. */
BwPicture bw_picture_of (const GdkPixbuf *pixbuf);
