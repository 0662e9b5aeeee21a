/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What goes alike pass after pass is drawn together, all else by itself. */
#include "output/steps.h"

#define LAST_ROW_OF_BEGINNING 4

static BwStepKind
kind_of (const BwVisit *visit)
{
  switch (visit->part) {
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
    return BW_STEP_BEGINNING;
  }
}

/* Whether the pass of this visit adds beads. */
static gboolean
pass_is_new (const GArray *visits, guint i)
{
  const BwVisit *first = &g_array_index (visits, BwVisit, i);
  for (; i < visits->len; i++) {
    const BwVisit *visit = &g_array_index (visits, BwVisit, i);
    if (visit->pass != first->pass || visit->part != first->part)
      return FALSE;
    if (visit->is_new)
      return TRUE;
  }
  return FALSE;
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

static gboolean
goes_on (const GArray *visits, const BwStep *step, guint i, int passes)
{
  if (i >= visits->len)
    return FALSE;
  const BwVisit *first = &g_array_index (visits, BwVisit, step->first),
                *next = &first[i - step->first];
  if (kind_of (next) != step->kind || next->length != first->length)
    return FALSE;
  if (step->kind == BW_STEP_BEGINNING)
    return next->row <= LAST_ROW_OF_BEGINNING;
  return step->kind == BW_STEP_BAIL && passes < BW_STEP_BAIL_PASSES
         && pass_is_new (visits, step->first) && pass_is_new (visits, i);
}

/* Past the rows that are not drawn. */
static guint
skip_rows (const GArray *visits, guint i)
{
  while (i < visits->len && g_array_index (visits, BwVisit, i).part == BW_PART_ROWS)
    i++;
  return i;
}

GArray *
bw_steps_new (const BwPath *path)
{
  const GArray *visits = path->visits;
  GArray *steps = g_array_new (FALSE, FALSE, sizeof (BwStep));
  for (guint i = 0; i < visits->len; i = skip_rows (visits, i)) {
    BwStep step = { kind_of (&g_array_index (visits, BwVisit, i)), i, 0 };
    int passes = 0;
    do {
      i += pass_length (visits, i);
      passes++;
    } while (goes_on (visits, &step, i, passes));
    step.n = i - step.first;
    g_array_append_val (steps, step);
  }
  return steps;
}
