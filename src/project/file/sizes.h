/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bead sizes: the built-in table and the user's own file, bead-sizes.json in the user's data folder
 * ($XDG_DATA_HOME/bandwright): a JSON array of objects with the keys of the project's "bead". */
#pragma once

#include "core/design/bead.h"
#include <glib.h>

/* All sizes, the user's after the built-in ones (a same name replaces). Read once per process; a
 * broken file is reported by *warning (owned, one sentence; may be NULL) and the built-in table
 * alone is used. Returns an owned GArray of BwBead. */
GArray *bw_sizes_load (char **warning);

/* The same from another file, read anew at each call. A file that is not there is no fault. */
GArray *bw_sizes_load_from (const char *path, char **warning);
