/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stone itself has spoken: what the strip lacks is read off it, and the forecast only weighs
 * the reading. */
#include "core/band/try-on.h"

#include "core/band/forecast.h"
#include "core/base/fault.h"
#include "core/base/limits.h"
#include "core/base/normal.h"
#include "core/base/tolerance.h"

#include <math.h>

#define ROWS_LEAST 6        /* three beads around */
#define CONTRADICTS_SDS 3.0 /* from the forecast: three in a thousand by chance */
#define DOUBTED_SDS 2.5     /* from here on the forecast fades, so that nothing jumps at three */
#define SURE 0.99           /* more than that nobody picks out rows for */
#define NODES 8             /* either side of nothing */
#define NODE_STEP 0.5       /* standard errors */
#define HARDLY 0.01         /* a chance too small to choose by */

const char *const bw_tried_how_words[] = { "slack", "pulled", NULL };
const char *const bw_tried_tool_words[] = { "eye", "calliper", NULL };

/* The column that decides, at one count of beads: the one that pulling leaves open the most. */
typedef struct {
  double gap_mm;    /* slack */
  double pull_mm;   /* what pulling gives */
  double spread_mm; /* how much less the loosest column lacks */
} Binding;

static Binding
binding_at (const BwDesign *design, const BwStone *stone, int rows)
{
  Binding binding = { -INFINITY, 0, 0 };
  g_autofree BwFit *fit = g_new (BwFit, 1);
  bw_fit_init (fit, design, stone, rows);
  for (int i = 0; i < fit->n_columns; i++) {
    const BwFitColumn *column = &fit->column[i];
    if (column->gap_mm - column->pull_mm > binding.gap_mm - binding.pull_mm)
      binding = (Binding){ column->gap_mm, column->pull_mm, column->gap_mm - fit->gap_min_mm };
  }
  /* The fit counts an odd row as a whole bead; it is half a one. */
  binding.gap_mm += rows % 2 * design->pitch.mm / 2;
  return binding;
}

/* The strip as it is known after the reading: what is missing when it is pulled. */
typedef struct {
  const BwDesign *design;
  const BwStone *stone;
  int rows;
  double pull_mm;    /* of these rows */
  double missing_mm; /* of these rows, pulled */
  double longer_mm;  /* so much more than the fit foretells */
  double sd_mm;      /* of that */
  /* The same error taken apart: of what was read itself, and of the ends of what is right, the
   * pull above and how much less the loosest column lacks below. */
  double read_sd_mm, most_sd_mm, least_sd_mm;
} Strip;

/* How far the forecast is believed with a reading so many standard errors off it: wholly, less and
 * less, not at all. */
static double
belief (double sds)
{
  return CLAMP ((CONTRADICTS_SDS - sds) / (CONTRADICTS_SDS - DOUBTED_SDS), 0, 1);
}

/* Normal and normal: what each says counts by the inverse square of its error. */
static void
weigh (Strip *strip, double read, double read_sd, double astray, double foretold_sd)
{
  double off = hypot (read_sd, foretold_sd), believed = belief (fabs (astray) / off);
  double of_foretold = read_sd * read_sd / (off * off);
  strip->missing_mm = read - believed * of_foretold * astray;
  strip->sd_mm = believed * foretold_sd * read_sd / off + (1 - believed) * read_sd;
}

/* The only place where it matters how the strip was read. */
static double
missing_when_pulled (const BwReading *reading, double short_mm, double pull_mm)
{
  return reading->how == BW_TRIED_SLACK ? short_mm - pull_mm : short_mm;
}

static double
tool_sd_mm (const BwDesign *design, const BwReading *reading)
{
  if (reading->tool == BW_TRIED_BY_CALLIPER)
    return BW_TRIED_CALLIPER_MM;
  return hypot (BW_TRIED_EYE_BEADS, BW_TRIED_EYE_STEP_BEADS / sqrt (12)) * design->pitch.mm;
}

/* What is left of an error when a part of it is taken out. */
static double
without (double sd, double part)
{
  return sqrt (MAX (sd * sd - part * part, 0));
}

/* How the stone tapers was measured by two girths, each with its error; one told across the flats
 * by calliper is known to half of a strip's. */
