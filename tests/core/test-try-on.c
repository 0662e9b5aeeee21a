/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What to do when the ends of a strip miss each other, or overlap. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "../fewer.h"
#include "core/band/forecast.h"
#include "core/band/try-on.h"

#include "makers.h"

#include <math.h>

#define SEED 4711
#define MAKERS few (2000)

/* The same width at every height, so that one column is as tight as another. */
static BwDesign
straight_design (void)
{
  BwDesign design = sample_design ();
  design.stone.has_second = FALSE;
  return design;
}

/* Slack ends read, and nothing else known but how the stone tapers: the forecast says nothing. */
static void
try_on_slack (BwTryOn *try_on, const BwDesign *design, const BwStone *stone, int rows,
              double short_beads)
{
  BwDesign unknown = *design;
  unknown.pitch.sd_mm = 1e9;
  unknown.stone.girth_sd_mm = 0;
  BwReading reading = bw_reading_beads (design, short_beads, BW_TRIED_SLACK);
  reading.tool = BW_TRIED_BY_CALLIPER;
  bw_try_on_init (try_on, &unknown, stone, rows, &reading);
}

/* What the column lacks, slack, that pulling leaves open the most; `pull` receives what it gives.
 */
static double
deciding_gap (const BwDesign *design, const BwStone *stone, int rows, double *pull)
{
  g_autofree BwFit *fit = g_new (BwFit, 1);
  double most = -INFINITY;
  bw_fit_init (fit, design, stone, rows);
  for (int i = 0; i < fit->n_columns; i++)
    if (fit->column[i].gap_mm - fit->column[i].pull_mm > most) {
      *pull = fit->column[i].pull_mm;
      most = fit->column[i].gap_mm - *pull;
    }
  return most + *pull;
}

/* By how much less so many more beads lack, as the fit has it: about a pitch each. */
static double
gained (const BwDesign *design, const BwStone *stone, int rows, int beads)
{
  double pull;
  return deciding_gap (design, stone, rows, &pull)
         - deciding_gap (design, stone, rows + 2 * beads, &pull);
}

static void
ends_that_meet_want_nothing (void **state)
{
  BwTryOn try_on;
  BwStone stone;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  try_on_slack (&try_on, &design, &stone, 110, 0);
  assert_int_equal (try_on.change, 0);
  assert_near (try_on.pulled_mm, 0, 1e-9);
  assert_near (try_on.bed_mm, 0, 1e-9);
  assert_near (try_on.stay_bed_mm, 0, 1e-9);
}

/* Pulling would close it with a bead less, too. */
static void
a_strip_that_fits_is_not_picked_out (void **state)
{
  BwTryOn try_on;
  BwStone stone;
  BwDesign design = straight_design ();
  sample_solve (&design, &stone);
  try_on_slack (&try_on, &design, &stone, 110, -0.5 * design.limits.slack_mm / design.pitch.mm);
  assert_int_equal (try_on.change, 0);
  try_on_slack (&try_on, &design, &stone, 110, -1.1 * design.limits.slack_mm / design.pitch.mm);
  assert_int_equal (try_on.change, -2);
  design.thread.stretch = 0.05;
  try_on_slack (&try_on, &design, &stone, 110, 1.2 / design.pitch.mm);
  assert_int_equal (try_on.change, 0);
  try_on_slack (&try_on, &design, &stone, 110, -1.1 * design.limits.slack_mm / design.pitch.mm);
  assert_true (try_on.change < 0);
}

static void
a_thicker_bed_can_take_up_what_would_be_picked_out (void **state)
{
  BwTryOn try_on;
  BwStone stone;
  BwDesign design = straight_design ();
  sample_solve (&design, &stone);
  try_on_slack (&try_on, &design, &stone, 110, -2);
  assert_true (try_on.change <= -4);
  assert_near (try_on.stay_bed_mm, 2 * design.pitch.mm / (2 * G_PI), 1e-9);
  try_on_slack (&try_on, &design, &stone, 111, -2);
  assert_near (try_on.stay_bed_mm, 0, 1e-9);
  assert_near (bw_try_on_most_over (110), 52, 1e-9);
  assert_near (bw_try_on_most_over (2), 0, 1e-9);
}

