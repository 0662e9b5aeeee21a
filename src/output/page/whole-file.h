/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bytes collected in memory and written as a whole file or not at all. */
#pragma once

#include <cairo.h>
#include <gio/gio.h>

/* A cairo_write_func_t whose closure is a GByteArray. */
cairo_status_t bw_whole_file_append (void *closure, const unsigned char *data, unsigned int length);

/* Writes beside and renames, when status is that of a drawing that came to its end. The error has
 * the path, as it is shown, before its sentence. */
gboolean bw_whole_file_write (const GByteArray *bytes, cairo_status_t status, const char *path,
                              GError **error);
/* The same for bytes that are there already. */
gboolean bw_whole_file_write_data (const char *data, gsize length, const char *path,
                                   GError **error);
