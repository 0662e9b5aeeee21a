/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every pass is drawn by itself; rows that go like the ones before them are not drawn at all. */
#include "output/sheet/steps.h"

static BwStepKind
kind_of (const BwVisit *visit)
{
  switch (visit->part) {
  case BW_PART_ROWS:
    return BW_STEP_ROW;
  case BW_PART_ZIP:
    return BW_STEP_ZIP;
  case BW_PART_RETURN:
    return BW_STEP_RETURN;
  case BW_PART_ANCHORS:
    return BW_STEP_ANCHORS;
  case BW_PART_BAIL:
    return BW_STEP_BAIL;
  case BW_PART_ATTACHMENT:
    return BW_STEP_ATTACHMENT;
  case BW_PART_WEAVING_IN:
    return BW_STEP_WEAVING_IN;
  default:
    return BW_STEP_PICK_UP;
  }
}

/* The visits from i on that belong to one pass. */
static guint
pass_length (const GArray *visits, guint i)
{
  const BwVisit *first = &g_array_index (visits, BwVisit, i);
  guint n = 1;
  for (; i + n < visits->len; n++) {
    const BwVisit *visit = &first[n];
    if (visit->pass != first->pass || visit->part != first->part || visit->length != first->length)
      break;
  }
  return n;
}

/* The last row the beads picked up by n visits belong to; 0 when none is. */
static int
newest_row (const BwVisit *visit, guint n)
{
  int row = 0;
  for (guint i = 0; i < n; i++)
    if (visit[i].is_new)
      row = MAX (row, visit[i].row);
  return row;
}

static gboolean
goes_alike (const BwVisit *visit, guint n)
{
  int drawn = visit->part == BW_PART_ROWS   ? BW_STEP_BAND_ROWS
              : visit->part == BW_PART_BAIL ? BW_STEP_BAIL_ROWS
                                            : G_MAXINT;
  return newest_row (visit, n) > drawn;
}

GArray *
bw_steps_new (const BwPath *path)
{
  const GArray *visits = path->visits;
  GArray *steps = g_array_new (FALSE, FALSE, sizeof (BwStep));
  guint n;
  for (guint i = 0; i < visits->len; i += n) {
    const BwVisit *visit = &g_array_index (visits, BwVisit, i);
    n = pass_length (visits, i);
    BwStep step = { kind_of (visit), i, n };
    if (!goes_alike (visit, n))
      g_array_append_val (steps, step);
  }
  return steps;
}

static gboolean
is_weaving_in (const BwVisit *visit)
{
  return visit->part == BW_PART_WEAVING_IN;
}

/* The tail of the beginning is woven in last of all, backwards out of the very first bead. */
static gboolean
is_first_tail (const BwPath *path, const BwStep *step)
{
  const BwVisit *first = &g_array_index (path->visits, BwVisit, step->first);
  return step->first + step->n == path->visits->len && is_weaving_in (first)
         && is_weaving_in (first - 1);
}

BwStepBegin
bw_step_begin (const BwPath *path, const BwStep *step, BwVisit *from)
{
  const BwVisit *first = &g_array_index (path->visits, BwVisit, step->first);
  if (step->first == 0)
    return BW_BEGIN_STOPPER;
  if (is_first_tail (path, step)) {
    *from = g_array_index (path->visits, BwVisit, 0);
    from->direction = !from->direction;
    return BW_BEGIN_BEAD;
  }
  if (first[-1].length != first->length)
    return BW_BEGIN_TAIL;
  *from = first[-1];
  return BW_BEGIN_BEAD;
}
