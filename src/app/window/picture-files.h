/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pictures of a piece as files: one under the name that was chosen, or numbered ones beside it,
 * "piece-001.png" and so on for "piece.png". */
#pragma once

#include <gio/gio.h>

/* The first of n numbered files that is there already; NULL: none. Owned. */
GFile *bw_picture_files_taken (GFile *file, int n);

/* pictures: GBytes. *last: the one written last, owned; it may be NULL with an error. */
gboolean bw_picture_files_write (GFile *file, GPtrArray *pictures, gboolean numbered, GFile **last,
                                 GError **error);
