/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One section for each count. It stands beside the project: undo has its own memory, and a file
 * tells one stone. */
#include "config.h"

#include "app/form/face-memory.h"

#include <string.h>

typedef struct {
  gboolean known;
  BwMeasured measured;
  double values_mm[BW_FACES_MAX];
} Section;

struct _BwFaceMemory {
  Section by_count[BW_FACES_MAX + 1];
  Section entered; /* as the present count came in */
  int entered_faces;
};

BwFaceMemory *
bw_face_memory_new (void)
{
  return g_new0 (BwFaceMemory, 1);
}

void
bw_face_memory_free (BwFaceMemory *self)
{
  g_free (self);
}

void
bw_face_memory_clear (BwFaceMemory *self)
{
  memset (self, 0, sizeof *self);
}

static Section
section_of (const BwStoneMeasures *measures)
{
  Section section = { .known = TRUE, .measured = measures->measured };
  memcpy (section.values_mm, measures->values_mm, sizeof section.values_mm);
  return section;
}

static gboolean
is_untouched (const BwFaceMemory *self, const BwStoneMeasures *measures)
{
  if (!self->entered.known || self->entered_faces != measures->faces
      || self->entered.measured != measures->measured)
    return FALSE;
  int n = bw_stone_value_count (measures->measured, measures->faces);
  for (int i = 0; i < n; i++)
    if (self->entered.values_mm[i] != measures->values_mm[i])
      return FALSE;
  return TRUE;
}

static gboolean
is_count (int faces)
{
  return faces >= BW_FACES_MIN && faces <= BW_FACES_MAX;
}

gboolean
bw_face_memory_recall (const BwFaceMemory *self, BwStoneMeasures *measures)
{
  if (!is_count (measures->faces) || !self->by_count[measures->faces].known)
    return FALSE;
  const Section *section = &self->by_count[measures->faces];
  measures->measured = section->measured;
  memcpy (measures->values_mm, section->values_mm, sizeof section->values_mm);
  return TRUE;
}

void
bw_face_memory_note (BwFaceMemory *self, const BwStoneMeasures *left,
                     const BwStoneMeasures *entered)
{
  if (is_count (left->faces) && !is_untouched (self, left))
    self->by_count[left->faces] = section_of (left);
  self->entered = section_of (entered);
  self->entered_faces = entered->faces;
}
