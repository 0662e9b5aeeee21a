/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Remedies: each, once applied and solved again, is what was promised, and nothing nearer was
 * passed over. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include "../fewer.h"
#include "core/band/remedy.h"
#include "core/base/tolerance.h"
#include "core/workshop/ways.h"
#include "samples.h"

#define DESIGNS few (60)

static GArray *
remedies_of (const BwDesign *design, const BwStone *stone)
{
  int n_sizes;
  const BwBead *sizes = bw_bead_sizes (&n_sizes);
  return bw_remedies (design, stone, sizes, n_sizes);
}

/* The which-th remedy of a kind, NULL when there are fewer. */
static const BwRemedy *
find_remedy (GArray *remedies, BwRemedyKind kind, int which)
{
  for (guint i = 0; i < remedies->len; i++) {
    const BwRemedy *remedy = &g_array_index (remedies, BwRemedy, i);
    if (remedy->kind == kind && which-- == 0)
      return remedy;
  }
  return NULL;
}

static void
every_remedy_solved_again_is_what_was_promised (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (40);
  int offered[6] = { 0 };
  for (int k = 0; k < DESIGNS; k++) {
    BwStone stone, again;
    BwFit fit;
    BwDesign design = sample_random_design (rand, &stone);
    g_autoptr (GArray) remedies = remedies_of (&design, &stone);
    for (guint i = 0; i < remedies->len; i++) {
      const BwRemedy *remedy = &g_array_index (remedies, BwRemedy, i);
      sample_solve (&remedy->design, &again);
      bw_fit_init (&fit, &remedy->design, &again, remedy->design.band.rows);
      assert_int_equal (remedy->verdict, fit.verdict);
      assert_near (remedy->gap_min_mm, fit.gap_min_mm, 1e-9);
      assert_near (remedy->gap_max_mm, fit.gap_max_mm, 1e-9);
      assert_true (i == 0 || remedy->joint || remedy->kind >= (remedy - 1)->kind);
      assert_true (i == 0 || remedy->joint >= (remedy - 1)->joint);
      offered[remedy->kind]++;
    }
  }
  for (int kind = 0; kind < 6; kind++)
    assert_true (offered[kind] > 0);
}

static void
rows_are_offered_a_whole_bead_away_on_both_sides (void **state)
{
  BwStone stone;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  for (design.band.rows = 108; design.band.rows < 118; design.band.rows++) {
    g_autoptr (GArray) remedies = remedies_of (&design, &stone);
    double a = find_remedy (remedies, BW_REMEDY_ROWS, 0)->value;
    double b = find_remedy (remedies, BW_REMEDY_ROWS, 1)->value;
    int step = design.band.rows % 2 ? 1 : 2;
    assert_near (a + b, 2 * design.band.rows, 0);
    assert_near (fabs (a - b), 2 * step, 0);
    assert_int_equal (find_remedy (remedies, BW_REMEDY_ROWS, 0)->design.band.rows, (int)a);
    assert_null (find_remedy (remedies, BW_REMEDY_ROWS, 2));
  }
}

static void
a_loose_band_is_offered_fewer_rows_first_and_a_tight_one_more (void **state)
{
  BwStone stone;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  int closing = 2 * bw_fit_recommended (&design, &stone);
  design.band.rows = closing + 6;
  g_autoptr (GArray) loose = remedies_of (&design, &stone);
  assert_near (find_remedy (loose, BW_REMEDY_ROWS, 0)->value, closing + 4, 0);
  design.band.rows = closing - 2;
  g_autoptr (GArray) tight = remedies_of (&design, &stone);
  assert_near (find_remedy (tight, BW_REMEDY_ROWS, 0)->value, closing, 0);
}

