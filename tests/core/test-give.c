/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What bed and thread give: the closed forms against posteriors summed on grids, and what readings
 * are refused. */
#include "core/band/forecast.h"
#include "core/workshop/give-hands.h"

#include "stones.h"

#include <math.h>

static double
likelihood (double x, double mean, double sd)
{
  return exp (-0.5 * (x - mean) * (x - mean) / (sd * sd));
}

/* Mean and standard deviation of a density given by its sums. */
static BwGive
summed (double weight, double first, double second)
{
  double mean = first / weight;
  return (BwGive){ mean, sqrt (second / weight - mean * mean) };
}

/* --- One reading -------------------------------------------------------------------------------
 */

static void
nothing_measured_is_what_is_usual (void **state)
{
  BwDesign design = bench_design ();
  bw_design_give (&design);
  assert_near (design.bed.squeeze, 0.15, 1e-15);
  assert_near (design.thread.stretch, 0.010, 1e-15);
  assert_near (bw_forecast_squeeze_sd (&design), 0.05, 1e-15);
  assert_near (bw_forecast_stretch_sd (&design), 0.003, 1e-15);
  design.bed.squeeze = 0.3; /* as typed, and known to a third */
  bw_design_give (&design);
  assert_near (design.bed.squeeze, 0.3, 1e-15);
  assert_near (bw_forecast_squeeze_sd (&design), 0.1, 1e-15);
}

/* By hand: 48.8 mm that become 49.6; 0.1 mm each by calliper. */
static void
a_pulled_length_says_the_stretch (void **state)
{
  BwStretchReading reading = { 48.8, 49.6, BW_STRIP_BY_CALLIPER };
  BwGive said = bw_stretch_said (&reading);
  assert_near (said.share, 0.8 / 48.8, 1e-14);
  assert_near (said.sd, 0.1 / 48.8 * sqrt (1 + 1.01 * 1.01), 1e-14);
  reading.tool = BW_STRIP_BY_RULER;
  assert_near (bw_stretch_said (&reading).sd, 3 * said.sd, 1e-14);
}

/* By hand: a bed that adds 6 mm to the way round and loses 1.2 of them. */
static void
a_girth_under_the_pulled_strip_says_the_squeeze (void **state)
{
  BwSqueezeReading reading = { 70, 76, 74.8, BW_STRIP_BY_CALLIPER };
  BwGive said = bw_squeeze_said (&reading);
  assert_near (said.share, 0.2, 1e-14);
  assert_near (said.sd, sqrt (0.04 * (1 + 0.85 * 0.85) + 0.15 * 0.15 * 0.16) / 6, 1e-14);
  reading.tool = BW_STRIP_BY_RULER;
  assert_near (bw_squeeze_said (&reading).sd,
               sqrt (0.16 * (1 + 0.85 * 0.85) + 0.15 * 0.15 * 0.16) / 6, 1e-14);
}

/* Drawn at random what the law of propagation tells to the first order. */
static void
readings_scatter_as_they_are_told_to (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (41);
  enum { TRIES = 40000 };
  double first = 0, second = 0;
  for (int k = 0; k < TRIES; k++) {
    double e[3] = { 0 };
    for (int i = 0; i < 3; i++) /* the sum of twelve uniform numbers is nearly normal */
      for (int j = 0; j < 12; j++)
        e[i] += g_rand_double (rand) - 0.5;
    BwSqueezeReading reading
        = { 70 + 0.4 * e[0], 80 + 0.2 * e[1], 78.5 + 0.2 * e[2], BW_STRIP_BY_CALLIPER };
    double share = bw_squeeze_said (&reading).share;
    first += share;
    second += share * share;
  }
  BwGive seen = summed (TRIES, first, second);
  BwSqueezeReading plain = { 70, 80, 78.5, BW_STRIP_BY_CALLIPER };
  assert_near (seen.share, 0.15, 0.002);
  assert_near (seen.sd / bw_squeeze_said (&plain).sd, 1, 0.03);
}

static void
belief_and_reading_are_weighed_as_a_grid_says (void **state)
{
  const BwGive before = { 0.15, 0.05 }, said = { 0.24, 0.03 };
  double weight = 0, first = 0, second = 0;
  for (int i = -4000; i <= 4000; i++) {
    double x = 0.2 + 1e-4 * i;
    double p = likelihood (x, before.share, before.sd) * likelihood (x, said.share, said.sd);
    weight += p;
    first += p * x;
    second += p * x * x;
  }
  BwGive grid = summed (weight, first, second), closed = bw_give_weigh (before, said);
  assert_near (closed.share, grid.share, 1e-9);
  assert_near (closed.sd, grid.sd, 1e-9);
}