static double
thickness_of (const BwDesign *design, const BwStone *stone)
{
  BwBedding bedding;
  assert_true (bw_bedding_init (&bedding, &design->bed, stone, bw_design_span (design), NULL));
  return bedding.bottom_mm;
}

static void
a_bed_is_made_thicker_by_just_that_much (void **state)
{
  BwStone stone;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  double before = thickness_of (&design, &stone);
  assert_true (bw_try_on_thicken (&design, &stone, 0.25, NULL));
  assert_near (thickness_of (&design, &stone), before + 0.25, 1e-9);
  design.bed.has_girth_over = TRUE;
  design.bed.girth_over_mm = stone.girth_mm + 3;
  before = thickness_of (&design, &stone);
  assert_true (bw_try_on_thicken (&design, &stone, 0.1, NULL));
  assert_false (design.bed.has_girth_over);
  assert_near (thickness_of (&design, &stone), before + 0.1, 1e-9);
}

static void
a_bed_too_thick_is_refused_and_changes_nothing (void **state)
{
  BwFault fault = { .key = BW_N_FAULT_KEYS };
  BwStone stone;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  double before = thickness_of (&design, &stone);
  int layers = design.bed.layers;
  assert_false (bw_try_on_thicken (&design, &stone, 1e6, &fault));
  assert_int_equal (fault.kind, BW_FAULTY_RANGE);
  assert_int_equal (fault.key, BW_AT_BED_CORD_THICKNESS);
  assert_near (thickness_of (&design, &stone), before, 1e-12);
  assert_int_equal (design.bed.layers, layers);
}

/* Without any give in thread and bed. */
static void
a_bead_short_is_two_rows (void **state)
{
  BwTryOn try_on;
  BwStone stone;
  BwDesign design = straight_design ();
  design.thread.stretch = 0;
  design.bed.squeeze = 0;
  sample_solve (&design, &stone);
  for (int beads = -5; beads <= 5; beads++) {
    try_on_slack (&try_on, &design, &stone, 100, beads);
    assert_int_equal (try_on.change, 2 * beads);
    double gain = gained (&design, &stone, 100, beads);
    assert_near (try_on.over_mm, gain - beads * design.pitch.mm, 1e-9);
    assert_near (try_on.over_mm, 0, 0.25 * design.pitch.mm);
  }
  try_on_slack (&try_on, &design, &stone, 101, 0.5);
  assert_int_equal (try_on.rows, 102);
  assert_int_equal (try_on.change, 1);
}

/* Pulling closes a little; more than it gives takes another bead, and what is then too long goes
 * into the bed: its girth grows by 2π for each millimetre of thickness. */
static void
what_pulling_does_not_close_takes_a_bead_and_more_bed (void **state)
{
  BwTryOn much;
  BwStone stone;
  BwDesign design = straight_design ();
  double p = design.pitch.mm;
  design.thread.stretch = 0;
  design.bed.squeeze = 0;
  sample_solve (&design, &stone);
  try_on_slack (&much, &design, &stone, 110, 0.3);
  assert_int_equal (much.rows, 112);
  double over = gained (&design, &stone, 110, 1) - 0.3 * p;
  assert_near (over, 0.7 * p, 0.1 * p);
  assert_near (much.over_mm, over, 1e-9);
  assert_near (much.bed_mm, over / (2 * G_PI), 1e-9);
  assert_near (much.more_bed_mm, 0, 0);
}

/* Without any pull a bead is longer than the slack: between two counts none is right, and the
 * greater one with more bed is told beside the likelier one. */
static void
where_no_count_is_right_a_bead_more_and_more_bed_is_told (void **state)
{
  BwTryOn try_on;
  BwStone stone;
  BwDesign design = straight_design ();
  double p = design.pitch.mm;
  design.thread.stretch = 0;
  design.bed.squeeze = 0;
  sample_solve (&design, &stone);
  try_on_slack (&try_on, &design, &stone, 110, 0.2);
  assert_int_equal (try_on.change, 0);
  assert_true (try_on.snug_probability < 0.3);
  assert_near (try_on.more_bed_mm, (gained (&design, &stone, 110, 1) - 0.2 * p) / (2 * G_PI), 1e-9);
}

/* Were the model the truth, the maker would count what it computes, and the advice would close and
 * grip by it whenever a count does: the recommended one, or the next where that has more to spare.
 */
