/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stone itself has spoken: what the strip lacks is read off it, and the forecast only weighs
 * the reading. */
#include "core/band/try-on.h"

#include "core/base/fault.h"
#include "core/base/limits.h"

#include <math.h>

#define ROWS_LEAST 6 /* three beads around */
#define SURE 0.99    /* more than that nobody picks out rows for */
#define HARDLY 0.01  /* a chance too small to choose by */

const char *const bw_tried_how_words[] = { "slack", "pulled", NULL };
const char *const bw_tried_tool_words[] = { "eye", "calliper", NULL };

/* What the strip lacks, slack, once it has n beads around: as the fit has it, and what was learnt.
 */
static double
slack_at (const BwKnownStrip *known, int n)
{
  return bw_deciding (known->design, known->stone, 2 * n).gap_mm + known->longer_mm;
}

/* Where the stone tapers so much that no count is likely to be snug, the fewest rows that close. */
static gboolean
is_better (const BwOdds *one, const BwOdds *other)
{
  if (MAX (one->snug, other->snug) >= HARDLY)
    return one->snug > other->snug;
  if (MAX (one->fewest, other->fewest) > HARDLY)
    return one->fewest > other->fewest;
  return one->off_mm < other->off_mm;
}

static int
within_limits (double n)
{
  return (int)CLAMP (n, ROWS_LEAST / 2, BW_ROWS_MAX / 2);
}

/* Goes from n by step while that is better. */
static int
climb (const BwKnownStrip *known, int n, int step, BwOdds *best)
{
  for (int next = n + step; next == within_limits (next); next += step) {
    BwOdds chance = bw_known_strip_odds (known, next);
    if (!is_better (&chance, best))
      break;
    *best = chance;
    n = next;
  }
  return n;
}

/* The count most likely to be snug. The chances rise to it and fall from it. */
static int
likeliest (const BwKnownStrip *known, BwOdds *best)
{
  double amid = (known->woven.pull_mm - known->design->limits.slack_mm) / 2;
  double lacks = known->woven.gap_mm + known->longer_mm - amid;
  int from = within_limits (rint (known->rows / 2.0 + lacks / known->design->pitch.mm));
  *best = bw_known_strip_odds (known, from);
  int n = climb (known, from, 1, best);
  return n > from ? n : climb (known, from, -1, best);
}

/* Of the counts that are as good as sure the one nearest to what is woven: nobody picks out a strip
 * that closes and grips. */
static int
choose (const BwKnownStrip *known, BwOdds *chance)
{
  int woven = within_limits ((known->rows + 1) / 2), n = likeliest (known, chance);
  int step = woven > n ? 1 : -1;
  while (n != woven) {
    BwOdds nearer = bw_known_strip_odds (known, n + step);
    if (nearer.snug < SURE)
      break;
    *chance = nearer;
    n += step;
  }
  return n;
}

static double
thicker_mm (const BwDesign *design, double over_mm)
{
  return over_mm > design->limits.slack_mm ? over_mm / (2 * G_PI) : 0;
}

/* Where a bead is longer than slack and pull together some strips are right with no count. */
static double
more_bed_mm (const BwKnownStrip *known, int n, const BwOdds *chance)
{
  gboolean open = chance->snug < 0.5 && chance->closes < 0.5 && n < BW_ROWS_MAX / 2;
  return open ? thicker_mm (known->design, -slack_at (known, n + 1)) : 0;
}

/* Nothing is weighed with itself. */
static BwDesign
untold (const BwDesign *design)
{
  BwDesign unread = *design;
  unread.tried = (BwBelief){ 0 };
  return unread;
}

BwReading
bw_reading_beads (const BwDesign *design, double short_beads, BwTriedHow how)
{
  return (BwReading){ short_beads * design->pitch.mm, how, BW_TRIED_BY_EYE };
}

void
bw_try_on_init (BwTryOn *try_on, const BwDesign *design, const BwStone *stone, int rows,
                const BwReading *reading)
{
  BwKnownStrip known;
  *try_on = (BwTryOn){ .rows = rows };
  g_return_if_fail (reading->how == BW_TRIED_SLACK || reading->how == BW_TRIED_PULLED);
  BwDesign unread = untold (design);
  design = &unread;
  bw_known_strip_init (&known, design, stone, rows, reading);
  BwOdds chance;
  int n = choose (&known, &chance);
  double missing = slack_at (&known, n);
  try_on->rows = 2 * n;
  try_on->change = 2 * n - rows;
  try_on->astray_mm = known.astray_mm;
  try_on->closes_probability = chance.closes;
  try_on->snug_probability = chance.snug;
  try_on->pulled_mm = missing;
  try_on->over_mm = -missing;
  try_on->bed_mm = thicker_mm (design, -missing);
  try_on->more_bed_mm = more_bed_mm (&known, n, &chance);
  if (try_on->change < 0 && rows % 2 == 0)
    try_on->stay_bed_mm = thicker_mm (design, -slack_at (&known, rows / 2));
}

BwBelief
bw_tried_belief (const BwDesign *design, const BwStone *stone, const BwTried *tried)
{
  BwKnownStrip known;
  BwOdds chance;
  if (tried->rows < 2)
    return (BwBelief){ 0 };
  BwDesign unread = untold (design);
  bw_known_strip_init (&known, &unread, stone, tried->rows, &tried->reading);
  return (BwBelief){ .is_told = TRUE,
                     .longer_mm = known.longer_mm,
                     .sd_mm = known.longer_sd_mm,
                     .beads_around = choose (&known, &chance) };
}

BwTried
bw_tried_carry (const BwTried *tried, const BwDesign *before, const BwDesign *after,
                const BwStone *stone, int rows)
{
  BwTried carried = *tried;
  BwDesign old = untold (before), fresh = untold (after);
  BwDeciding was = bw_deciding (&old, stone, tried->rows), is = bw_deciding (&fresh, stone, rows);
  carried.rows = rows;
  carried.reading.short_mm += is.gap_mm - was.gap_mm;
  if (tried->reading.how == BW_TRIED_PULLED)
    carried.reading.short_mm -= is.pull_mm - was.pull_mm;
  return carried;
}

double
bw_try_on_most_over (int rows)
{
  return MAX (rows - ROWS_LEAST, 0) / 2.0;
}

gboolean
bw_reading_validate (const BwReading *reading, const BwDesign *design, int rows, BwFault *fault)
{
  double over = -reading->short_mm / design->pitch.mm;
  if (rows < 2)
    return bw_fault_is (fault, BW_FAULTY_NO_STRIP, BW_AT_PROGRESS_ROWS_DONE, 0, 0, 0);
  return over <= bw_try_on_most_over (rows)
         || bw_fault_is (fault, BW_FAULTY_OVERLAP, BW_AT_PROGRESS_ROWS_DONE, rows, over, 0);
}

gboolean
bw_try_on_thicken (BwDesign *design, const BwStone *stone, double by_mm, BwFault *fault)
{
  BwDesign thicker = *design;
  BwBedding bedding;
  if (!bw_bedding_init (&bedding, &design->bed, stone, bw_design_span (design), fault))
    return FALSE;
  thicker.bed.has_girth_over = FALSE;
  thicker.bed.layers = MAX (thicker.bed.layers, 1);
  thicker.bed.cord_thickness_mm = (bedding.bottom_mm + by_mm) / thicker.bed.layers;
  if (!bw_design_validate (&thicker, NULL, fault))
    return FALSE;
  *design = thicker;
  return TRUE;
}
