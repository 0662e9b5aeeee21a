/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files of this computer, written whole or not at all. */
#pragma once

#include <glib.h>

/* Replaces the file, or the one that symbolic links lead to, by these bytes. FALSE with a
 * G_IO_ERROR when it cannot: what was there is there still, and nothing else is. A file that the
 * user may not write is not replaced either, though its folder might allow it, and nothing but a
 * regular file is: a folder is G_IO_ERROR_IS_DIRECTORY, a device or pipe
 * G_IO_ERROR_INVALID_ARGUMENT. The permissions of an old file stay. */
gboolean bw_save_whole (const char *path, const char *data, gsize length, GError **error);