static void
a_true_model_is_told_a_count_that_is_snug (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  int snug = 0, could = 0;
  for (int k = 0; k < 200; k++) {
    BwStone stone;
    BwTryOn try_on;
    double pull = 0;
    BwDesign design = sample_random_design (rand, &stone);
    int recommended = 2 * bw_fit_recommended (&design, &stone);
    int rows = MAX (recommended - 4, 6);
    double lacks = deciding_gap (&design, &stone, rows, &pull);
    try_on_slack (&try_on, &design, &stone, rows, lacks / design.pitch.mm);
    assert_true (ABS (try_on.rows - recommended) <= 2 || try_on.snug_probability > 0.99);
    could += bw_fit_is_snug (&design, &stone, recommended);
    snug += bw_fit_is_snug (&design, &stone, recommended)
            && bw_fit_is_snug (&design, &stone, try_on.rows);
  }
  assert_true (could >= 100);
  assert_int_equal (snug, could);
}

/* Three beads must be left to go round. */
static void
a_strip_lies_over_itself_by_no_more_than_it_has (void **state)
{
  BwDesign design = sample_design ();
  for (int rows = 6; rows < 40; rows += 5) {
    BwFault fault = { .key = BW_N_FAULT_KEYS };
    double most = (rows - 6) / 2.0;
    BwReading reading = bw_reading_beads (&design, -most - 0.1, BW_TRIED_SLACK);
    assert_false (bw_reading_validate (&reading, &design, rows, &fault));
    assert_int_equal (fault.kind, BW_FAULTY_OVERLAP);
    assert_int_equal (fault.key, BW_AT_PROGRESS_ROWS_DONE);
    reading = bw_reading_beads (&design, -most + 1e-9, BW_TRIED_PULLED);
    assert_true (bw_reading_validate (&reading, &design, rows, NULL));
  }
  BwReading none = bw_reading_beads (&design, 1, BW_TRIED_SLACK);
  assert_false (bw_reading_validate (&none, &design, 1, NULL));
}

static void
absurd_counts_stay_within_the_limits (void **state)
{
  BwTryOn try_on;
  BwStone stone;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  try_on_slack (&try_on, &design, &stone, 10, -1e12);
  assert_int_equal (try_on.rows, 6);
  try_on_slack (&try_on, &design, &stone, 10, 1e12);
  assert_true (try_on.rows <= BW_ROWS_MAX);
}

/* The order of what is known does not matter where the forecast and the reading agree, and each
 * sharpens the other. */
static void
a_reading_is_weighed_with_the_forecast_by_their_errors (void **state)
{
  BwStone stone;
  BwFit fit;
  BwTryOn try_on;
  BwDesign design = straight_design ();
  sample_solve (&design, &stone);
  int rows = 2 * bw_fit_recommended (&design, &stone);
  bw_fit_init (&fit, &design, &stone, rows);
  double deciding = -INFINITY, gap = 0, pull = 0;
  for (int i = 0; i < fit.n_columns; i++)
    if (fit.column[i].gap_mm - fit.column[i].pull_mm > deciding) {
      gap = fit.column[i].gap_mm;
      pull = fit.column[i].pull_mm;
      deciding = gap - pull;
    }
  BwReading reading = { gap + 0.4, BW_TRIED_SLACK, BW_TRIED_BY_CALLIPER };
  bw_try_on_init (&try_on, &design, &stone, rows, &reading);
  /* What pulling gives is as little known to the one as to the other, and weighs for neither. */
  double pull_sd = bw_forecast_pull_sd_mm (&design, &stone, rows / 2);
  double sigma = bw_forecast_sigma_mm (&design, &stone);
  double foretold = 1 / (sigma * sigma - pull_sd * pull_sd), read = 1 / (0.15 * 0.15);
  double slack = gap + 0.4 * read / (read + foretold);
  assert_near (try_on.pulled_mm, slack - gained (&design, &stone, rows, try_on.change / 2), 1e-9);
  BwTried tried = { rows, reading };
  assert_near (bw_tried_belief (&design, &stone, &tried).sd_mm,
               hypot (sqrt (1 / (read + foretold)), pull_sd), 1e-9);
  reading.how = BW_TRIED_PULLED;
  reading.short_mm = gap - pull + 0.4;
  bw_try_on_init (&try_on, &design, &stone, rows, &reading);
  read = 1 / (0.15 * 0.15 + 0.15 * 0.15 * pull * pull);
  slack = gap + 0.4 * read / (read + 1 / (sigma * sigma));
  assert_near (try_on.pulled_mm, slack - gained (&design, &stone, rows, try_on.change / 2), 1e-9);
  assert_near (try_on.astray_mm, 0, 0);
}

