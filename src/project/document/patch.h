/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Changes of single cells: a plain log while a step is open, packed bytes once it is kept. Private
 * to this room. */
#pragma once

#include "project/document/document.h"

/* One cell's change. The place does not depend on the size shown, so that it outlives a resize. */
typedef struct {
  guint32 place;
  guint8 before, after;
} BwChange;

/* bead: 0-based in its row, lowest first; row from 1. */
guint32 bw_place_of (BwCanvas canvas, int row, int bead);
BwCanvas bw_place_canvas (guint32 place);
int bw_place_row (guint32 place);
int bw_place_column (guint32 place);

/* Sorts a log of BwChange by place and joins the changes of one place; drops what ends as it
 * began. */
void bw_changes_join (GArray *changes);

/* Packed as runs: gap and length as variable-length numbers, then the cells before and after. A
 * single bead takes about six bytes. */
void bw_changes_pack (const GArray *changes, GByteArray *bytes);
void bw_changes_unpack (GArray *changes, const guint8 *bytes, gsize length);