static void
the_bed_remedy_lets_the_tightest_column_lie_at_its_natural_length (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (41);
  int offered = 0;
  for (int k = 0; k < DESIGNS; k++) {
    BwStone stone;
    BwBedding before, after;
    BwDesign design = sample_random_design (rand, &stone);
    g_autoptr (GArray) remedies = remedies_of (&design, &stone);
    const BwRemedy *bed = find_remedy (remedies, BW_REMEDY_BED, 0);
    if (!bed)
      continue;
    offered++;
    BwBandSpan span = bw_design_span (&design);
    assert_true (bw_bedding_init (&before, &design.bed, &stone, span, NULL));
    assert_true (bw_bedding_init (&after, &bed->design.bed, &stone, span, NULL));
    for (int i = 0; i <= 4; i++) {
      double z = span.bottom_mm + i * span.width_mm / 4;
      assert_near (bw_bedding_thickness (&after, z) - bw_bedding_thickness (&before, z), bed->value,
                   1e-12);
    }
    assert_near (bed->gap_max_mm, 0, 1e-9);
  }
  assert_true (offered > DESIGNS / 3);
}

/* Not one wind of cord fewer brings the same: no layer count nearer to the present one is snug. */
static void
the_layers_remedy_is_the_nearest_snug_count (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (42);
  int snug = 0;
  for (int k = 0; k < DESIGNS; k++) {
    BwStone stone;
    BwDesign design = sample_random_design (rand, &stone);
    g_autoptr (GArray) remedies = remedies_of (&design, &stone);
    const BwRemedy *layers = find_remedy (remedies, BW_REMEDY_LAYERS, 0);
    if (!layers || layers->verdict != BW_VERDICT_SNUG)
      continue;
    snug++;
    assert_int_equal (layers->design.bed.layers, (int)layers->value);
    int away = ABS (layers->design.bed.layers - design.bed.layers);
    for (int d = 1 - away; d < away; d++) {
      BwDesign nearer = design;
      nearer.bed.layers += d;
      double thick = nearer.bed.layers * nearer.bed.cord_thickness_mm;
      if (d != 0 && thick <= 2 && bw_design_validate (&nearer, NULL, NULL))
        assert_true (bw_fit_verdict (&nearer, &stone, design.band.rows, NULL, NULL)
                     != BW_VERDICT_SNUG);
    }
  }
  assert_true (snug > few (5));
}

static void
a_layer_count_that_is_not_snug_at_least_lessens_the_worst_gap (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (43);
  int seen = 0;
  for (int k = 0; k < DESIGNS; k++) {
    BwStone stone;
    BwFit fit;
    BwDesign design = sample_random_design (rand, &stone);
    g_autoptr (GArray) remedies = remedies_of (&design, &stone);
    const BwRemedy *layers = find_remedy (remedies, BW_REMEDY_LAYERS, 0);
    if (!layers || layers->verdict == BW_VERDICT_SNUG)
      continue;
    seen++;
    bw_fit_init (&fit, &design, &stone, design.band.rows);
    assert_int_equal (ABS (layers->design.bed.layers - design.bed.layers), 1);
    assert_true (MAX (fabs (layers->gap_min_mm), fabs (layers->gap_max_mm))
                 < MAX (fabs (fit.gap_min_mm), fabs (fit.gap_max_mm)));
  }
  assert_true (seen > 0);
}

/* A bead a third larger makes the band far too long; a bed that takes all of it up is no bed. */
static void
no_bed_is_offered_thicker_than_a_maker_would_wind (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (44);
  int too_long = 0;
  for (int k = 0; k < DESIGNS; k++) {
    BwStone stone;
    BwDesign design = sample_random_design (rand, &stone);
    BwBedding now;
    design.band.rows += 2 * (design.band.rows / 6);
    if (!bw_design_validate (&design, NULL, NULL))
      continue;
    assert_true (bw_bedding_init (&now, &design.bed, &stone, bw_design_span (&design), NULL));
    g_autoptr (GArray) remedies = remedies_of (&design, &stone);
    for (guint i = 0; i < remedies->len; i++) {
      const BwRemedy *remedy = &g_array_index (remedies, BwRemedy, i);
      const BwBed *bed = &remedy->design.bed;
      if (remedy->kind == BW_REMEDY_BED || remedy->kind == BW_REMEDY_LAYERS)
        assert_true (bed->layers * bed->cord_thickness_mm <= MAX (2, now.bottom_mm) + 1e-6);
    }
    too_long += bw_fit_verdict (&design, &stone, design.band.rows, NULL, NULL) == BW_VERDICT_LOOSE;
  }
  assert_true (too_long > DESIGNS / 3);
}