static void
a_reading_far_from_the_forecast_counts_alone_and_says_so (void **state)
{
  BwStone stone;
  BwTryOn try_on;
  BwDesign design = straight_design ();
  sample_solve (&design, &stone);
  for (int sign = -1; sign <= 1; sign += 2) {
    BwReading reading = bw_reading_beads (&design, sign * 12, BW_TRIED_SLACK);
    bw_try_on_init (&try_on, &design, &stone, 110, &reading);
    assert_true (sign * try_on.astray_mm > 10);
    double gain = gained (&design, &stone, 110, try_on.change / 2);
    assert_near (try_on.pulled_mm, 12 * sign * design.pitch.mm - gain, 1e-9);
  }
}

/* The same strip, read both ways: slack, and pulled by what the program says pulling gives. Where
 * it lies as foretold there is nothing to weigh. */
static void
a_strip_read_slack_and_read_pulled_is_told_the_same (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  int agree = 0, all = 100;
  for (int k = 0; k < all; k++) {
    BwStone stone;
    BwTryOn slack, pulled;
    g_autofree BwFit *fit = g_new (BwFit, 1);
    BwDesign design = sample_random_design (rand, &stone);
    int rows = 2 * bw_fit_recommended (&design, &stone) - 2;
    bw_fit_init (fit, &design, &stone, rows);
    double missing = -INFINITY, pull = 0;
    for (int i = 0; i < fit->n_columns; i++)
      if (fit->column[i].gap_mm - fit->column[i].pull_mm > missing) {
        pull = fit->column[i].pull_mm;
        missing = fit->column[i].gap_mm - pull;
      }
    BwReading as_slack = { missing + pull, BW_TRIED_SLACK, BW_TRIED_BY_CALLIPER };
    BwReading as_pulled = { missing, BW_TRIED_PULLED, BW_TRIED_BY_CALLIPER };
    bw_try_on_init (&slack, &design, &stone, rows, &as_slack);
    bw_try_on_init (&pulled, &design, &stone, rows, &as_pulled);
    if (slack.rows != pulled.rows)
      continue;
    /* Where it tapers, what was read tells a little of the taper, by its own error. */
    assert_near (pulled.pulled_mm, slack.pulled_mm, design.stone.has_second ? 0.05 : 1e-9);
    agree++;
  }
  assert_true (agree >= 80); /* their errors differ, and with them what is likeliest */
}

/* --- The count does not jump ----------------------------------------------------------------- */

#define STEP_MM 0.004

/* A strip of about as many rows as close, to be read ever longer. */
typedef struct {
  BwDesign design;
  BwStone stone;
  int rows;
  BwReading from;
} Strip;

/* Some stand so far from the forecast that the readings go through its fading. */
static void
strip_init (Strip *strip, GRand *rand)
{
  g_autofree BwFit *fit = g_new (BwFit, 1);
  strip->design = sample_random_design (rand, &strip->stone);
  strip->rows = 2 * bw_fit_recommended (&strip->design, &strip->stone);
  strip->rows = MAX (strip->rows + 2 * g_rand_int_range (rand, -2, 3), 6);
  bw_fit_init (fit, &strip->design, &strip->stone, strip->rows);
  double sd = bw_forecast_sigma_mm (&strip->design, &strip->stone);
  strip->from.short_mm = fit->gap_max_mm + sample_between (rand, -4, 4) * sd;
  strip->from.how = g_rand_boolean (rand) ? BW_TRIED_SLACK : BW_TRIED_PULLED;
  strip->from.tool = g_rand_boolean (rand) ? BW_TRIED_BY_EYE : BW_TRIED_BY_CALLIPER;
}

static void
read_on (BwTryOn *try_on, const Strip *strip, int step)
{
  BwReading reading = strip->from;
  reading.short_mm += step * STEP_MM;
  bw_try_on_init (try_on, &strip->design, &strip->stone, strip->rows, &reading);
}

