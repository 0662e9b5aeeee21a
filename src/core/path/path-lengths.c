/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Working lengths: nobody sews with five metres of thread. Each length carries its two tails, the
 * weaving-in of its two ends, and as many whole passes as fit on the rest. */
#include "core/path/path-lengths.h"

#include "core/path/path-route.h"

/* Weaving in one end: 16 beads and one turn. A narrow band wants more turns than one; each is a
 * pitch of thread, far less than the tail that is cut off in the end. */
static double
weaving_mm (const BwDesign *design)
{
  return bw_path_pass_mm (design, BW_WEAVING_VISITS);
}

static double
room_mm (const BwDesign *design)
{
  return design->thread.working_mm - 2 * design->thread.tail_mm - 2 * weaving_mm (design);
}

gboolean
bw_needle_has_room (const BwNeedle *needle, double mm)
{
  return needle->used_mm + mm <= room_mm (needle->design);
}

gboolean
bw_needle_has_length_for (const BwNeedle *needle, double mm)
{
  return mm <= room_mm (needle->design);
}

void
bw_needle_begin (BwNeedle *needle)
{
  const BwDesign *design = needle->design;
  BwPath *path = needle->path;
  BwThreadLength length = { .length_mm = 2 * design->thread.tail_mm + 2 * weaving_mm (design) };
  path->part[BW_PART_TAILS].length_mm += 2 * design->thread.tail_mm;
  path->part[BW_PART_WEAVING_IN].length_mm += 2 * weaving_mm (design);
  g_array_append_val (path->lengths, length);
  needle->length = (int)path->lengths->len - 1;
  needle->used_mm = 0;
}

static BwStitch
turned (BwStitch stitch)
{
  stitch.way = -stitch.way;
  return stitch;
}

static void
weave_in_end (BwNeedle *needle, BwStitch from)
{
  BwRoute route = { 0 };
  bw_route_weave (&route, needle, from, BW_WEAVING_VISITS);
  needle->pass++;
  bw_needle_follow (needle, BW_PART_WEAVING_IN, route.stitch, route.n);
}

/* A fresh length comes out of the bead the work goes on from: its route is found backwards from
 * there and gone forwards. */
static void
weave_in_start (BwNeedle *needle, BwStitch to)
{
  BwRoute route = { .n = 1, .stitch = { turned (to) } };
  bw_route_weave (&route, needle, turned (to), BW_WEAVING_VISITS);
  needle->pass++;
  for (int i = route.n - 1; i >= 0; i--)
    bw_needle_pass (needle, BW_PART_WEAVING_IN, turned (route.stitch[i]));
}

void
bw_needle_change (BwNeedle *needle, BwStitch from)
{
  weave_in_end (needle, needle->at);
  bw_needle_begin (needle);
  weave_in_start (needle, from);
}

/* A pass that is too long for any length gets one of its own, rather than being split. */
void
bw_needle_reserve (BwNeedle *needle, double mm, int from, int to)
{
  if (needle->used_mm > 0 && !bw_needle_has_room (needle, mm))
    bw_needle_change (needle, needle->at);
  BwThreadLength *length = &g_array_index (needle->path->lengths, BwThreadLength, needle->length);
  if (!bw_needle_has_length_for (needle, mm))
    needle->path->pass_too_long = TRUE;
  if (length->from_row == 0)
    length->from_row = from;
  length->to_row = to;
  length->length_mm += mm;
  needle->used_mm += mm;
  needle->pass++;
}

/* The tail left hanging at the very beginning is woven in last, backwards out of the first bead. */
void
bw_needle_finish (BwNeedle *needle)
{
  weave_in_end (needle, needle->at);
  needle->length = 0;
  weave_in_end (needle, turned (needle->first));
}