static double
way_round (const BwDesign *design, const BwStone *stone, const BwBedding *bedding, int column)
{
  double z = design->band.bottom_mm + (column - 0.5) * design->gauge.column_mm;
  BwSection section;
  bw_section_init (&section, stone, z);
  return section.girth_mm + 2 * G_PI * bw_bedding_thickness (bedding, z);
}

static void
the_grade_remedy_makes_both_edges_the_same_way_round (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (44);
  int offered = 0;
  for (int k = 0; k < DESIGNS; k++) {
    BwStone stone;
    BwBedding bedding;
    BwDesign design = sample_random_design (rand, &stone);
    g_autoptr (GArray) remedies = remedies_of (&design, &stone);
    const BwRemedy *grade = find_remedy (remedies, BW_REMEDY_GRADE, 0);
    if (!grade)
      continue;
    offered++;
    const BwDesign *graded = &grade->design;
    assert_true (bw_bedding_init (&bedding, &graded->bed, &stone, bw_design_span (graded), NULL));
    assert_near (way_round (graded, &stone, &bedding, 1),
                 way_round (graded, &stone, &bedding, design.band.columns), 1e-9);
    assert_near (graded->bed.top_extra_mm, grade->value, 0);
    assert_int_equal (graded->band.rows, 2 * bw_fit_recommended (graded, &stone));
    assert_true (grade->verdict == BW_VERDICT_SNUG || grade->verdict == BW_VERDICT_LOOSE);
  }
  assert_true (offered > DESIGNS / 3);
}

/* A hexagon of girth g1 at 10 mm and g2 at 32 mm, one layer of cord. */
static BwDesign
hexagon (double g1, double g2)
{
  BwDesign design = sample_design ();
  design.stone.measured = BW_MEASURED_GIRTH;
  design.stone.values_mm[0] = g1;
  design.stone.at_mm = 10;
  design.stone.second_girth_mm = g2;
  design.stone.second_at_mm = 32;
  design.stone.apex_offset_mm[0] = design.stone.apex_offset_mm[1] = 0;
  design.band.bottom_mm = 12;
  return design;
}

static void
a_stone_thin_at_its_base_is_offered_layers_and_grade_together (void **state)
{
  int snug = 0, layered = 0;
  for (double g2 = 82.5; g2 < 95; g2 += 0.5) {
    BwStone stone;
    BwDesign design = hexagon (82, g2);
    sample_solve (&design, &stone);
    double taken = 18.2 * (g2 - 82) / 22 / (2 * G_PI); /* band width × slope */
    g_autoptr (GArray) remedies = remedies_of (&design, &stone);
    const BwRemedy *grade = find_remedy (remedies, BW_REMEDY_GRADE, 0);
    if (taken > 1.5) {
      assert_null (grade);
      continue;
    }
    assert_non_null (grade);
    assert_near (grade->value, -taken, 1e-9);
    assert_int_equal (grade->design.bed.layers, MAX (1, (int)ceil (taken / 0.35)));
    assert_int_equal (grade->design.band.rows, 2 * bw_fit_recommended (&grade->design, &stone));
    snug += grade->verdict == BW_VERDICT_SNUG;
    layered += grade->design.bed.layers > 1;
  }
  assert_true (layered > 15);
  assert_true (snug > 10);
}

/* A bed measured and found to be none is wound anew from nothing. */
static void
a_measured_bed_of_nothing_has_remedies_too (void **state)
{
  BwStone stone;
  BwSection section;
  BwDesign design = hexagon (86, 82);
  sample_solve (&design, &stone);
  bw_section_init (&section, &stone, bw_band_span_mid (bw_design_span (&design)));
  design.bed.has_girth_over = TRUE;
  design.bed.girth_over_mm = section.girth_mm;
  g_autoptr (GArray) remedies = remedies_of (&design, &stone);
  const BwRemedy *grade = find_remedy (remedies, BW_REMEDY_GRADE, 0);
  assert_non_null (grade);
  assert_int_equal (grade->design.bed.layers, 0);
  assert_true (grade->voids_girth_over);
}