/* One step of the reading moves what is known by no more than the fading adds (seven times), and a
 * chance by no more than the normal density (0.4) of each end over the error; one in a hundred is
 * where two counts are both as good as sure. */
static double
step_at_most (const Strip *strip)
{
  double least = MIN (BW_TRIED_CALLIPER_MM, bw_forecast_sigma_mm (&strip->design, &strip->stone));
  return 0.01 + 2 * 0.4 * 7 * STEP_MM / (0.7 * least);
}

/* Where two counts meet both are as likely: so the chance told goes on where the count does not. */
static void
the_count_changes_only_where_two_are_as_likely_right (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  int changes = 0, equal = 0;
  for (int k = 0; k < 10; k++) {
    Strip strip;
    BwTryOn before, now;
    strip_init (&strip, rand);
    read_on (&before, &strip, 0);
    for (int step = 1; step < 600; step++, before = now) {
      read_on (&now, &strip, step);
      assert_near (now.snug_probability, before.snug_probability, step_at_most (&strip));
      assert_true (now.rows >= before.rows);
      changes += now.rows != before.rows;
      equal += now.rows != before.rows && now.snug_probability < 0.98;
    }
  }
  assert_true (changes >= 10);
  assert_true (equal >= 3);
}

static double
deciding_pull (const Strip *strip, int rows)
{
  double pull = 0;
  deciding_gap (&strip->design, &strip->stone, rows, &pull);
  return pull;
}

/* Where a reading begins to contradict the forecast is found by halving: on both sides of it the
 * same is told, but for one in a hundred where two counts are as good as sure. */
static void
nothing_jumps_where_the_forecast_is_given_up (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED + 2);
  for (int k = 0; k < 60; k++) {
    Strip strip;
    BwTryOn agrees, contradicts, middle;
    strip_init (&strip, rand);
    double lo = deciding_gap (&strip.design, &strip.stone, strip.rows, &(double){ 0 });
    double hi = lo + (k % 2 ? 60 : -60);
    while (fabs (hi - lo) > 1e-6) {
      strip.from.short_mm = (lo + hi) / 2;
      read_on (&middle, &strip, 0);
      if (fabs (middle.astray_mm) > 0)
        hi = strip.from.short_mm;
      else
        lo = strip.from.short_mm;
    }
    strip.from.short_mm = lo;
    read_on (&agrees, &strip, 0);
    strip.from.short_mm = hi;
    read_on (&contradicts, &strip, 0);
    assert_true (fabs (contradicts.astray_mm) > 0);
    assert_near (contradicts.snug_probability, agrees.snug_probability, 0.0101);
  }
}

/* That n beads close and grip, where nothing is known but slack ends by calliper. */
static double
snug_by_reading_alone (const Strip *strip, int n)
{
  g_autofree BwFit *fit = g_new (BwFit, 1);
  double pull_sd = bw_forecast_pull_sd_mm (&strip->design, &strip->stone, strip->rows / 2);
  double pull, sum = 0, weight = 0;
  double lacks = strip->from.short_mm
                 - gained (&strip->design, &strip->stone, strip->rows, n - strip->rows / 2);
  double most = deciding_pull (strip, 2 * n) - lacks;
  bw_fit_init (fit, &strip->design, &strip->stone, 2 * n);
  double loosest
      = lacks - (deciding_gap (&strip->design, &strip->stone, 2 * n, &pull) - fit->gap_min_mm);
  double least = -strip->design.limits.slack_mm - loosest;
  for (double z = -6; z <= 6; z += 0.01) { /* of the pull's error, which no reading tells */
    double density = exp (-z * z / 2), sd = BW_TRIED_CALLIPER_MM * G_SQRT2;
    double hi = most + z * pull_sd;
    sum += least < hi ? density * (erf (hi / sd) - erf (least / sd)) / 2 : 0;
    weight += density;
  }
  return sum / weight;
}

