/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What was measured for each number of faces and each way of measuring while a stone is being
 * described: whoever tries five faces and goes back to six, or tries each face and goes back to
 * across the flats, finds what was typed. Values that were only made up for a new count or way, and
 * that nobody typed over, are not remembered. */
#pragma once

#include "core/stone/stone.h"

typedef struct _BwFaceMemory BwFaceMemory;

/* The values of one count and way. Copied by assignment. */
typedef struct {
  int faces;
  BwMeasured measured;
  double values_mm[BW_FACES_MAX];
  guint64 examples; /* bit i: values_mm[i] is no measurement, but made up for a new project */
} BwFaces;

BwFaceMemory *bw_face_memory_new (void);
void bw_face_memory_free (BwFaceMemory *self);
void bw_face_memory_clear (BwFaceMemory *self);

BwFaces bw_faces_of (const BwStoneMeasures *measures, guint64 examples);
void bw_faces_put (const BwFaces *faces, BwStoneMeasures *measures);

/* What is to stand when `left` has become `wanted`: with another number of faces what was measured
 * for that number the last time, in whatever way; with another way what was measured in that way.
 * NULL when nothing is remembered, or neither changed. */
const BwFaces *bw_face_memory_recall (const BwFaceMemory *self, const BwStoneMeasures *left,
                                      const BwStoneMeasures *wanted);
/* The count or the way changed: `left` is remembered, unless it was `entered` the last time and
 * nobody has touched it since. */
void bw_face_memory_note (BwFaceMemory *self, const BwFaces *left, const BwFaces *entered);
