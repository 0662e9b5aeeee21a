/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What would help most: the closed form against its integral done otherwise, and against makers who
 * measure and then weave. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "core/band/forecast.h"
#include "core/band/would-help.h"

#include "makers.h"

#include <math.h>

static const BwHelp *
find (const BwHelps *helps, BwHelpKind kind, int rows)
{
  for (int i = 0; i < helps->n; i++)
    if (helps->help[i].kind == kind && (rows == 0 || helps->help[i].rows == rows))
      return &helps->help[i];
  return NULL;
}

static BwHelps
helps_of (const BwDesign *design)
{
  BwStone stone;
  BwHelps helps;
  sample_solve (design, &stone);
  bw_helps_init (&helps, design, &stone);
  return helps;
}

static void
what_there_is_now_is_the_chance_of_the_likeliest_count (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (3);
  for (int k = 0; k < 30; k++) {
    BwStone stone;
    BwHelps helps;
    g_autofree BwForecast *forecast = g_new (BwForecast, 1);
    BwDesign design = sample_random_design (rand, &stone);
    bw_helps_init (&helps, &design, &stone);
    bw_forecast_init (forecast, &design, &stone);
    double best = 0;
    for (int i = 0; i < forecast->n_chances; i++)
      best = MAX (best, forecast->chance[i].p);
    assert_near (helps.now, best, 1e-9);
  }
}

static void
the_most_helpful_comes_first_and_none_is_idle (void **state)
{
  BwDesign design = sample_design ();
  BwHelps helps = helps_of (&design);
  assert_true (helps.n >= 3);
  for (int i = 0; i < helps.n; i++) {
    assert_true (helps.help[i].chance >= helps.now + BW_HELP_LEAST);
    assert_true (i == 0 || helps.help[i].chance <= helps.help[i - 1].chance);
  }
  assert_int_equal (helps.help[0].kind, BW_HELP_SWATCH_CALLIPER);
  assert_int_equal (helps.help[0].rows, BW_HELP_LONG_SWATCH_ROWS);
}

static void
help_is_told_in_order_on_every_stone (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (12);
  int told = 0;
  for (int k = 0; k < 200; k++) {
    BwStone stone;
    BwHelps helps;
    BwDesign design = sample_random_design (rand, &stone);
    bw_helps_init (&helps, &design, &stone);
    for (int i = 0; i < helps.n; i++, told++) {
      assert_true (helps.help[i].chance >= helps.now + BW_HELP_LEAST);
      assert_true (helps.help[i].chance <= 1);
      assert_true (i == 0 || helps.help[i].chance <= helps.help[i - 1].chance);
    }
  }
  assert_true (told > 200);
}

static void
what_is_there_already_is_not_asked_for (void **state)
{
  BwDesign design = sample_design ();
  design.gauge.has_swatch = TRUE;
  design.gauge.swatch = (BwSwatch){ 14, 60, 18.2, 48.8, BW_STRIP_BY_CALLIPER };
  design.pitch = bw_gauge_pitch (&design.gauge, NULL, 0);
  BwHelps helps = helps_of (&design);
  assert_null (find (&helps, BW_HELP_SWATCH, 0));
  assert_null (find (&helps, BW_HELP_SWATCH_CALLIPER, 0));
  design.gauge.swatch = (BwSwatch){ 14, 24, 18.2, 20, BW_STRIP_BY_RULER };
  design.pitch = bw_gauge_pitch (&design.gauge, NULL, 0);
  helps = helps_of (&design);
  assert_null (find (&helps, BW_HELP_SWATCH, 0));
  assert_non_null (find (&helps, BW_HELP_SWATCH_CALLIPER, BW_HELP_LONG_SWATCH_ROWS));
  design.tried = (BwBelief){ TRUE, 0.1, 5, 57 };
  helps = helps_of (&design);
  assert_int_equal (helps.n, 0);
}

static void
a_stone_known_by_a_strip_of_paper_is_asked_for_its_flats (void **state)
{
  BwDesign design = sample_design ();
  BwHelps helps = helps_of (&design);
  assert_null (find (&helps, BW_HELP_FLATS, 0));
  assert_null (find (&helps, BW_HELP_GIRTH_AGAIN, 0));
  design.stone.measured = BW_MEASURED_GIRTH;
  design.stone.values_mm[0] = 84;
  design.pitch.sd_mm = 0.003;
  helps = helps_of (&design);
  assert_non_null (find (&helps, BW_HELP_FLATS, 0));
  assert_non_null (find (&helps, BW_HELP_GIRTH_AGAIN, 0));
  design.stone.faces = 5; /* which has none opposite each other */
  helps = helps_of (&design);
  assert_null (find (&helps, BW_HELP_FLATS, 0));
}