static void
no_count_more_likely_right_is_passed_over (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED + 1);
  int sure = 0;
  for (int k = 0; k < 300; k++) {
    Strip strip;
    BwTryOn told;
    double best = 0;
    strip_init (&strip, rand);
    strip.from.how = BW_TRIED_SLACK;
    strip.from.tool = BW_TRIED_BY_CALLIPER;
    strip.design.stone.girth_sd_mm = 0; /* the taper is known */
    strip.design.pitch.sd_mm = 1e9;
    strip.design.limits.slack_mm *= 1 + 2 * (k % 2); /* with more of it a count can be sure */
    read_on (&told, &strip, 0);
    for (int n = MAX (told.rows / 2 - 3, 3); n <= told.rows / 2 + 3; n++)
      best = MAX (best, snug_by_reading_alone (&strip, n));
    assert_near (told.snug_probability, snug_by_reading_alone (&strip, told.rows / 2), 0.005);
    assert_true (told.snug_probability >= MIN (best, 0.99) - 0.01);
    assert_true (told.closes_probability >= told.snug_probability);
    if (snug_by_reading_alone (&strip, strip.rows / 2) >= 0.999) {
      assert_int_equal (told.change, 0);
      sure++;
    }
  }
  assert_true (sure >= 5);
}

typedef enum { SLACK_BY_EYE, SLACK_BY_CALLIPER, PULLED_BY_EYE, PULLED_SAID_SLACK, N_WAYS } Way;

static BwReading
read_strip (const Maker *maker, GRand *rand, int rows, Way way)
{
  BwTriedHow how = way >= PULLED_BY_EYE ? BW_TRIED_PULLED : BW_TRIED_SLACK;
  BwTriedTool tool = way == SLACK_BY_CALLIPER ? BW_TRIED_BY_CALLIPER : BW_TRIED_BY_EYE;
  BwReading reading = maker_read (maker, rand, rows, how, tool);
  if (way == PULLED_SAID_SLACK)
    reading.how = BW_TRIED_SLACK;
  return reading;
}

/* Pulling at every second row until the ends meet. */
static int
stops_at (const Maker *maker, GRand *rand, int rows)
{
  while (!maker_pull (maker, rand, rows))
    rows += 2;
  return rows;
}

typedef struct {
  double right, off_rows; /* share of the makers with the fewest rows that close, mean error */
  double snug;            /* share of those whom some count fits: it closes and grips */
  int could;
} Outcome;

static void
count (Outcome *outcome, int rows, const Maker *maker)
{
  outcome->right += (rows == maker->right) / (double)MAKERS;
  outcome->off_rows += ABS (rows - maker->right) / (double)MAKERS;
  if (maker_is_snug (maker, maker->right)) {
    outcome->could++;
    outcome->snug += maker_is_snug (maker, rows);
  }
}

/* Three points are three standard errors of the share among two thousand makers. */
static void
assert_comes_out (const Outcome *outcome, double snug, double right, double off_rows)
{
  double wider = sqrt (2000.0 / MAKERS);
  assert_near (outcome->snug / outcome->could, snug, 0.03 * wider);
  assert_near (outcome->right, right, 0.03 * wider);
  assert_near (outcome->off_rows, off_rows, 0.08 * wider);
}

/* The study, whose stones and beads were others, found 86 % for slack ends by eye, 92 % by
 * calliper, 94.5 % for pulling until the ends meet, and 25 % where a pulled reading had the pull
 * added once more: here that is a maker who says slack of a strip read pulled. The first figure is
 * how often the told count closes and grips where one does, which is what is asked for; the second
 * how often it is the very fewest that close, which a reading alone cannot always tell from the
 * next. */
static void
the_ways_of_reading_come_out_much_as_in_a_study_of_makers (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  Outcome read[N_WAYS] = { 0 }, until_it_closes = { 0 };
  for (int k = 0; k < MAKERS;) {
    Maker maker;
    BwForecast forecast;
    if (!maker_init (&maker, rand))
      continue;
    k++;
    bw_forecast_init (&forecast, &maker.told, &maker.known);
    for (int way = 0; way < N_WAYS; way++) {
      BwTryOn try_on;
      BwReading reading = read_strip (&maker, rand, forecast.try_on_row, (Way)way);
      bw_try_on_init (&try_on, &maker.told, &maker.known, forecast.try_on_row, &reading);
      count (&read[way], try_on.rows, &maker);
    }
    count (&until_it_closes, stops_at (&maker, rand, forecast.try_on_row), &maker);
  }
  assert_comes_out (&read[SLACK_BY_EYE], 0.92, 0.80, 0.40);
  assert_comes_out (&read[SLACK_BY_CALLIPER], 0.965, 0.815, 0.37);
  assert_comes_out (&read[PULLED_BY_EYE], 0.92, 0.795, 0.41);
  assert_comes_out (&read[PULLED_SAID_SLACK], 0.56, 0.55, 0.91);
  assert_comes_out (&until_it_closes, 0.95, 0.91, 0.18);
}