static void
hands_take_the_place_of_what_is_usual_and_a_reading_comes_on_top (void **state)
{
  BwDesign design = bench_design ();
  design.thread.has_hands = TRUE;
  design.thread.hands = (BwGive){ 0.014, 0.002 };
  bw_design_give (&design);
  assert_near (design.thread.stretch, 0.014, 1e-15);
  assert_near (design.thread.stretch_sd, 0.002, 1e-15);
  design.thread.has_pulled = TRUE;
  design.thread.pulled = (BwStretchReading){ 60, 60.6, BW_STRIP_BY_CALLIPER };
  bw_design_give (&design);
  BwGive both = bw_give_weigh (design.thread.hands, bw_stretch_said (&design.thread.pulled));
  assert_near (design.thread.stretch, both.share, 1e-15);
  assert_near (design.thread.stretch_sd, both.sd, 1e-15);
  bw_thread_unlearn (&design.thread);
  assert_near (design.thread.stretch, 0.010, 1e-15);
  assert_true (bw_forecast_stretch_sd (&design) > 0.0029);
}

/* However wild a reading is, the fit gets a share that can be. */
static void
what_is_believed_can_be (void **state)
{
  BwDesign design = bench_design ();
  design.bed.has_pulled = TRUE;
  design.bed.pulled = (BwSqueezeReading){ 70, 90, 91.4, BW_STRIP_BY_CALLIPER };
  design.bed.has_hands = TRUE;
  design.bed.hands = (BwGive){ 0.01, 0.05 };
  bw_design_give (&design);
  assert_near (design.bed.squeeze, 0, 1e-15);
  assert_true (bw_design_validate (&design, NULL, NULL));
}

/* --- What is refused ---------------------------------------------------------------------------
 */

static void
readings_that_cannot_be_are_faults_at_their_keys (void **state)
{
  static const struct {
    BwStretchReading reading;
    BwFaultKey key;
  } strips[] = {
    { { 0, 10, BW_STRIP_BY_RULER }, BW_AT_THREAD_PULLED_SLACK },
    { { NAN, 10, BW_STRIP_BY_RULER }, BW_AT_THREAD_PULLED_SLACK },
    { { 50, 46, BW_STRIP_BY_RULER }, BW_AT_THREAD_PULLED_PULLED },
    { { 50, 60, BW_STRIP_BY_RULER }, BW_AT_THREAD_PULLED_PULLED },
  };
  static const struct {
    BwSqueezeReading reading;
    BwFaultKey key;
  } girths[] = {
    { { 0, 76, 75, BW_STRIP_BY_RULER }, BW_AT_BED_PULLED_GIRTH },
    { { 70, 70.2, 70, BW_STRIP_BY_RULER }, BW_AT_BED_PULLED_SLACK },
    { { 70, 760, 75, BW_STRIP_BY_RULER }, BW_AT_BED_PULLED_SLACK },
    { { 70, 76, 60, BW_STRIP_BY_RULER }, BW_AT_BED_PULLED_PULLED },
    { { 70, 76, 80, BW_STRIP_BY_RULER }, BW_AT_BED_PULLED_PULLED },
  };
  BwFault fault = NO_FAULT;
  for (gsize i = 0; i < G_N_ELEMENTS (strips); i++) {
    assert_false (bw_stretch_reading_validate (&strips[i].reading, &fault));
    assert_fault (&fault, BW_FAULTY_RANGE, strips[i].key);
  }
  for (gsize i = 0; i < G_N_ELEMENTS (girths); i++) {
    assert_false (bw_squeeze_reading_validate (&girths[i].reading, &fault));
    assert_fault (&fault, BW_FAULTY_RANGE, girths[i].key);
  }
}

/* A design that has one is refused as a whole, and settling it is safe before. */
static void
a_design_with_such_a_reading_is_refused (void **state)
{
  BwDesign design = bench_design ();
  BwFault fault = NO_FAULT;
  design.thread.has_pulled = TRUE;
  bw_design_give (&design);
  assert_near (design.thread.stretch, 0.010, 1e-15);
  assert_false (bw_design_validate (&design, NULL, &fault));
  assert_fault (&fault, BW_FAULTY_RANGE, BW_AT_THREAD_PULLED_SLACK);
  design = bench_design ();
  design.bed.has_hands = TRUE;
  assert_false (bw_design_validate (&design, NULL, &fault));
  assert_fault (&fault, BW_FAULTY_RANGE, BW_AT_BED_HANDS_SD);
  design.bed.hands = (BwGive){ 0.95, 0.02 };
  assert_false (bw_design_validate (&design, NULL, &fault));
  assert_fault (&fault, BW_FAULTY_RANGE, BW_AT_BED_HANDS_SQUEEZE);
  design = bench_design ();
  design.thread.has_hands = TRUE;
  design.thread.hands = (BwGive){ 0.01, 0.5 };
  assert_false (bw_design_validate (&design, NULL, &fault));
  assert_fault (&fault, BW_FAULTY_RANGE, BW_AT_THREAD_HANDS_SD);
}

/* --- Piece after piece -------------------------------------------------------------------------
 */

static void
an_empty_book_gives_what_is_usual (void **state)
{
  g_autofree BwGive *next = bw_give_next (bw_squeeze_usual (), NULL, 0, 2);
  for (int k = 0; k <= 2; k++) {
    assert_near (next[k].share, 0.15, 1e-15);
    assert_near (next[k].sd, 0.05, 1e-15);
  }
}

