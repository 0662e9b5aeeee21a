/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The joint search, held against a plain enumeration that shares nothing with it but the fit. */
#include "../fewer.h"
#include "stones.h"

#include "core/bail/bail-place.h"
#include "core/band/column.h"
#include "core/band/forecast.h"
#include "core/path/path.h"
#include "core/workshop/ways.h"

#include <math.h>
#include <string.h>

static BwWaysBead
bead_of (const BwBead *size)
{
  BwGauge gauge = { .column_mm = size->length_mm, .pitch_mm = size->diameter_mm };
  return (BwWaysBead){ *size, gauge, bw_gauge_pitch (&gauge, NULL, 0) };
}

typedef struct {
  BwDesign design;
  BwStone stone;
  BwWaysBead beads[4];
  BwWaysAsk ask;
} Question;

/* A short stone, so that a plain enumeration ends soon. */
static void
question_of (Question *q, BwStoneMeasures measures, int n_beads)
{
  int n;
  const BwBead *sizes = bw_bead_sizes (&n);
  q->design = bench_design ();
  q->design.stone = measures;
  q->stone = solved (&measures);
  for (int i = 0; i < n_beads; i++)
    q->beads[i] = bead_of (&sizes[n - 1 - i]); /* large beads first: fewer columns */
  q->ask
      = (BwWaysAsk){ &q->design, &q->stone, q->beads, n_beads, { TRUE, BW_WANT_LEVEL, 0.3, 0, 1 } };
}

static BwStoneMeasures
short_stone (void)
{
  BwStoneMeasures measures = bench_stone ();
  measures.length_mm = 24;
  measures.shoulder_mm = 16;
  measures.at_mm = 8;
  measures.second_at_mm = 14;
  measures.base = BW_BASE_FLAT;
  return measures;
}

static GArray *
all_ways (const BwWaysAsk *ask, gboolean coarse, gboolean backwards)
{
  GArray *ways = g_array_new (FALSE, FALSE, sizeof (BwWay));
  int n = bw_ways_n_shares (ask);
  for (int i = 0; i < n; i++)
    bw_ways_search (ask, backwards ? n - 1 - i : i, coarse, NULL, ways);
  bw_ways_front (ways);
  return ways;
}

static const BwWay *
way_at (const GArray *ways, guint i)
{
  return &g_array_index (ways, BwWay, i);
}

/* --- What is offered holds ----------------------------------------------------------------------
 */

static void
assert_sewn_and_hung (const BwWay *way, const BwStone *stone)
{
  const BwDesign *design = &way->design;
  BwHang hang;
  BwRing ring;
  BwBailBase base;
  BwPath path;
  assert_true (bw_hang_init (&hang, design, stone, NULL));
  assert_near (hang.tilt_deg, way->tilt_deg, 1e-12);
  assert_int_equal (hang.up, way->up);
  assert_true (hang.loop.largest_cord_mm >= design->bail.cord_mm - 1e-6);
  assert_true (hang.loop.parity_right);
  bw_mid_ring_init (&ring, design, stone);
  bw_bail_base_init (&base, design, &ring);
  bw_path_init (&path, design, &base);
  assert_int_equal (path.full_holes->len, 0);
  bw_path_clear (&path);
}

static double
best_of (const GArray *front)
{
  double best = 0;
  for (guint i = 0; i < front->len; i++)
    best = fmax (best, fmin (way_at (front, i)->worth.chance, way_at (front, i)->worth.snug));
  return best;
}

/* What the foot of the window will tell of these rows. */
static void
assert_told_as_by_the_forecast (const BwWay *way, const BwStone *stone)
{
  BwForecast forecast;
  double p = 0;
  bw_forecast_init (&forecast, &way->design, stone);
  for (int i = 0; i < forecast.n_chances; i++)
    if (2 * forecast.chance[i].beads_around == way->design.band.rows)
      p = forecast.chance[i].p;
  assert_near (way->worth.chance, p, 1e-12);
  assert_near (way->worth.closes, forecast.closes_probability, 1e-12);
}

