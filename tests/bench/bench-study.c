/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The study of makers: how often the count is right the first time, by the ways of coming to it,
 * and whether what is told comes true as often as it says. Two thousand stones and hands are drawn
 * for each line by the spreads in makers.h. Fails where the advice, followed, is right for fewer
 * than 95 in a hundred or costs more than a tenth of a row, and where of all cases told about so
 * likely more than three in a hundred more or fewer come true. */
#include "core/band/forecast.h"
#include "makers.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#define MAKERS 2000
#define SEED 12

/* --- Ways of coming to a count ------------------------------------------------------------------
 */

typedef struct {
  const char *what;
  int makers;
  double right, fewest, off, over, tries;
  int could; /* of them with a stone that some count fits */
} Way;

/* Right: it closes and grips. Of stones that no count fits none is. */
static void
count (Way *way, const char *what, const Maker *maker, int rows, int tries)
{
  way->what = what;
  way->makers++;
  way->right += maker_is_snug (maker, rows);
  way->could += maker_is_snug (maker, maker->right);
  way->fewest += rows == maker->right;
  way->off += abs (rows - maker->right);
  way->over += MAX (rows - maker->right, 0);
  way->tries += tries;
}

static void
tell_ways (const Way *way)
{
  printf ("%-46s right  of those a count fits  fewest that close  rows off  too many  "
          "tries\n",
          "");
  for (; way->what; way++) {
    double n = way->makers;
    printf (
        "%-47s %4.1f %%        %5.1f %%              %4.1f %%         %5.2f     %5.2f    %4.1f\n",
        way->what, 100 * way->right / n, 100 * way->right / way->could, 100 * way->fewest / n,
        way->off / n, way->over / n, way->tries / n);
  }
}

static int
recommended_with (const Maker *maker, const BwCheck *checks, int n_checks)
{
  BwDesign told = maker->told;
  told.pitch = bw_gauge_pitch (&told.gauge, checks, n_checks);
  return 2 * bw_fit_recommended (&told, &maker->known);
}

/* Pulling at every second row until the ends meet in more than half of so many pulls. */
static int
pull_until_they_meet (const Maker *maker, GRand *rand, int rows, int pulls, int *tries)
{
  for (*tries = 1;; rows += 2, ++*tries) {
    int met = 0;
    for (int k = 0; k < pulls; k++)
      met += maker_pull (maker, rand, rows);
    if (2 * met > pulls)
      return rows;
  }
}

static int
told_by (const Maker *maker, int rows, const BwReading *reading)
{
  BwTryOn try_on;
  bw_try_on_init (&try_on, &maker->told, &maker->known, rows, reading);
  return try_on.rows;
}

static BwReading
read_twice (const Maker *maker, GRand *rand, int rows)
{
  BwReading one = maker_read (maker, rand, rows, BW_TRIED_SLACK, BW_TRIED_BY_CALLIPER);
  BwReading other = maker_read (maker, rand, rows, BW_TRIED_SLACK, BW_TRIED_BY_CALLIPER);
  one.short_mm = (one.short_mm + other.short_mm) / 2;
  return one;
}

enum {
  NOMINAL,
  SWATCH,
  CHECKS,
  BY_EYE,
  BY_CALLIPER,
  TWICE,
  PULLED,
  THRICE,
  N_WAYS,
};