/* Two readings of one kind and one of another: h, b_0 and b_1 on a grid, the pieces' own errors and
 * the next piece's integrated by hand, for they are normal and meet nothing else. */
static void
the_next_piece_is_what_a_grid_says (void **state)
{
  const BwGive usual = bw_stretch_usual ();
  const BwGivePiece pieces[]
      = { { 0, { 0.016, 0.002 } }, { 0, { 0.013, 0.001 } }, { 1, { 0.007, 0.003 } } };
  double third = usual.sd / sqrt (3), step = third / 12;
  double weight = 0, sum[3] = { 0 }, square[3] = { 0 };
  enum { REACH = 60 };
  for (int i = -REACH; i <= REACH; i++)
    for (int j = -REACH; j <= REACH; j++)
      for (int k = -REACH; k <= REACH; k++) {
        double h = i * step, b[] = { j * step, k * step };
        double p
            = likelihood (h, 0, third) * likelihood (b[0], 0, third) * likelihood (b[1], 0, third);
        for (gsize n = 0; n < G_N_ELEMENTS (pieces); n++)
          p *= likelihood (pieces[n].said.share, usual.share + h + b[pieces[n].kind],
                           hypot (third, pieces[n].said.sd));
        const double mean[] = { h + b[0], h + b[1], h };
        weight += p;
        for (int m = 0; m < 3; m++) {
          sum[m] += p * mean[m];
          square[m] += p * mean[m] * mean[m];
        }
      }
  g_autofree BwGive *next = bw_give_next (usual, pieces, G_N_ELEMENTS (pieces), 2);
  for (int m = 0; m < 3; m++) {
    BwGive grid = summed (weight, sum[m], square[m]);
    double own = m < 2 ? third : third * G_SQRT2; /* a new kind's b besides the piece's l */
    assert_near (next[m].share, usual.share + grid.share, 1e-7);
    assert_near (next[m].sd, hypot (grid.sd, own), 1e-6);
  }
  assert_true (next[0].share > next[2].share && next[2].share > next[1].share);
}

/* --- What it brings to the count ---------------------------------------------------------------
 */

static double
sigma_of (const BwDesign *design)
{
  BwStone stone = solved (&design->stone);
  return bw_forecast_sigma_of (design, &stone, 57);
}

/* As sure as is usual is as sure as nothing learnt. */
static void
what_is_learnt_makes_the_count_surer (void **state)
{
  BwDesign plain = bench_design (), learnt = plain;
  learnt.thread.stretch_sd = 0.003;
  learnt.bed.squeeze_sd = 0.05;
  assert_near (sigma_of (&learnt), sigma_of (&plain), 1e-12);
  learnt.thread.stretch_sd = 0.002;
  double n = 57 * plain.pitch.mm, was = sigma_of (&plain), is = sigma_of (&learnt);
  assert_near (was * was - is * is, n * n * (0.003 * 0.003 - 0.002 * 0.002), 1e-9);
  learnt.bed.squeeze_sd = 0.03;
  assert_true (sigma_of (&learnt) < is);
}

/* However well both are known the calliper's own error is left. */
static void
the_callipers_own_error_stays (void **state)
{
  BwDesign design = bench_design ();
  design.stone.girth_sd_mm = 0.1;
  design.pitch.sd_mm = 0;
  design.thread.stretch_sd = design.bed.squeeze_sd = 1e-4;
  assert_near (sigma_of (&design), 0.05, 1e-12);
}

/* Round which a strip of paper was laid bed and pull come on top, learnt or not. */
static void
a_girth_by_paper_takes_the_learnt_errors_as_they_are (void **state)
{
  BwDesign design = bench_design ();
  design.stone.measured = BW_MEASURED_GIRTH;
  design.stone.values_mm[0] = 84;
  design.bed.layers = 0;
  design.pitch.sd_mm = 0;
  design.thread.stretch_sd = 0.001;
  assert_near (sigma_of (&design), hypot (0.4, 57 * design.pitch.mm * 0.001), 1e-9);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (nothing_measured_is_what_is_usual),
    cmocka_unit_test (a_pulled_length_says_the_stretch),
    cmocka_unit_test (a_girth_under_the_pulled_strip_says_the_squeeze),
    cmocka_unit_test (readings_scatter_as_they_are_told_to),
    cmocka_unit_test (belief_and_reading_are_weighed_as_a_grid_says),
    cmocka_unit_test (hands_take_the_place_of_what_is_usual_and_a_reading_comes_on_top),
    cmocka_unit_test (what_is_believed_can_be),
    cmocka_unit_test (readings_that_cannot_be_are_faults_at_their_keys),
    cmocka_unit_test (a_design_with_such_a_reading_is_refused),
    cmocka_unit_test (an_empty_book_gives_what_is_usual),
    cmocka_unit_test (the_next_piece_is_what_a_grid_says),
    cmocka_unit_test (what_is_learnt_makes_the_count_surer),
    cmocka_unit_test (the_callipers_own_error_stays),
    cmocka_unit_test (a_girth_by_paper_takes_the_learnt_errors_as_they_are),
  };
  return cmocka_run_group_tests_name ("give", tests, NULL, NULL);
}