static void
no_band_is_sent_onto_the_point (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (46);
  int offered = 0;
  for (int k = 0; k < 3 * DESIGNS; k++) {
    BwStone stone;
    BwDesign design = sample_random_design (rand, &stone);
    design.stone.shoulder_mm = sample_between (rand, 10, 40);
    if (!bw_design_validate (&design, &stone, NULL))
      continue;
    g_autoptr (GArray) remedies = remedies_of (&design, &stone);
    const BwRemedy *move;
    for (int which = 0; (move = find_remedy (remedies, BW_REMEDY_MOVE, which));
         which++, offered++) {
      assert_true (move->value >= stone.base_shoulder_mm - 1e-6);
      assert_true (move->value + bw_design_span (&move->design).width_mm
                   <= stone.shoulder_mm + 1e-6);
    }
  }
  assert_true (offered > 10);
}

static gboolean
snug_at (const BwDesign *design, const BwStone *stone, double bottom)
{
  BwDesign moved = *design;
  moved.band.bottom_mm = bottom;
  return bw_fit_verdict (&moved, stone, moved.band.rows, NULL, NULL) == BW_VERDICT_SNUG;
}

static void
a_move_goes_to_the_nearest_snug_height_on_its_side (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (45);
  int offered = 0;
  for (int k = 0; k < 2 * DESIGNS; k++) {
    BwStone stone;
    double last = 0;
    BwDesign design = sample_random_design (rand, &stone);
    g_autoptr (GArray) remedies = remedies_of (&design, &stone);
    const BwRemedy *move;
    for (int which = 0; (move = find_remedy (remedies, BW_REMEDY_MOVE, which)); which++) {
      if (move->joint)
        break;
      double way = move->value - design.band.bottom_mm;
      int steps = (int)lround (fabs (way) / 0.5);
      offered++;
      assert_int_equal (move->verdict, BW_VERDICT_SNUG);
      assert_int_equal (move->design.band.rows, design.band.rows);
      assert_near (fabs (way), steps * 0.5, 1e-9);
      assert_true (steps > 0 && fabs (way) >= last);
      for (int i = 1; i < steps; i++)
        assert_false (snug_at (&design, &stone, design.band.bottom_mm + way * i / steps));
      last = fabs (way);
    }
  }
  assert_true (offered > few (20));
}

static void
another_bead_keeps_the_band_as_wide_as_it_can (void **state)
{
  int n_sizes;
  bw_bead_sizes (&n_sizes);
  BwStone stone;
  BwDesign design = sample_design ();
  design.gauge.has_swatch = TRUE;
  design.gauge.swatch = (BwSwatch){ .columns = 10, .rows = 24, .width_mm = 13, .length_mm = 20 };
  design.pitch.sd_mm = 0.01;
  sample_solve (&design, &stone);
  g_autoptr (GArray) remedies = remedies_of (&design, &stone);
  double width = bw_design_span (&design).width_mm, last = 0;
  int offered = 0;
  const BwRemedy *bead;
  for (; (bead = find_remedy (remedies, BW_REMEDY_BEAD, offered)); offered++) {
    const BwDesign *other = &bead->design;
    double away = hypot (other->bead.diameter_mm - design.bead.diameter_mm,
                         other->bead.length_mm - design.bead.length_mm);
    assert_near (bead->value, other->bead.diameter_mm, 0);
    assert_true (away > 0 && away >= last);
    assert_int_equal (other->band.columns % 2, 0);
    assert_true (fabs (bw_design_span (other).width_mm - width)
                 <= other->bead.length_mm * (1 + 1e-9));
    assert_false (other->gauge.has_swatch);
    assert_near (other->pitch.mm, other->bead.diameter_mm, 1e-12);
    assert_near (other->pitch.sd_mm, 0.02 * other->bead.diameter_mm, 1e-12);
    assert_int_equal (other->band.rows, 2 * bw_fit_recommended (other, &stone));
    last = away;
  }
  assert_int_equal (offered, n_sizes - 1);
  assert_string_equal (find_remedy (remedies, BW_REMEDY_BEAD, 0)->design.bead.name,
                       "15/0 round seed"); /* 1.5 × 1.1 mm, the nearest to 1.6 × 1.3 mm */
}

