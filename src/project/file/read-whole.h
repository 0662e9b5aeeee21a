/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading a file from its beginning to its end. Private to this room. */
#pragma once

#include "project/file/stamp.h"
#include <gio/gio.h>

/* Its bytes, at least one more than most when it is longer than that. Only a regular file is read:
 * a pipe would keep the reader waiting for ever. stop and per_mille (set atomically) may be NULL.
 * Errors are G_IO_ERROR. */
GByteArray *bw_read_whole (GFile *file, gsize most, GCancellable *stop, int *per_mille,
                           BwStamp *stamp, GError **error);