static void
every_way_that_is_offered_holds_what_it_promises (void **state)
{
  Question q;
  question_of (&q, short_stone (), 2);
  g_autoptr (GArray) front = all_ways (&q.ask, FALSE, FALSE);
  g_autoptr (GArray) chosen = bw_ways_choose (front, 12, 0);
  assert_in_range (chosen->len, 6, 12);
  for (guint i = 0; i < chosen->len; i++) {
    const BwWay *way = way_at (chosen, i);
    BwFault fault = NO_FAULT;
    assert_true (bw_design_validate (&way->design, NULL, &fault));
    assert_true (bw_fit_is_snug (&way->design, &q.stone, way->design.band.rows));
    assert_true (way->worth.closes >= 0.5 && way->worth.closes <= 1);
    assert_true (way->worth.chance > 0 && way->worth.chance <= way->worth.closes);
    assert_true (way->worth.snug > 0 && way->worth.snug <= way->worth.closes);
    assert_told_as_by_the_forecast (way, &q.stone);
    assert_true (fmin (way->worth.chance, way->worth.snug) >= 0.6 * best_of (front));
    assert_true (way->design.band.bottom_mm >= q.stone.base_shoulder_mm);
    assert_true (way->design.band.bottom_mm + bw_design_span (&way->design).width_mm
                 <= q.stone.shoulder_mm + 1e-6);
    assert_sewn_and_hung (way, &q.stone);
  }
}

/* Stones of all kinds, long enough for a band, and makers as sure of them as they may be. */
static void
the_chance_of_a_way_is_that_of_the_design_it_makes (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (46);
  guint compared = 0;
  for (int i = 0; i < few (60); i++) {
    DrawnStone drawn;
    Question q;
    draw_stone (&drawn, rand);
    drawn.measures.girth_sd_mm = g_rand_double_range (rand, 0.1, 1.5);
    question_of (&q, drawn.measures, 2);
    for (int b = 0; b < 2; b++)
      q.beads[b].pitch.sd_mm *= g_rand_double_range (rand, 0.2, 1.5);
    q.ask.wish.stance = g_rand_int_range (rand, BW_WANT_LEVEL, BW_WANT_TIP_UP + 1);
    g_autoptr (GArray) front = all_ways (&q.ask, TRUE, FALSE);
    g_autoptr (GArray) chosen = bw_ways_choose (front, 3, g_rand_int_range (rand, 0, 4));
    for (guint k = 0; k < chosen->len; k++)
      assert_told_as_by_the_forecast (way_at (chosen, k), &q.stone);
    compared += chosen->len;
  }
  assert_true (compared >= (guint)few (60));
}

/* Hours as the list of materials has them, prices or not: in a front about so, once chosen just so.
 */
static void
the_hours_told_are_those_of_the_list_of_materials (void **state)
{
  for (int priced = 0; priced < 2; priced++) {
    Question q;
    question_of (&q, short_stone (), 2);
    q.design.supply.has_prices = priced;
    q.design.supply.rows_per_hour = 22;
    g_autoptr (GArray) front = all_ways (&q.ask, FALSE, FALSE);
    g_autoptr (GArray) chosen = bw_ways_choose (front, 12, 0);
    for (guint i = 0; i < chosen->len; i++) {
      const BwWay *way = way_at (chosen, i);
      const BwDesign *d = &way->design;
      BwRing ring;
      BwBailBase base;
      BwPath path;
      gboolean in_front = FALSE;
      bw_mid_ring_init (&ring, d, &q.stone);
      bw_bail_base_init (&base, d, &ring);
      bw_path_init (&path, d, &base);
      double visits = 0;
      for (int part = BW_PART_ZIP; part <= BW_PART_WEAVING_IN; part++)
        visits += (double)path.part[part].visits;
      double cord = bw_bed_cord_mm (&d->bed, &q.stone, bw_design_span (d)) / 1000;
      /* A pace told is that of the band at hand, of 14 columns, as the usual one is. */
      double beads = d->band.rows / 2.0 * d->band.columns + visits / 2;
      double hours = beads / (22 * 7) + cord * 5 / 60;
      assert_near (way->worth.hours, hours, 1e-9);
      for (guint k = 0; k < front->len && !in_front; k++)
        in_front = memcmp (&way_at (front, k)->design, d, sizeof *d) == 0
                   && fabs (way_at (front, k)->worth.hours / hours - 1) < 0.06;
      assert_true (in_front);
      bw_path_clear (&path);
    }
  }
}

/* Who thinks of a loop over the tip is shown some; who does not is shown none. */
static void
loops_over_the_tip_are_tried_for_a_design_that_has_one (void **state)
{
  for (int over = 0; over < 2; over++) {
    Question q;
    question_of (&q, short_stone (), 2);
    q.ask.wish.stance = BW_WANT_TIP_UP;
    if (over)
      bw_bail_reach_over (&q.design, &q.stone);
    g_autoptr (GArray) front = all_ways (&q.ask, FALSE, FALSE);
    int n = 0;
    for (guint i = 0; i < front->len; i++) {
      const BwWay *way = way_at (front, i);
      assert_sewn_and_hung (way, &q.stone);
      n += way->design.bail.style == BW_BAIL_OVER;
      if (way->design.bail.style == BW_BAIL_FLAP)
        assert_true (way->design.bail.base_beads < 10);
    }
    assert_int_equal (n > 0, over);
  }
}