/* Its columns lie round the stone, so a narrower band does not refuse it. */
static void
an_upright_strip_wider_than_the_band_keeps_its_remedies (void **state)
{
  int n_sizes;
  BwStone stone;
  BwDesign design = sample_design ();
  bw_bead_sizes (&n_sizes);
  design.bail.style = BW_BAIL_UPRIGHT;
  design.bail.columns = 16;
  design.bail.rows = 40;
  sample_solve (&design, &stone);
  g_autoptr (GArray) remedies = remedies_of (&design, &stone);
  for (int which = 0; which < n_sizes - 1; which++)
    assert_non_null (find_remedy (remedies, BW_REMEDY_BEAD, which));
  design.bail.columns = 12; /* W − 2 of fourteen; other sizes make a narrower band */
  sample_solve (&design, &stone);
  g_autoptr (GArray) narrower = remedies_of (&design, &stone);
  assert_non_null (find_remedy (narrower, BW_REMEDY_BEAD, n_sizes - 2));
}

static void
odd_rows_are_cured_by_one_row_and_by_no_bed (void **state)
{
  BwStone stone;
  BwDesign design = sample_design ();
  design.band.rows = 113;
  sample_solve (&design, &stone);
  g_autoptr (GArray) remedies = remedies_of (&design, &stone);
  assert_near (find_remedy (remedies, BW_REMEDY_ROWS, 0)->value, 114, 0);
  assert_near (find_remedy (remedies, BW_REMEDY_ROWS, 1)->value, 112, 0);
  assert_null (find_remedy (remedies, BW_REMEDY_BED, 0));
  assert_null (find_remedy (remedies, BW_REMEDY_LAYERS, 0));
  assert_null (find_remedy (remedies, BW_REMEDY_MOVE, 0));
}

/* The girth over the bed told how thick the layers lie; that stays true when it is dropped. */
static void
a_changed_bed_voids_the_girth_over_it_and_keeps_what_it_told (void **state)
{
  BwStone stone;
  BwBedding before, after;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  BwSection middle;
  bw_section_init (&middle, &stone, bw_band_span_mid (bw_design_span (&design)));
  design.bed.has_girth_over = TRUE;
  design.bed.girth_over_mm = middle.girth_mm + 2 * G_PI * 0.42;
  sample_solve (&design, &stone);
  BwBandSpan span = bw_design_span (&design);
  assert_true (bw_bedding_init (&before, &design.bed, &stone, span, NULL));
  g_autoptr (GArray) remedies = remedies_of (&design, &stone);
  int voided = 0;
  for (guint i = 0; i < remedies->len; i++) {
    const BwRemedy *remedy = &g_array_index (remedies, BwRemedy, i);
    gboolean bed_changes = remedy->kind != BW_REMEDY_ROWS && remedy->kind != BW_REMEDY_BEAD;
    assert_int_equal (remedy->voids_girth_over, bed_changes);
    assert_int_equal (remedy->design.bed.has_girth_over, !bed_changes);
    voided += bed_changes;
  }
  const BwRemedy *grade = find_remedy (remedies, BW_REMEDY_GRADE, 0);
  assert_non_null (grade);
  assert_true (bw_bedding_init (&after, &grade->design.bed, &stone, span, NULL));
  assert_near (bw_bedding_thickness (&after, span.bottom_mm),
               bw_bedding_thickness (&before, span.bottom_mm), 1e-12);
  assert_true (voided >= 3);
}