static void
weave (Way *way, Maker *maker, GRand *rand)
{
  BwForecast forecast;
  int tries;
  BwCheck checks[3]
      = { maker_check (maker, rand, 24, 0.3), maker_check (maker, rand, maker->right / 3, 0.3),
          maker_check (maker, rand, 2 * maker->right / 3, 0.3) };
  count (&way[NOMINAL], "forecast, the bead's nominal pitch", maker,
         recommended_with (maker, NULL, 0), 0);
  count (&way[SWATCH], "and a swatch of 24 rows by ruler", maker,
         recommended_with (maker, checks, 1), 0);
  count (&way[CHECKS], "and two strip lengths on the way", maker,
         recommended_with (maker, checks, 3), 0);
  maker->told.pitch = bw_gauge_pitch (&maker->told.gauge, checks, 3);
  bw_forecast_init (&forecast, &maker->told, &maker->known);
  int rows = forecast.try_on_row;
  BwReading eye = maker_read (maker, rand, rows, BW_TRIED_SLACK, BW_TRIED_BY_EYE);
  BwReading calliper = maker_read (maker, rand, rows, BW_TRIED_SLACK, BW_TRIED_BY_CALLIPER);
  BwReading twice = read_twice (maker, rand, rows);
  count (&way[BY_EYE], "and slack ends read once, half beads by eye", maker,
         told_by (maker, rows, &eye), 1);
  count (&way[BY_CALLIPER], "the same by calliper", maker, told_by (maker, rows, &calliper), 1);
  count (&way[TWICE], "the same, the mean of two readings", maker, told_by (maker, rows, &twice),
         1);
  int stops = pull_until_they_meet (maker, rand, rows, 1, &tries);
  count (&way[PULLED], "pulled once at every second row until they meet", maker, stops, tries);
  stops = pull_until_they_meet (maker, rand, rows, 3, &tries);
  count (&way[THRICE], "pulled three times, going by what two say", maker, stops, tries);
}

static gboolean
study_ways (MakerHabits habits, const char *what)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  Way way[N_WAYS + 1] = { 0 };
  for (int k = 0; k < MAKERS;) {
    Maker maker;
    if (!maker_init_with (&maker, rand, habits))
      continue;
    weave (way, &maker, rand);
    k++;
  }
  printf ("\n%d makers, %s\n", MAKERS, what);
  tell_ways (way);
  const Way *advised = &way[THRICE];
  return advised->right >= 0.95 * MAKERS && advised->over <= 0.1 * MAKERS;
}

/* --- Whether it comes true ----------------------------------------------------------------------
 */

typedef struct {
  const char *what;
  int told[10];
  double sum[10], came[10];
} Tenths;

static void
tell (Tenths *tenths, double chance, gboolean came)
{
  int i = CLAMP ((int)(10 * chance), 0, 9);
  tenths->told[i]++;
  tenths->sum[i] += chance;
  tenths->came[i] += came;
}

/* Points by which more came true than was told. */
static double
points (const Tenths *tenths, int i)
{
  return 100 * (tenths->came[i] - tenths->sum[i]) / MAX (tenths->told[i], 1);
}

#define ENOUGH 400 /* tellings: the standard error of their share is below 2.5 points */

static gboolean
print_tenths (const Tenths *tenths)
{
  gboolean holds = TRUE;
  int all = 0;
  for (int i = 0; i < 10; i++)
    all += tenths->told[i];
  printf ("\n%s: %d tellings\n", tenths->what, all);
  printf ("  told %%   0-10  10-20  20-30  30-40  40-50  50-60  60-70  70-80  80-90 90-100\n");
  printf ("  points ");
  for (int i = 0; i < 10; i++) {
    printf (" %+6.1f", points (tenths, i));
    holds = holds && (tenths->told[i] < ENOUGH || fabs (points (tenths, i)) <= 3);
  }
  printf ("\n  of     ");
  for (int i = 0; i < 10; i++)
    printf (" %6d", tenths->told[i]);
  printf ("\n");
  return holds;
}

enum { RIGHT, CLOSES, READ_CLOSES, READ_SNUG, ALL_TOLD, N_TENTHS };

static void
tell_one (Tenths *tenths, int which, double chance, gboolean came)
{
  tell (&tenths[which], chance, came);
  tell (&tenths[ALL_TOLD], chance, came);
}

