/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One pass of the needle, looked up in the path by the row it makes or by one of its visits. */
#pragma once

#include "core/path/path.h"

/* Visits first..first + n − 1 of the path. */
typedef struct {
  guint first, n;
} BwPass;

/* The pass that visit i belongs to, 0 ≤ i < visits->len. */
BwPass bw_path_pass_at (const BwPath *path, guint i);

/* The pass in which a row's own beads are picked up, of the band or of the bail. Rows that are
 * strung together are one pass. Visits on the way to the bail are no part of its first row. FALSE
 * when no such row is on the path. */
gboolean bw_path_row_pass (const BwPath *path, gboolean in_bail, int row, BwPass *pass);