static gboolean
is_cure (const BwRemedy *remedy)
{
  return remedy->verdict == BW_VERDICT_SNUG && remedy->kind != BW_REMEDY_BEAD;
}

/* A girth over the bed, measured where the band lies. FALSE: not there. */
static gboolean
measure_over (BwDesign *design, BwStone *stone, GRand *rand)
{
  BwSection middle;
  bw_section_init (&middle, stone, bw_band_span_mid (bw_design_span (design)));
  design->bed.has_girth_over = TRUE;
  design->bed.top_extra_mm = 0;
  design->bed.girth_over_mm = middle.girth_mm + sample_between (rand, 0, 5);
  return bw_design_validate (design, stone, NULL);
}

static void
count_cures (const BwDesign *design, const BwStone *stone, int *alone, int *joint)
{
  g_autoptr (GArray) remedies = remedies_of (design, stone);
  int cures = 0, together = 0;
  for (guint i = 0; i < remedies->len; i++) {
    const BwRemedy *remedy = &g_array_index (remedies, BwRemedy, i);
    together += remedy->joint;
    cures += !remedy->joint && is_cure (remedy);
    assert_true (!remedy->joint || remedy->verdict == BW_VERDICT_SNUG);
  }
  gboolean snug = bw_fit_is_snug (design, stone, design->band.rows);
  /* Joint ones where they are needed, and nowhere else. */
  assert_int_equal (together > 0, !snug && cures == 0);
  *alone += cures > 0;
  *joint += together > 0;
}

/* Of random designs, with a measured girth over the bed and without, none is left without a cure.
 */
static void
where_no_knob_cures_two_or_three_do (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (49);
  int alone = 0, joint = 0;
  for (int k = 0; k < 8 * DESIGNS; k++) {
    BwStone stone;
    BwDesign design = sample_random_design (rand, &stone);
    if (k % 2 == 0 || measure_over (&design, &stone, rand))
      count_cures (&design, &stone, &alone, &joint);
  }
  assert_true (alone > DESIGNS);
  assert_true (joint >= 2);
}

/* A stone that narrows by more than a tenth of its girth under the band: no single knob, but a
 * graded bed with its own rows, or a narrower band. */
static void
a_steep_stone_is_cured_all_the_same (void **state)
{
  int cured = 0;
  for (double g2 = 70; g2 < 78; g2 += 1) {
    BwStone stone;
    BwDesign design = hexagon (86, g2);
    sample_solve (&design, &stone);
    g_autoptr (GArray) remedies = remedies_of (&design, &stone);
    for (guint i = 0; i < remedies->len; i++)
      cured += is_cure (&g_array_index (remedies, BwRemedy, i));
    assert_true (cured > 0);
    cured = 0;
  }
}

/* A short prism that tapers far more than most, under a band somewhere on it. */
static BwDesign
hard_design (GRand *rand, BwStone *stone)
{
  for (;;) {
    BwDesign design = sample_random_design (rand, stone);
    BwStoneMeasures *measures = &design.stone;
    measures->second_at_mm = measures->at_mm + sample_between (rand, 6, 16);
    measures->has_second = TRUE;
    measures->second_girth_mm = stone->girth_mm * sample_between (rand, 0.75, 1.3);
    measures->shoulder_mm = measures->second_at_mm + sample_between (rand, 0.5, 8);
    design.band.columns = 2 * g_rand_int_range (rand, 3, 8);
    design.bail.style = BW_BAIL_NONE;
    double room = measures->shoulder_mm - bw_design_span (&design).width_mm;
    design.band.bottom_mm = sample_between (rand, 0, MAX (0.1, room));
    if (bw_design_validate (&design, stone, NULL))
      return design;
  }
}

#define BEADS_MOST 16