/* A stone known by a strip of paper, and hands by a long swatch: bed and pull are most of what is
 * not known. Of a girth where the help is worth its walk; fails when there is none. */
static BwDesign
well_woven (BwHelpKind kind, int layers)
{
  BwDesign design = sample_design ();
  design.stone.measured = BW_MEASURED_GIRTH;
  design.pitch.sd_mm = 0.003;
  design.bed.layers = layers;
  for (double girth = 84; girth < 87; girth += 0.1) {
    design.stone.values_mm[0] = girth;
    BwHelps helps = helps_of (&design);
    if (find (&helps, kind, 0))
      return design;
  }
  fail_msg ("%s is never offered", bw_help_word (kind));
  return design;
}

/* The long swatch pulled, and a thick bed under a pulled strip; neither where it was done. */
static void
stretch_and_squeeze_are_asked_for_until_they_are_measured (void **state)
{
  BwDesign design = well_woven (BW_HELP_STRETCH, 1);
  BwHelps helps = helps_of (&design);
  assert_non_null (find (&helps, BW_HELP_STRETCH, BW_HELP_LONG_SWATCH_ROWS));
  assert_null (find (&helps, BW_HELP_SQUEEZE, 0)); /* a thin bed tells too little of itself */
  design.thread.has_pulled = TRUE;
  design.thread.pulled = (BwStretchReading){ 48.8, 49.3, BW_STRIP_BY_CALLIPER };
  helps = helps_of (&design);
  assert_null (find (&helps, BW_HELP_STRETCH, 0));
  design = well_woven (BW_HELP_SQUEEZE, 4);
  design.bed.has_pulled = TRUE;
  design.bed.pulled = (BwSqueezeReading){ 84, 92.8, 91.4, BW_STRIP_BY_CALLIPER };
  helps = helps_of (&design);
  assert_null (find (&helps, BW_HELP_SQUEEZE, 0));
}

/* What a measurement leaves is what is left once it is made: as sure, whatever it said. */
static void
measuring_the_stretch_leaves_the_chance_that_was_told (void **state)
{
  BwDesign design = well_woven (BW_HELP_STRETCH, 1), after;
  BwStone stone;
  sample_solve (&design, &stone);
  BwHelps helps = helps_of (&design);
  const BwHelp *help = find (&helps, BW_HELP_STRETCH, 0);
  double length = 30.5 * design.pitch.mm;
  after = design;
  after.thread.has_pulled = TRUE;
  after.thread.pulled = (BwStretchReading){ length, 1.01 * length, BW_STRIP_BY_CALLIPER };
  bw_design_give (&after);
  int n = bw_fit_recommended (&design, &stone);
  double was = bw_forecast_sigma_of (&design, &stone, n),
         is = bw_forecast_sigma_of (&after, &stone, n);
  double best = 0;
  for (int i = -400; i <= 400; i++) { /* the mean over what it may say, done otherwise */
    double z = i / 80.0, weight = exp (-0.5 * z * z) / 80 / sqrt (2 * G_PI), likely = 0;
    for (int k = n - 6; k <= n + 6; k++) {
      double lo = (bw_fit_closing_scale (&design, &stone, k - 1) - 1) * stone.girth_mm;
      double hi = (bw_fit_closing_scale (&design, &stone, k) - 1) * stone.girth_mm;
      double at = z * sqrt (was * was - is * is);
      likely
          = MAX (likely, 0.5 * (erf ((hi - at) / is / G_SQRT2) - erf ((lo - at) / is / G_SQRT2)));
    }
    best += weight * likely;
  }
  assert_near (help->chance, best, 1e-3);
}

