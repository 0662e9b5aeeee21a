/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Painting on the picture: what the view finds under the pointer, and whom it tells. */
#pragma once

#include <glib.h>

/* A bead as rows and columns count it, from 1; row 0: none. */
typedef struct {
  gboolean in_bail;
  int row, column;
} BwViewBead;

/* A stroke: it begins on a bead, goes on from bead to bead, and ends: kept, or given up. straight:
 * Shift is held. */
typedef struct {
  void (*begin) (gpointer data, const BwViewBead *bead);
  void (*go_on) (gpointer data, const BwViewBead *bead, gboolean straight);
  void (*end) (gpointer data, gboolean keep);
} BwStoneBrush;