typedef struct {
  double fewest, snug;
} Often;

/* Errors of girth and pitch drawn at random: how often the rows are the fewest that close, and how
 * often they close and grip. The chances take both errors for one of the round; what that leaves
 * out (corners, columns of unlike length) is small. */
static Often
how_often (const BwDesign *design, GRand *rand)
{
  Often often = { 0 };
  enum { TRIES = 3000 };
  for (int i = 0; i < TRIES; i++) {
    double x[2];
    for (int k = 0; k < 2; k++)
      x[k] = sqrt (-2 * log (1 - g_rand_double (rand))) * cos (2 * G_PI * g_rand_double (rand));
    BwDesign real = *design;
    real.stone.girth_sd_mm = 0;
    BwStone stone = solved (&design->stone);
    double grown = 1 + x[0] * design->stone.girth_sd_mm / stone.girth_mm;
    for (int v = 0; v < bw_stone_value_count (real.stone.measured, real.stone.faces); v++)
      real.stone.values_mm[v] *= grown;
    real.stone.second_girth_mm *= grown;
    real.pitch.mm += x[1] * design->pitch.sd_mm;
    stone = solved (&real.stone);
    often.fewest += 1.0 / TRIES * (2 * bw_fit_recommended (&real, &stone) == real.band.rows);
    often.snug += 1.0 / TRIES * bw_fit_is_snug (&real, &stone, real.band.rows);
  }
  return often;
}

static void
the_chance_told_is_how_often_the_count_comes_right (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);
  Question q;
  question_of (&q, short_stone (), 2);
  g_autoptr (GArray) front = all_ways (&q.ask, TRUE, FALSE);
  g_autoptr (GArray) chosen = bw_ways_choose (front, 6, 0);
  for (guint i = 0; i < chosen->len; i++) {
    const BwWay *way = way_at (chosen, i);
    Often found = how_often (&way->design, rand);
    /* Three standard errors of 3,000 tries are 0.027. */
    assert_near (way->worth.chance, found.fewest, 0.027 + 0.02);
    assert_near (way->worth.snug, found.snug, 0.027 + 0.02);
  }
}

/* --- Against a plain enumeration ----------------------------------------------------------------
 */

typedef struct {
  double chance, stance, coverage, hours, cost, beads, loose; /* loose: less snug */
} Worth;

static gboolean
plain_beats (const Worth *a, const Worth *b)
{
  const double *x = (const double *)a, *y = (const double *)b;
  gboolean better = a->chance > b->chance + 1e-9;
  if (a->chance < b->chance - 1e-9)
    return FALSE;
  for (int i = 1; i < 7; i++) {
    if (x[i] > y[i] + 1e-9)
      return FALSE;
    better = better || x[i] < y[i] - 1e-9;
  }
  return better;
}

static double
plain_below (double mm, double sigma_mm)
{
  return 0.5 * (1 + erf (mm / sigma_mm / sqrt (2)));
}

/* That n beads close. */
static double
plain_closes (const BwDesign *design, const BwStone *stone, int n, double sigma)
{
  return plain_below ((bw_fit_closing_scale (design, stone, n) - 1) * stone->girth_mm, sigma);
}

/* What it leaves to loose columns, one by one. */
static void
plain_chances (Worth *worth, const BwDesign *design, const BwStone *stone, double *closes)
{
  BwFit fit;
  double most = -1e9;
  int n = design->band.rows / 2;
  bw_fit_init (&fit, design, stone, design->band.rows);
  for (int c = 0; c < fit.n_columns; c++)
    most = fmax (most, -fit.column[c].gap_mm - design->limits.slack_mm);
  double sigma
      = hypot (design->stone.girth_sd_mm, bw_fit_recommended (design, stone) * design->pitch.sd_mm);
  *closes = plain_closes (design, stone, n, sigma);
  worth->chance = *closes - plain_closes (design, stone, n - 1, sigma);
  worth->loose = -fmax (0, *closes - plain_below (most, sigma));
}

/* By counts, without a bail: join, anchors and the ends of every length; and the winding. */
static double
plain_hours (const BwDesign *d, const BwStone *stone)
{
  double w = d->band.columns,
         jog = fmax (0, d->gauge.pitch_mm / 2 - (d->bead.hole_mm - d->thread.diameter_mm));
  double step = hypot (d->gauge.column_mm, jog), visits = d->band.rows * w + 2 * w + 8;
  double length = d->thread.working_mm - 2 * d->thread.tail_mm - 32 * step;
  double lengths = ceil ((visits * step + d->band.rows * d->pitch.mm) / length);
  double cord = bw_bed_cord_mm (&d->bed, stone, bw_design_span (d)) / 1000;
  return (d->band.rows * w + 2 * w + 8 + 32 * lengths) / (22 * 14) + cord * 5 / 60;
}