/* Drawn at random what the integral sums: first what the measurement will say, then the truth. */
static void
the_integral_is_what_drawing_comes_to (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (17);
  BwStone stone;
  BwHelps helps;
  BwDesign design = sample_design (), after;
  enum { TRIES = 20000, AROUND = 12 };
  sample_solve (&design, &stone);
  bw_helps_init (&helps, &design, &stone);
  const BwHelp *help = find (&helps, BW_HELP_SWATCH, BW_HELP_SWATCH_ROWS);
  assert_non_null (help);
  int n = bw_fit_recommended (&design, &stone), right = 0;
  after = design;
  after.pitch.sd_mm = 1 / sqrt (1 / pow (design.pitch.sd_mm, 2) + pow (12.5 / 0.3, 2));
  double sigma = bw_forecast_sigma_of (&design, &stone, n);
  double left = bw_forecast_sigma_of (&after, &stone, n), edge[2 * AROUND + 1];
  for (int i = 0; i <= 2 * AROUND; i++)
    edge[i] = (bw_fit_closing_scale (&design, &stone, n - AROUND + i) - 1) * stone.girth_mm;
  for (int k = 0; k < TRIES; k++) {
    double said = maker_normal (rand, 0, sqrt (sigma * sigma - left * left));
    double truth = maker_normal (rand, said, left), best = 0;
    int chosen = 0, wanted = 0;
    for (int i = 1; i <= 2 * AROUND; i++) {
      double p
          = erf ((edge[i] - said) / left / G_SQRT2) - erf ((edge[i - 1] - said) / left / G_SQRT2);
      if (p > best) {
        best = p;
        chosen = i;
      }
      if (truth > edge[i - 1] && truth <= edge[i])
        wanted = i;
    }
    right += chosen == wanted;
  }
  assert_near (help->chance, (double)right / TRIES, 0.011); /* three standard errors */
}

/* --- Makers who do as told ----------------------------------------------------------------------
 */

#define MAKERS 1200

/* The count most likely to be the fewest that closes. */
static int
likeliest (const BwDesign *design, const BwStone *stone)
{
  g_autofree BwForecast *forecast = g_new (BwForecast, 1);
  int best = 0;
  bw_forecast_init (forecast, design, stone);
  for (int i = 1; i < forecast->n_chances; i++)
    if (forecast->chance[i].p > forecast->chance[best].p)
      best = i;
  return 2 * forecast->chance[best].beads_around;
}

/* Measures once more what the help names; the strip and swatches tell the pitch. */
static void
measure (Maker *maker, GRand *rand, const BwHelp *help)
{
  BwGauge gauge = maker->told.gauge;
  if (help->kind == BW_HELP_STRIP) {
    BwCheck check = maker_check (maker, rand, help->rows, 0.3);
    maker->told.pitch = bw_gauge_pitch (&gauge, &check, 1);
    return;
  }
  BwStripTool tool
      = help->kind == BW_HELP_SWATCH_CALLIPER ? BW_STRIP_BY_CALLIPER : BW_STRIP_BY_RULER;
  BwCheck strip = maker_check (maker, rand, help->rows, bw_strip_error_mm (tool));
  gauge.has_swatch = TRUE;
  gauge.swatch = (BwSwatch){ 2, help->rows, 2.6, strip.length_mm, tool };
  maker->told.pitch = bw_gauge_pitch (&gauge, NULL, 0);
}

/* Of makers who measure what is offered as many are right as were promised, within three standard
 * errors of the count, 0.042. */
static void
what_is_promised_comes_true (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (23);
  struct {
    double promised, right;
    int n;
  } sum[BW_HELP_STRIP + 2] = { 0 };
  for (int k = 0; k < MAKERS;) {
    Maker maker;
    BwHelps helps;
    if (!maker_init_with (&maker, rand, (MakerHabits){ 0 }))
      continue;
    k++;
    bw_helps_init (&helps, &maker.told, &maker.known);
    for (int i = 0; i < helps.n; i++) {
      const BwHelp *help = &helps.help[i];
      if (help->kind > BW_HELP_STRIP)
        continue;
      Maker measured = maker;
      int slot = help->rows == BW_HELP_LONG_SWATCH_ROWS ? BW_HELP_STRIP + 1 : (int)help->kind;
      measure (&measured, rand, help);
      sum[slot].promised += help->chance;
      sum[slot].right += likeliest (&measured.told, &measured.known) == maker.right;
      sum[slot].n++;
    }
  }
  for (gsize i = 0; i < G_N_ELEMENTS (sum); i++) {
    assert_true (sum[i].n > MAKERS / 2);
    assert_near (sum[i].right / sum[i].n, sum[i].promised / sum[i].n, 0.042);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (what_there_is_now_is_the_chance_of_the_likeliest_count),
    cmocka_unit_test (the_most_helpful_comes_first_and_none_is_idle),
    cmocka_unit_test (help_is_told_in_order_on_every_stone),
    cmocka_unit_test (what_is_there_already_is_not_asked_for),
    cmocka_unit_test (a_stone_known_by_a_strip_of_paper_is_asked_for_its_flats),
    cmocka_unit_test (stretch_and_squeeze_are_asked_for_until_they_are_measured),
    cmocka_unit_test (measuring_the_stretch_leaves_the_chance_that_was_told),
    cmocka_unit_test (the_integral_is_what_drawing_comes_to),
    cmocka_unit_test (what_is_promised_comes_true),
  };
  return cmocka_run_group_tests_name ("would-help", tests, NULL, NULL);
}