/* Of stones that taper, and told between a fifth and a half, where what is known of the taper
 * weighs most: the standard error of the share is one in a hundred. */
static void
closing_and_gripping_comes_true_as_often_as_told (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  double told = 0, came = 0;
  int tellings = 0;
  for (int k = 0; k < few (2800); k++) {
    Maker maker;
    BwTryOn try_on;
    BwForecast forecast;
    if (!maker_init_with (&maker, rand, (MakerHabits){ k % 2, TRUE, TRUE }))
      continue;
    BwCheck swatch = maker_check (&maker, rand, 24, 0.3);
    maker.told.pitch = bw_gauge_pitch (&maker.told.gauge, &swatch, k / 2 % 2);
    bw_forecast_init (&forecast, &maker.told, &maker.known);
    for (int way = 0; way < PULLED_SAID_SLACK; way++) {
      BwReading reading = read_strip (&maker, rand, forecast.try_on_row, (Way)way);
      bw_try_on_init (&try_on, &maker.told, &maker.known, forecast.try_on_row, &reading);
      if (try_on.snug_probability < 0.2 || try_on.snug_probability > 0.5)
        continue;
      told += try_on.snug_probability;
      came += maker_is_snug (&maker, try_on.rows);
      tellings++;
    }
  }
  assert_true (tellings > few (1500));
  assert_near (came / tellings, told / tellings, 0.03 * sqrt (2800.0 / few (2800)));
}

/* --- A reading that is kept --------------------------------------------------------------------
 */

/* A strip near what is foretold, read in a way by chance. */
static BwTried
random_tried (const BwDesign *design, const BwStone *stone, GRand *rand)
{
  g_autofree BwFit *fit = g_new (BwFit, 1);
  int near = bw_fit_recommended (design, stone) + g_rand_int_range (rand, -3, 3);
  BwTried tried = { .rows = 2 * near };
  bw_fit_init (fit, design, stone, tried.rows);
  tried.reading = (BwReading){ fit->gap_max_mm + g_rand_double_range (rand, -1.2, 1.2),
                               g_rand_boolean (rand) ? BW_TRIED_SLACK : BW_TRIED_PULLED,
                               g_rand_boolean (rand) ? BW_TRIED_BY_EYE : BW_TRIED_BY_CALLIPER };
  return tried;
}

static void
what_was_read_is_what_forecast_and_fit_tell_from_then_on (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  BwStone stone;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  g_autofree BwForecast *before = g_new (BwForecast, 1), *after = g_new (BwForecast, 1);
  bw_forecast_init (before, &design, &stone);
  int moved = 0;
  for (int i = 0; i < 150; i++) {
    BwTryOn try_on;
    BwTried tried = random_tried (&design, &stone, rand);
    bw_try_on_init (&try_on, &design, &stone, tried.rows, &tried.reading);
    BwDesign told = design;
    told.tried = bw_tried_belief (&design, &stone, &tried);
    told.band.rows = try_on.rows;
    bw_forecast_init (after, &told, &stone);
    assert_int_equal (2 * after->recommended, try_on.rows);
    /* The one solves the ring anew for the count, the other goes on in a straight line. */
    assert_near (after->closes_probability, try_on.closes_probability, 0.1);
    assert_true (after->sigma_mm < before->sigma_mm);
    g_autofree BwFit *fit = g_new (BwFit, 1);
    bw_fit_init (fit, &told, &stone, try_on.rows);
    assert_near (fit->gap_max_mm, try_on.pulled_mm, 0.06);
    assert_int_equal (bw_fit_verdict (&told, &stone, try_on.rows, NULL, NULL), fit->verdict);
    assert_int_equal (bw_fit_is_snug (&told, &stone, try_on.rows), fit->verdict == BW_VERDICT_SNUG);
    moved += after->recommended != before->recommended;
  }
  assert_true (moved > 15);
}