static double
spread_sd_mm (const BwDesign *design)
{
  const BwStoneMeasures *stone = &design->stone;
  double first = stone->measured == BW_MEASURED_GIRTH ? 1 : 0.5;
  double apart = (design->band.columns - 1) * design->gauge.column_mm;
  if (!stone->has_second)
    return 0;
  return stone->girth_sd_mm * hypot (1, first) * apart / fabs (stone->second_at_mm - stone->at_mm);
}

/* Slack ends were read: what is missing is known when slack, and the pull's error adds to it when
 * pulled. Pulled ends: the other way round. */
static void
set_ends (Strip *strip, gboolean slack, double pull_sd)
{
  double spread_sd = spread_sd_mm (strip->design);
  strip->read_sd_mm = strip->sd_mm;
  strip->most_sd_mm = slack ? pull_sd : 0;
  strip->least_sd_mm = slack ? spread_sd : hypot (spread_sd, pull_sd);
  strip->sd_mm = hypot (strip->read_sd_mm, strip->most_sd_mm);
}

/* Returns by how much the reading contradicts the forecast. */
static double
strip_init (Strip *strip, const BwDesign *design, const BwStone *stone, int rows,
            const BwReading *reading)
{
  double most = BW_ROWS_MAX / 2.0 * design->pitch.mm;
  Binding binding = binding_at (design, stone, rows);
  *strip = (Strip){ .design = design, .stone = stone, .rows = rows, .pull_mm = binding.pull_mm };
  double read
      = missing_when_pulled (reading, CLAMP (reading->short_mm, -most, most), binding.pull_mm);
  gboolean slack = reading->how == BW_TRIED_SLACK;
  double pull_sd = slack ? bw_forecast_pull_sd_mm (design, stone, (rows + 1) / 2) : 0;
  double hand = slack ? 0 : BW_TRIED_HAND_SHARE * binding.pull_mm;
  double read_sd = hypot (tool_sd_mm (design, reading), hand);
  double foretold_sd = without (bw_forecast_sigma_mm (design, stone), pull_sd);
  double astray = read - (binding.gap_mm - binding.pull_mm);
  weigh (strip, read, read_sd, astray, foretold_sd);
  strip->longer_mm = strip->missing_mm - (binding.gap_mm - binding.pull_mm);
  set_ends (strip, slack, bw_forecast_pull_sd_mm (design, stone, (rows + 1) / 2));
  return fabs (astray) > CONTRADICTS_SDS * hypot (read_sd, foretold_sd) ? astray : 0;
}

/* What the strip lacks, slack, once it has n beads around: as the fit has it, and what was learnt.
 */
static double
slack_at (const Strip *strip, int n)
{
  return binding_at (strip->design, strip->stone, 2 * n).gap_mm + strip->longer_mm;
}

/* What is known of one count. */
typedef struct {
  double closes; /* the chance that no more is missing than pulling gives */
  double snug;   /* and that no column is too long by more than the slack */
  double fewest; /* that it closes and a bead less would not */
  double off_mm; /* how far it lies from snug; 0: it does not */
} Chance;

/* That a normal error lies between the two; taken in the lower tail, where small chances last. */
static double
between (double lo, double hi, double sd)
{
  if (lo > hi)
    return 0;
  if (sd <= 0)
    return lo <= BW_ROUNDING_MM && hi >= -BW_ROUNDING_MM ? 1 : 0;
  return lo > 0 ? bw_normal_below (-lo / sd) - bw_normal_below (-hi / sd)
                : bw_normal_below (hi / sd) - bw_normal_below (lo / sd);
}

/* The same with an upper end that is known with an error of its own, normal too: the mean over it,
 * by the trapezoidal rule, which for so smooth a function is as exact as one could wish. */
static double
between_about (double lo, double hi, double hi_sd, double sd)
{
  double sum = 0, weight = 0;
  if (hi_sd <= 0)
    return between (lo, hi, sd);
  for (int i = -NODES; i <= NODES; i++) {
    double z = i * NODE_STEP, density = exp (-0.5 * z * z);
    sum += density * between (lo, hi + z * hi_sd, sd);
    weight += density;
  }
  return sum / weight;
}

/* And both ends so. */
static double
snug_between (const Strip *strip, double lo, double hi)
{
  double sum = 0, weight = 0, lo_sd = strip->least_sd_mm;
  if (lo_sd <= 0)
    return between_about (lo, hi, strip->most_sd_mm, strip->read_sd_mm);
  for (int i = -NODES; i <= NODES; i++) {
    double z = i * NODE_STEP, density = exp (-0.5 * z * z);
    sum += density * between_about (lo + z * lo_sd, hi, strip->most_sd_mm, strip->read_sd_mm);
    weight += density;
  }
  return sum / weight;
}