/* With no bail a candidate is a band alone: everything that is snug on the whole grid. */
static GArray *
plain_enumeration (const Question *q)
{
  GArray *all = g_array_new (FALSE, FALSE, sizeof (Worth));
  for (int b = 0; b < q->ask.n_beads; b++)
    for (int columns = 4; columns <= 40; columns += 2)
      for (int layers = 0; layers <= 4; layers++)
        for (int graded = 0; graded < 2; graded++)
          for (double bottom = 0; bottom <= q->stone.shoulder_mm; bottom += 0.5) {
            BwDesign d = q->design;
            BwSection low, high;
            d.bead = q->beads[b].bead;
            d.gauge = q->beads[b].gauge;
            d.pitch = q->beads[b].pitch;
            d.band.columns = columns;
            d.band.bottom_mm = bottom;
            d.bed.layers = layers;
            double width = columns * d.gauge.column_mm;
            if (width < 5 || bottom + width > q->stone.shoulder_mm + 1e-6)
              continue;
            bw_section_init (&low, &q->stone, bottom + d.gauge.column_mm / 2);
            bw_section_init (&high, &q->stone, bottom + width - d.gauge.column_mm / 2);
            double grade = (low.girth_mm - high.girth_mm) / (2 * G_PI) * columns / (columns - 1.0);
            grade = round (grade * 20) / 20;
            if (graded && (fabs (grade) > 1.5 || grade == 0.0))
              continue;
            d.bed.top_extra_mm = graded ? grade : 0;
            d.band.rows = 6;
            BwBedding bedding;
            if (!bw_bedding_init (&bedding, &d.bed, &q->stone, bw_design_span (&d), NULL))
              continue;
            for (int n = bw_fit_recommended (&d, &q->stone), k = 0; k < 2; k++) {
              double closes;
              d.band.rows = 2 * (n + k);
              if (!bw_fit_is_snug (&d, &q->stone, d.band.rows)
                  || !bw_design_validate (&d, NULL, NULL))
                continue;
              Worth worth = { 0 };
              plain_chances (&worth, &d, &q->stone, &closes);
              worth.coverage = fabs (width / q->stone.length_mm - q->ask.wish.coverage);
              worth.hours = plain_hours (&d, &q->stone);
              worth.beads = d.band.rows / 2 * columns;
              if (closes >= 0.5)
                g_array_append_val (all, worth);
            }
          }
  return all;
}

static gboolean
has_worth (const GArray *front, const Worth *worth)
{
  for (guint i = 0; i < front->len; i++) {
    const BwWayWorth *w = &way_at (front, i)->worth;
    if (fabs (w->chance - worth->chance) < 1e-9 && fabs (w->coverage_off - worth->coverage) < 1e-9
        && fabs (w->hours - worth->hours) < 1e-9 && fabs (w->beads - worth->beads) < 1e-9)
      return TRUE;
  }
  return FALSE;
}

static void
the_front_is_that_of_a_plain_enumeration (void **state)
{
  Question q;
  guint expected = 0;
  question_of (&q, short_stone (), 2);
  q.design.bail.style = BW_BAIL_NONE;
  g_autoptr (GArray) front = all_ways (&q.ask, FALSE, FALSE);
  g_autoptr (GArray) all = plain_enumeration (&q);
  for (guint i = 0; i < all->len; i++) {
    const Worth *worth = &g_array_index (all, Worth, i);
    gboolean beaten = FALSE;
    for (guint k = 0; k < all->len && !beaten; k++)
      beaten = plain_beats (&g_array_index (all, Worth, k), worth);
    if (beaten)
      continue;
    expected++;
    if (!has_worth (front, worth))
      fail_msg ("chance %.6f, beads %.0f of the enumeration is not in the front", worth->chance,
                worth->beads);
  }
  assert_in_range (front->len, 3, expected);
  for (guint i = 0; i < front->len; i++) {
    const BwWayWorth *w = &way_at (front, i)->worth;
    Worth worth
        = { w->chance, w->stance_deg, w->coverage_off, w->hours, w->cost, w->beads, -w->snug };
    for (guint k = 0; k < all->len; k++)
      assert_false (plain_beats (&g_array_index (all, Worth, k), &worth));
  }
}

/* --- The same answer always ---------------------------------------------------------------------
 */

