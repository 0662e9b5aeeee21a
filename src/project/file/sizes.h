/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bead sizes: the built-in table; the user's own file, bead-sizes.json in the user's data folder
 * ($XDG_DATA_HOME/bandwright), a JSON array of objects with the keys of the project's "bead"; and
 * the kinds kept in the maker's book, which whoever reads the book tells. */
#pragma once

#include "core/design/bead.h"
#include <glib.h>

#define BW_SIZES_TRIED 16 /* sizes that remedies and ways are looked for with */

/* All sizes, the user's after the built-in ones, then those of the book (a same name replaces). The
 * file is read once per process; a broken file is reported by *warning (owned, one sentence; may be
 * NULL) and the built-in table alone is used. Returns an owned GArray of BwBead. */
GArray *bw_sizes_load (char **warning);

/* Up to `most` of them that differ in size, those nearest to a bead, in the order of the list: what
 * a search may try that takes long over each. Owned. */
GArray *bw_sizes_near (const BwBead *bead, guint most);

/* The kinds of the book from now on, of BwBead; NULL: none. Any thread. */
void bw_sizes_set_own (const GArray *sizes);

/* The built-in and the user's own from another file, read anew at each call. A file that is not
 * there is no fault. */
GArray *bw_sizes_load_from (const char *path, char **warning);

/* The bead's ranges, pointer being where it stands. FALSE with a fault. */
gboolean bw_size_validate (const BwBead *bead, const char *pointer, GError **error);