static Chance
chance_at (const Strip *strip, int n)
{
  Binding binding = binding_at (strip->design, strip->stone, 2 * n);
  double lacks = binding.gap_mm + strip->longer_mm, room = binding.pull_mm - lacks;
  double longest = binding.spread_mm - strip->design->limits.slack_mm - lacks;
  double closes = between (-INFINITY, room, strip->sd_mm);
  return (Chance){ .closes = closes,
                   .snug = MIN (snug_between (strip, longest, room), closes),
                   .fewest = between (room - strip->design->pitch.mm, room, strip->sd_mm),
                   .off_mm = MAX (MAX (longest, -room), 0) };
}

/* Where the stone tapers so much that no count is likely to be snug, the fewest rows that close. */
static gboolean
is_better (const Chance *one, const Chance *other)
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
climb (const Strip *strip, int n, int step, Chance *best)
{
  for (int next = n + step; next == within_limits (next); next += step) {
    Chance chance = chance_at (strip, next);
    if (!is_better (&chance, best))
      break;
    *best = chance;
    n = next;
  }
  return n;
}

/* The count most likely to be snug. The chances rise to it and fall from it. */
static int
likeliest (const Strip *strip, Chance *best)
{
  double amid = (strip->pull_mm - strip->design->limits.slack_mm) / 2;
  double lacks = strip->missing_mm + strip->pull_mm - amid;
  int from = within_limits (rint (strip->rows / 2.0 + lacks / strip->design->pitch.mm));
  *best = chance_at (strip, from);
  int n = climb (strip, from, 1, best);
  return n > from ? n : climb (strip, from, -1, best);
}

/* Of the counts that are as good as sure the one nearest to what is woven: nobody picks out a strip
 * that closes and grips. */
static int
choose (const Strip *strip, Chance *chance)
{
  int woven = within_limits ((strip->rows + 1) / 2), n = likeliest (strip, chance);
  int step = woven > n ? 1 : -1;
  while (n != woven) {
    Chance nearer = chance_at (strip, n + step);
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
more_bed_mm (const Strip *strip, int n, const Chance *chance)
{
  gboolean open = chance->snug < 0.5 && chance->closes < 0.5 && n < BW_ROWS_MAX / 2;
  return open ? thicker_mm (strip->design, -slack_at (strip, n + 1)) : 0;
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
  Strip strip;
  *try_on = (BwTryOn){ .rows = rows };
  g_return_if_fail (reading->how == BW_TRIED_SLACK || reading->how == BW_TRIED_PULLED);
  BwDesign unread = untold (design);
  design = &unread;
  try_on->astray_mm = strip_init (&strip, design, stone, rows, reading);
  Chance chance;
  int n = choose (&strip, &chance);
  double missing = slack_at (&strip, n);
  try_on->rows = 2 * n;
  try_on->change = 2 * n - rows;
  try_on->closes_probability = chance.closes;
  try_on->snug_probability = chance.snug;
  try_on->pulled_mm = missing;
  try_on->over_mm = -missing;
  try_on->bed_mm = thicker_mm (design, -missing);
  try_on->more_bed_mm = more_bed_mm (&strip, n, &chance);
  if (try_on->change < 0 && rows % 2 == 0)
    try_on->stay_bed_mm = thicker_mm (design, -slack_at (&strip, rows / 2));
}

BwBelief
bw_tried_belief (const BwDesign *design, const BwStone *stone, const BwTried *tried)
{
  Strip strip;
  Chance chance;
  if (tried->rows < 2)
    return (BwBelief){ 0 };
  BwDesign unread = untold (design);
  strip_init (&strip, &unread, stone, tried->rows, &tried->reading);
  return (BwBelief){ .is_told = TRUE,
                     .longer_mm = strip.longer_mm,
                     .sd_mm = strip.sd_mm,
                     .beads_around = choose (&strip, &chance) };
}

BwTried
bw_tried_carry (const BwTried *tried, const BwDesign *before, const BwDesign *after,
                const BwStone *stone, int rows)
{
  BwTried carried = *tried;
  BwDesign old = untold (before), fresh = untold (after);
  Binding was = binding_at (&old, stone, tried->rows), is = binding_at (&fresh, stone, rows);
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
