/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One section for each count and way. It stands beside the project: undo has its own memory, and a
 * file tells one stone. */
#include "config.h"

#include "app/form/face-memory.h"

#include <string.h>

#define WAYS (BW_MEASURED_GIRTH + 1)

typedef struct {
  BwFaces way[WAYS]; /* faces 0: not known */
  BwMeasured last;   /* the way that was left last */
} Count;

struct _BwFaceMemory {
  Count by_count[BW_FACES_MAX + 1];
  BwFaces entered; /* as the present count and way came in; faces 0: as the project was opened */
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

BwFaces
bw_faces_of (const BwStoneMeasures *measures, guint64 examples)
{
  BwFaces faces
      = { .faces = measures->faces, .measured = measures->measured, .examples = examples };
  memcpy (faces.values_mm, measures->values_mm, sizeof faces.values_mm);
  return faces;
}

void
bw_faces_put (const BwFaces *faces, BwStoneMeasures *measures)
{
  measures->faces = faces->faces;
  measures->measured = faces->measured;
  memcpy (measures->values_mm, faces->values_mm, sizeof measures->values_mm);
}

static gboolean
is_untouched (const BwFaces *entered, const BwFaces *left)
{
  if (entered->faces != left->faces || entered->measured != left->measured)
    return FALSE;
  int n = bw_stone_value_count (left->measured, left->faces);
  for (int i = 0; i < n; i++)
    if (entered->values_mm[i] != left->values_mm[i])
      return FALSE;
  return TRUE;
}

static gboolean
is_count (int faces)
{
  return faces >= BW_FACES_MIN && faces <= BW_FACES_MAX;
}

const BwFaces *
bw_face_memory_recall (const BwFaceMemory *self, const BwStoneMeasures *left,
                       const BwStoneMeasures *wanted)
{
  if (!is_count (wanted->faces)
      || (left->faces == wanted->faces && left->measured == wanted->measured))
    return NULL;
  const Count *count = &self->by_count[wanted->faces];
  const BwFaces *faces = &count->way[left->faces == wanted->faces ? wanted->measured : count->last];
  return faces->faces ? faces : NULL;
}

void
bw_face_memory_note (BwFaceMemory *self, const BwFaces *left, const BwFaces *entered)
{
  if (is_count (left->faces) && !is_untouched (&self->entered, left)) {
    Count *count = &self->by_count[left->faces];
    count->way[left->measured] = *left;
    count->last = left->measured;
  }
  self->entered = *entered;
}