/* Whether the joint search finds a way with the design's own bead or one of these sizes. */
static gboolean
search_finds_a_way (const BwDesign *design, const BwStone *stone)
{
  BwWaysBead beads[BEADS_MOST] = { { design->bead, design->gauge, design->pitch } };
  int n_sizes, n = 1;
  const BwBead *sizes = bw_bead_sizes (&n_sizes);
  for (int i = 0; i < n_sizes && n < BEADS_MOST; i++) {
    BwGauge gauge = { .column_mm = sizes[i].length_mm, .pitch_mm = sizes[i].diameter_mm };
    if (bw_same_number (sizes[i].diameter_mm, design->bead.diameter_mm))
      continue;
    beads[n++] = (BwWaysBead){ sizes[i], gauge, bw_gauge_pitch (&gauge, NULL, 0) };
  }
  BwWaysAsk ask = { design, stone, beads, n, { .coverage = 0.3, .coverage_most = 1 } };
  g_autoptr (GArray) ways = g_array_new (FALSE, FALSE, sizeof (BwWay));
  for (int i = 0; i < bw_ways_n_shares (&ask) && ways->len == 0; i++)
    bw_ways_search (&ask, i, FALSE, NULL, ways);
  return ways->len > 0;
}

static gboolean
has_a_cure (const BwDesign *design, const BwStone *stone)
{
  g_autoptr (GArray) remedies = remedies_of (design, stone);
  gboolean cured = FALSE;
  for (guint i = 0; i < remedies->len; i++)
    cured = cured || g_array_index (remedies, BwRemedy, i).verdict == BW_VERDICT_SNUG;
  return cured;
}

/* On stones so hard that some have no way at all. */
static void
wherever_the_joint_search_finds_a_way_there_is_a_cure (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (77);
  int cured = 0, hopeless = 0;
  for (int k = 0; k < few (110); k++) {
    BwStone stone;
    BwDesign design = hard_design (rand, &stone);
    if (bw_fit_is_snug (&design, &stone, design.band.rows))
      continue;
    if (has_a_cure (&design, &stone)) {
      cured++;
      continue;
    }
    assert_false (search_finds_a_way (&design, &stone));
    hopeless++;
  }
  assert_true (cured > few (50));
  assert_true (hopeless > few (5));
}

static void
every_kind_has_its_word (void **state)
{
  static const char *const words[] = { "rows", "bed", "layers", "grade", "move", "bead" };
  for (int kind = BW_REMEDY_ROWS; kind <= BW_REMEDY_BEAD; kind++)
    assert_string_equal (bw_remedy_word (kind), words[kind]);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (every_remedy_solved_again_is_what_was_promised),
    cmocka_unit_test (rows_are_offered_a_whole_bead_away_on_both_sides),
    cmocka_unit_test (a_loose_band_is_offered_fewer_rows_first_and_a_tight_one_more),
    cmocka_unit_test (the_bed_remedy_lets_the_tightest_column_lie_at_its_natural_length),
    cmocka_unit_test (the_layers_remedy_is_the_nearest_snug_count),
    cmocka_unit_test (a_layer_count_that_is_not_snug_at_least_lessens_the_worst_gap),
    cmocka_unit_test (no_bed_is_offered_thicker_than_a_maker_would_wind),
    cmocka_unit_test (the_grade_remedy_makes_both_edges_the_same_way_round),
    cmocka_unit_test (a_stone_thin_at_its_base_is_offered_layers_and_grade_together),
    cmocka_unit_test (a_measured_bed_of_nothing_has_remedies_too),
    cmocka_unit_test (no_band_is_sent_onto_the_point),
    cmocka_unit_test (a_move_goes_to_the_nearest_snug_height_on_its_side),
    cmocka_unit_test (another_bead_keeps_the_band_as_wide_as_it_can),
    cmocka_unit_test (an_upright_strip_wider_than_the_band_keeps_its_remedies),
    cmocka_unit_test (odd_rows_are_cured_by_one_row_and_by_no_bed),
    cmocka_unit_test (a_changed_bed_voids_the_girth_over_it_and_keeps_what_it_told),
    cmocka_unit_test (where_no_knob_cures_two_or_three_do),
    cmocka_unit_test (a_steep_stone_is_cured_all_the_same),
    cmocka_unit_test (wherever_the_joint_search_finds_a_way_there_is_a_cure),
    cmocka_unit_test (every_kind_has_its_word),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
