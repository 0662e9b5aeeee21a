/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What was measured for each number of faces while a stone is being described: whoever tries five
 * faces and goes back to six finds the six as they were. Values that were only made up for a new
 * count, and that nobody typed over, are not remembered. */
#pragma once

#include "core/stone/stone.h"

typedef struct _BwFaceMemory BwFaceMemory;

BwFaceMemory *bw_face_memory_new (void);
void bw_face_memory_free (BwFaceMemory *self);
void bw_face_memory_clear (BwFaceMemory *self);

/* The way of measuring and the values remembered for measures->faces, in place of those there.
 * FALSE, and nothing changed, when none are. */
gboolean bw_face_memory_recall (const BwFaceMemory *self, BwStoneMeasures *measures);
/* The count of faces changed: `left` is remembered, unless it was `entered` the last time and
 * nobody has touched it since. */
void bw_face_memory_note (BwFaceMemory *self, const BwStoneMeasures *left,
                          const BwStoneMeasures *entered);