static void
tell_forecast (Tenths *tenths, const Maker *maker)
{
  g_autofree BwForecast *forecast = g_new (BwForecast, 1);
  g_autofree BwForecast *own = g_new (BwForecast, 1);
  bw_forecast_init (forecast, &maker->told, &maker->known);
  for (int i = 0; i < forecast->n_chances; i++) {
    BwDesign planned = maker->told;
    planned.band.rows = 2 * forecast->chance[i].beads_around;
    bw_forecast_init (own, &planned, &maker->known);
    tell_one (tenths, RIGHT, forecast->chance[i].p, planned.band.rows == maker->right);
    tell_one (tenths, CLOSES, own->closes_probability, planned.band.rows >= maker->right);
  }
  static const struct {
    BwTriedHow how;
    BwTriedTool tool;
  } ways[] = { { BW_TRIED_SLACK, BW_TRIED_BY_EYE },
               { BW_TRIED_SLACK, BW_TRIED_BY_CALLIPER },
               { BW_TRIED_PULLED, BW_TRIED_BY_EYE },
               { BW_TRIED_PULLED, BW_TRIED_BY_CALLIPER } };
  g_autoptr (GRand) rand = g_rand_new_with_seed ((guint32)(1e6 * maker->pitch_mm));
  for (gsize i = 0; i < G_N_ELEMENTS (ways); i++) {
    BwTryOn try_on;
    BwReading reading = maker_read (maker, rand, forecast->try_on_row, ways[i].how, ways[i].tool);
    bw_try_on_init (&try_on, &maker->told, &maker->known, forecast->try_on_row, &reading);
    tell_one (tenths, READ_CLOSES, try_on.closes_probability, try_on.rows >= maker->right);
    tell_one (tenths, READ_SNUG, try_on.snug_probability, maker_is_snug (maker, try_on.rows));
  }
}

/* What is known of the pitch at one stage of the work. */
static void
learn (Maker *maker, GRand *rand, int stage)
{
  BwGauge gauge = maker->told.gauge;
  BwCheck checks[3]
      = { maker_check (maker, rand, 24, 0.3), maker_check (maker, rand, maker->right / 3, 0.3),
          maker_check (maker, rand, 2 * maker->right / 3, 0.3) };
  BwCheck longer = maker_check (maker, rand, 60, 0.1);
  if (stage == 3) {
    gauge.has_swatch = TRUE;
    gauge.swatch = (BwSwatch){
      .columns = 2, .rows = 60, .length_mm = longer.length_mm, .tool = BW_STRIP_BY_CALLIPER
    };
  }
  const int n_checks[] = { 0, 1, 3, 0 };
  maker->told.pitch = bw_gauge_pitch (&gauge, checks, n_checks[stage]);
}

#define STAGES 4

static gboolean
study_tellings (void)
{
  Tenths tenths[N_TENTHS] = { { .what = "Forecast: this is the fewest rows that close" },
                              { .what = "Forecast: these rows close" },
                              { .what = "Try-on: the count told closes" },
                              { .what = "Try-on: the count told closes and grips" },
                              { .what = "All together" } };
  for (int population = 0; population < 4; population++) {
    g_autoptr (GRand) rand = g_rand_new_with_seed (SEED + (guint32)population);
    MakerHabits habits = { population % 2, population > 1, population > 1 };
    for (int k = 0; k < MAKERS;) {
      Maker maker;
      if (!maker_init_with (&maker, rand, habits))
        continue;
      k++;
      for (int stage = 0; stage < STAGES; stage++) {
        learn (&maker, rand, stage);
        tell_forecast (tenths, &maker);
      }
    }
  }
  gboolean holds = TRUE;
  for (int i = 0; i < N_TENTHS; i++)
    holds = print_tenths (&tenths[i]) && holds;
  return holds;
}

int
main (void)
{
  gboolean right = study_ways ((MakerHabits){ 0 }, "11/0 beads, stones measured across the flats");
  right = study_ways ((MakerHabits){ .by_strip = TRUE }, "the girth measured by a strip of paper")
          && right;
  study_ways ((MakerHabits){ .any_bead = TRUE, .tapers = TRUE },
              "any bead, stones that taper by up to 4 %");
  gboolean holds = study_tellings ();
  printf ("\nadvice %s, odds %s\n", right ? "holds" : "FAILS", holds ? "hold" : "FAIL");
  return !(right && holds);
}