static void
assert_same_ways (const GArray *a, const GArray *b)
{
  assert_int_equal (a->len, b->len);
  for (guint i = 0; i < a->len; i++)
    assert_memory_equal (&way_at (a, i)->worth, &way_at (b, i)->worth, sizeof (BwWayWorth));
}

typedef struct {
  const BwWaysAsk *ask;
  int next;
  GMutex lock;
  GArray *ways;
} Crew;

static gpointer
work_off (gpointer data)
{
  Crew *crew = data;
  for (int share; (share = g_atomic_int_add (&crew->next, 1)) < bw_ways_n_shares (crew->ask);) {
    g_autoptr (GArray) own = g_array_new (FALSE, FALSE, sizeof (BwWay));
    bw_ways_search (crew->ask, share, TRUE, NULL, own);
    g_mutex_lock (&crew->lock);
    g_array_append_vals (crew->ways, own->data, own->len);
    g_mutex_unlock (&crew->lock);
  }
  return NULL;
}

static void
threads_and_order_do_not_change_the_answer (void **state)
{
  Question q;
  question_of (&q, short_stone (), 2);
  g_autoptr (GArray) one = all_ways (&q.ask, TRUE, FALSE);
  g_autoptr (GArray) other = all_ways (&q.ask, TRUE, TRUE);
  Crew crew = { .ask = &q.ask, .ways = g_array_new (FALSE, FALSE, sizeof (BwWay)) };
  GThread *threads[3];
  g_mutex_init (&crew.lock);
  for (int i = 0; i < 3; i++)
    threads[i] = g_thread_new (NULL, work_off, &crew);
  for (int i = 0; i < 3; i++)
    g_thread_join (threads[i]);
  bw_ways_front (crew.ways);
  for (guint seed = 0; seed < 3; seed++) {
    g_autoptr (GArray) a = bw_ways_choose (one, 8, seed);
    g_autoptr (GArray) b = bw_ways_choose (other, 8, seed);
    g_autoptr (GArray) c = bw_ways_choose (crew.ways, 8, seed);
    assert_same_ways (a, b);
    assert_same_ways (a, c);
  }
  g_array_unref (crew.ways);
  g_mutex_clear (&crew.lock);
}

static void
another_seed_begins_elsewhere (void **state)
{
  Question q;
  question_of (&q, short_stone (), 2);
  g_autoptr (GArray) front = all_ways (&q.ask, TRUE, FALSE);
  g_autoptr (GArray) a = bw_ways_choose (front, 1, 0), b = bw_ways_choose (front, 1, 1);
  assert_true (front->len > 1);
  assert_true (memcmp (&way_at (a, 0)->worth, &way_at (b, 0)->worth, sizeof (BwWayWorth)) != 0);
}

static void
a_search_that_is_stopped_ends_with_what_it_has (void **state)
{
  Question q;
  const int stop = 1;
  question_of (&q, short_stone (), 1);
  g_autoptr (GArray) ways = g_array_new (FALSE, FALSE, sizeof (BwWay));
  bw_ways_search (&q.ask, 0, FALSE, &stop, ways);
  assert_int_equal (ways->len, 0);
}

/* A stone with no prism to speak of has no way, and that is an answer. */
static void
a_stone_too_short_for_any_band_has_no_ways (void **state)
{
  Question q;
  BwStoneMeasures measures = short_stone ();
  measures.shoulder_mm = 4;
  measures.at_mm = 2;
  measures.second_at_mm = 3;
  question_of (&q, measures, 2);
  g_autoptr (GArray) front = all_ways (&q.ask, FALSE, FALSE);
  g_autoptr (GArray) chosen = bw_ways_choose (front, 12, 3);
  assert_int_equal (bw_ways_n_shares (&q.ask), 0);
  assert_int_equal (chosen->len, 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (every_way_that_is_offered_holds_what_it_promises),
    cmocka_unit_test (the_chance_of_a_way_is_that_of_the_design_it_makes),
    cmocka_unit_test (the_hours_told_are_those_of_the_list_of_materials),
    cmocka_unit_test (loops_over_the_tip_are_tried_for_a_design_that_has_one),
    cmocka_unit_test (the_chance_told_is_how_often_the_count_comes_right),
    cmocka_unit_test (the_front_is_that_of_a_plain_enumeration),
    cmocka_unit_test (threads_and_order_do_not_change_the_answer),
    cmocka_unit_test (another_seed_begins_elsewhere),
    cmocka_unit_test (a_search_that_is_stopped_ends_with_what_it_has),
    cmocka_unit_test (a_stone_too_short_for_any_band_has_no_ways),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