static void
a_reading_is_not_weighed_with_itself (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED + 1);
  BwStone stone;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  for (int i = 0; i < 20; i++) {
    BwTryOn once, again;
    BwTried tried = random_tried (&design, &stone, rand);
    BwDesign told = design;
    told.tried = bw_tried_belief (&design, &stone, &tried);
    bw_try_on_init (&once, &design, &stone, tried.rows, &tried.reading);
    bw_try_on_init (&again, &told, &stone, tried.rows, &tried.reading);
    BwBelief same = bw_tried_belief (&told, &stone, &tried);
    assert_memory_equal (&once, &again, sizeof once);
    assert_near (same.longer_mm, told.tried.longer_mm, 1e-12);
  }
}

static void
nothing_read_teaches_nothing (void **state)
{
  BwStone stone;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  BwBelief none = bw_tried_belief (&design, &stone, &(BwTried){ 0 });
  assert_false (none.is_told);
  assert_near (none.longer_mm, 0, 0);
}

/* The stone is as large as it is, whatever is picked out or wound. */
static void
a_reading_carried_along_teaches_the_same (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED + 2);
  BwStone stone;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  for (int i = 0; i < 60; i++) {
    BwTried tried = random_tried (&design, &stone, rand);
    BwDesign thicker = design;
    thicker.bed.cord_thickness_mm += 0.1;
    BwTried fewer = bw_tried_carry (&tried, &design, &design, &stone, tried.rows - 4);
    BwTried over = bw_tried_carry (&tried, &design, &thicker, &stone, tried.rows);
    assert_int_equal (fewer.rows, tried.rows - 4);
    assert_true (fewer.reading.short_mm > tried.reading.short_mm + 1.5 * design.pitch.mm);
    assert_true (over.reading.short_mm > tried.reading.short_mm + 0.4);
    BwBelief was = bw_tried_belief (&design, &stone, &tried);
    assert_near (bw_tried_belief (&design, &stone, &fewer).longer_mm, was.longer_mm, 0.02);
    assert_near (bw_tried_belief (&thicker, &stone, &over).longer_mm, was.longer_mm, 0.02);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (ends_that_meet_want_nothing),
    cmocka_unit_test (a_strip_that_fits_is_not_picked_out),
    cmocka_unit_test (a_thicker_bed_can_take_up_what_would_be_picked_out),
    cmocka_unit_test (a_bed_is_made_thicker_by_just_that_much),
    cmocka_unit_test (a_bed_too_thick_is_refused_and_changes_nothing),
    cmocka_unit_test (a_bead_short_is_two_rows),
    cmocka_unit_test (what_pulling_does_not_close_takes_a_bead_and_more_bed),
    cmocka_unit_test (where_no_count_is_right_a_bead_more_and_more_bed_is_told),
    cmocka_unit_test (a_true_model_is_told_a_count_that_is_snug),
    cmocka_unit_test (a_strip_lies_over_itself_by_no_more_than_it_has),
    cmocka_unit_test (absurd_counts_stay_within_the_limits),
    cmocka_unit_test (a_reading_is_weighed_with_the_forecast_by_their_errors),
    cmocka_unit_test (a_reading_far_from_the_forecast_counts_alone_and_says_so),
    cmocka_unit_test (a_strip_read_slack_and_read_pulled_is_told_the_same),
    cmocka_unit_test (the_count_changes_only_where_two_are_as_likely_right),
    cmocka_unit_test (nothing_jumps_where_the_forecast_is_given_up),
    cmocka_unit_test (no_count_more_likely_right_is_passed_over),
    cmocka_unit_test (closing_and_gripping_comes_true_as_often_as_told),
    cmocka_unit_test (what_was_read_is_what_forecast_and_fit_tell_from_then_on),
    cmocka_unit_test (a_reading_is_not_weighed_with_itself),
    cmocka_unit_test (nothing_read_teaches_nothing),
    cmocka_unit_test (a_reading_carried_along_teaches_the_same),
    cmocka_unit_test (the_ways_of_reading_come_out_much_as_in_a_study_of_makers),
  };
  return cmocka_run_group_tests_name ("try-on", tests, NULL, NULL);
}
