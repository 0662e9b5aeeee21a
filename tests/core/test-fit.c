/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Fit: the columns follow the formulas, the verdict follows the columns, and the counts follow the
 * verdict. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include "core/band/fit.h"
#include "core/band/ring.h"
#include "samples.h"

#define DESIGNS 120

/* The mean chord of a column, by the ring alone. */
static double
chord_of (const BwDesign *design, const BwStone *stone, double z, double thickness, int n)
{
  BwSection section;
  BwRing ring;
  bw_section_init (&section, stone, z);
  bw_ring_init (&ring, &section, thickness + design->bead.diameter_mm / 2);
  return bw_ring_chord_mean (&ring, n, bw_ring_ray (&ring, bw_radians (design->band.seam_deg)));
}

static void
every_column_follows_the_formulas (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20);
  for (int k = 0; k < DESIGNS; k++) {
    BwStone stone;
    BwFit fit;
    BwBedding bedding;
    BwDesign design = sample_random_design (rand, &stone);
    assert_true (bw_bedding_init (&bedding, &design.bed, &stone, bw_design_span (&design), NULL));
    bw_fit_init (&fit, &design, &stone, design.band.rows);
    int n = design.band.rows / 2;
    assert_int_equal (fit.beads_around, n);
    assert_int_equal (fit.n_columns, design.band.columns);
    for (int i = 0; i < fit.n_columns; i++) {
      const BwFitColumn *column = &fit.column[i];
      double z = design.band.bottom_mm + (i + 0.5) * design.gauge.column_mm;
      double t = bw_bedding_thickness (&bedding, z), p = design.pitch.mm;
      double relaxed = chord_of (&design, &stone, z, t, n);
      double squeezed = chord_of (&design, &stone, z, t * (1 - design.bed.squeeze), n);
      assert_int_equal (column->column, i + 1);
      assert_near (column->height_mm, z, 1e-12);
      assert_true (column->has_chord);
      assert_near (column->chord_mm, relaxed, 1e-12);
      assert_near (column->gap_mm, n * (relaxed - p), 1e-10);
      assert_near (column->pull_mm, n * (relaxed - squeezed) + 0.01 * n * p, 1e-10);
      assert_int_equal (column->closes, squeezed <= 1.01 * p);
      assert_int_equal (column->grips, column->gap_mm >= -design.limits.slack_mm);
      if (fabs (column->gap_mm - column->pull_mm) > 1e-9)
        assert_int_equal (column->closes, column->gap_mm <= column->pull_mm);
    }
  }
}

static BwVerdict
verdict_of_columns (const BwFit *fit)
{
  gboolean closes = TRUE, grips = TRUE;
  for (int i = 0; i < fit->n_columns; i++) {
    closes = closes && fit->column[i].closes;
    grips = grips && fit->column[i].grips;
  }
  if (fit->rows % 2)
    return BW_VERDICT_ODD_ROWS;
  return !closes ? BW_VERDICT_WILL_NOT_CLOSE : grips ? BW_VERDICT_SNUG : BW_VERDICT_LOOSE;
}

static void
the_verdict_follows_the_columns_and_every_verdict_occurs (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (21);
  int seen[4] = { 0 };
  for (int k = 0; k < DESIGNS; k++) {
    BwStone stone;
    BwFit fit;
    BwDesign design = sample_random_design (rand, &stone);
    for (int rows = design.band.rows - 5; rows <= design.band.rows + 4; rows++) {
      bw_fit_init (&fit, &design, &stone, rows);
      assert_int_equal (fit.verdict, verdict_of_columns (&fit));
      seen[fit.verdict]++;
    }
  }
  for (int i = 0; i < 4; i++)
    assert_true (seen[i] > 0);
}

static void
a_quick_verdict_is_the_verdict_of_the_whole_fit (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (22);
  for (int k = 0; k < DESIGNS; k++) {
    BwStone stone;
    BwFit fit;
    BwDesign design = sample_random_design (rand, &stone);
    for (int i = 0; i < 8; i++) {
      int rows = i < 6 ? design.band.rows - 3 + i : g_rand_int_range (rand, 1, 20);
      double least, greatest;
      bw_fit_init (&fit, &design, &stone, rows);
      assert_int_equal (bw_fit_verdict (&design, &stone, rows, NULL, NULL), fit.verdict);
      assert_int_equal (bw_fit_verdict (&design, &stone, rows, &least, &greatest), fit.verdict);
      assert_int_equal (bw_fit_is_snug (&design, &stone, rows), fit.verdict == BW_VERDICT_SNUG);
      assert_near (least, fit.gap_min_mm, 1e-10);
      assert_near (greatest, fit.gap_max_mm, 1e-10);
    }
  }
}

static void
the_recommended_count_is_the_smallest_that_closes (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (23);
  for (int k = 0; k < DESIGNS; k++) {
    BwStone stone;
    BwDesign design = sample_random_design (rand, &stone);
    int n = bw_fit_recommended (&design, &stone);
    assert_true (bw_fit_verdict (&design, &stone, 2 * n, NULL, NULL) != BW_VERDICT_WILL_NOT_CLOSE);
    for (int fewer = n - 1; fewer >= MAX (3, n - 6); fewer--)
      assert_int_equal (bw_fit_verdict (&design, &stone, 2 * fewer, NULL, NULL),
                        BW_VERDICT_WILL_NOT_CLOSE);
  }
}

static void
a_thicker_bed_never_wants_fewer_beads (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (24);
  for (int k = 0; k < DESIGNS; k++) {
    BwStone stone;
    BwDesign design = sample_random_design (rand, &stone);
    int last = 0;
    for (design.bed.layers = 0; design.bed.layers < 6; design.bed.layers++) {
      if (!bw_design_validate (&design, NULL, NULL))
        continue;
      int n = bw_fit_recommended (&design, &stone);
      assert_true (n >= last);
      last = n;
    }
    assert_true (last >= 3);
  }
}

static void
odd_rows_have_the_numbers_of_the_next_row_and_a_verdict_of_their_own (void **state)
{
  BwStone stone;
  BwFit odd, even;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  bw_fit_init (&odd, &design, &stone, 113);
  bw_fit_init (&even, &design, &stone, 114);
  assert_int_equal (odd.verdict, BW_VERDICT_ODD_ROWS);
  assert_string_equal (bw_verdict_word (odd.verdict), "odd-rows");
  assert_int_equal (odd.beads_around, 57);
  for (int i = 0; i < odd.n_columns; i++) {
    assert_near (odd.column[i].gap_mm, even.column[i].gap_mm, 0);
    assert_near (odd.column[i].pull_mm, even.column[i].pull_mm, 0);
    assert_int_equal (odd.column[i].closes, even.column[i].closes);
  }
}

static void
partial_work_has_a_gap_but_no_chord (void **state)
{
  BwStone stone;
  BwFit fit;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  for (int rows = 1; rows <= 40; rows++) {
    int n = (rows + 1) / 2;
    bw_fit_init (&fit, &design, &stone, rows);
    assert_true (fit.partial);
    assert_int_equal (fit.verdict, rows % 2 ? BW_VERDICT_ODD_ROWS : BW_VERDICT_WILL_NOT_CLOSE);
    for (int i = 0; i < fit.n_columns; i++) {
      const BwFitColumn *column = &fit.column[i];
      double around = column->girth_mm + 2 * G_PI * (0.35 + 0.8);
      assert_false (column->has_chord);
      assert_near (column->chord_mm, 0, 0);
      assert_near (column->gap_mm, around - n * 1.6, 1e-9);
      assert_near (column->pull_mm, 0.01 * n * 1.6, 1e-12);
      assert_false (column->closes);
      assert_true (column->grips);
    }
  }
  bw_fit_init (&fit, &design, &stone, 80);
  assert_false (fit.partial);
}

/* Round a circle the gap is n(2R sin(π/n) − p); a girth on 64 faces is nearly one. */
static void
a_round_stone_has_the_gap_of_a_circle (void **state)
{
  BwStone stone;
  BwFit fit;
  BwDesign design = sample_design ();
  design.stone.faces = 64;
  design.stone.measured = BW_MEASURED_GIRTH;
  design.stone.values_mm[0] = 80;
  design.stone.has_second = FALSE;
  sample_solve (&design, &stone);
  bw_fit_init (&fit, &design, &stone, 108);
  double radius = 80 / (2 * G_PI) + 0.35 + 0.8;
  double expected = 54 * (2 * radius * sin (G_PI / 54) - 1.6);
  for (int i = 0; i < fit.n_columns; i++)
    assert_near (fit.column[i].gap_mm, expected, 0.05);
  assert_near (fit.gap_min_mm, fit.gap_max_mm, 0);
}

static void
numbering_the_faces_from_another_one_changes_no_gap (void **state)
{
  BwStone stone, renumbered;
  BwFit fit, other;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  bw_fit_init (&fit, &design, &stone, 114);
  for (int by = 1; by < 3; by++) {
    BwDesign turned = sample_renumbered (&design, by);
    sample_solve (&turned, &renumbered);
    bw_fit_init (&other, &turned, &renumbered, 114);
    for (int i = 0; i < fit.n_columns; i++)
      assert_near (other.column[i].gap_mm, fit.column[i].gap_mm, 1e-9);
    assert_int_equal (bw_fit_recommended (&turned, &renumbered),
                      bw_fit_recommended (&design, &stone));
  }
}

static void
scaling_every_length_scales_every_answer (void **state)
{
  BwStone stone, larger;
  BwFit fit, other;
  BwDesign design = sample_design ();
  BwDesign scaled = sample_scaled (&design, 2.5);
  sample_solve (&design, &stone);
  sample_solve (&scaled, &larger);
  bw_fit_init (&fit, &design, &stone, 114);
  bw_fit_init (&other, &scaled, &larger, 114);
  assert_int_equal (other.verdict, fit.verdict);
  for (int i = 0; i < fit.n_columns; i++) {
    assert_near (other.column[i].chord_mm, 2.5 * fit.column[i].chord_mm, 1e-11);
    assert_near (other.column[i].gap_mm, 2.5 * fit.column[i].gap_mm, 1e-9);
    assert_near (other.column[i].pull_mm, 2.5 * fit.column[i].pull_mm, 1e-9);
  }
  assert_int_equal (bw_fit_recommended (&scaled, &larger), bw_fit_recommended (&design, &stone));
  for (int n = 54; n < 60; n++)
    assert_near (bw_fit_closing_scale (&scaled, &larger, n),
                 bw_fit_closing_scale (&design, &stone, n), 1e-11);
}

/* The stone with every section scaled about the axis. */
static void
scale_sections (const BwDesign *design, double lambda, BwStone *stone)
{
  BwDesign scaled = *design;
  for (int i = 0; i < BW_FACES_MAX; i++)
    scaled.stone.values_mm[i] *= lambda;
  scaled.stone.second_girth_mm *= lambda;
  sample_solve (&scaled, stone);
}

static void
at_the_closing_scale_the_ring_just_closes (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (25);
  for (int k = 0; k < DESIGNS; k++) {
    BwStone stone, scaled;
    BwDesign design = sample_random_design (rand, &stone);
    int n = design.band.rows / 2;
    double lambda = bw_fit_closing_scale (&design, &stone, n);
    scale_sections (&design, lambda * (1 - 1e-9), &scaled);
    assert_true (bw_fit_recommended (&design, &scaled) <= n);
    scale_sections (&design, lambda * (1 + 1e-9), &scaled);
    assert_true (bw_fit_recommended (&design, &scaled) > n);
  }
}

static void
more_beads_close_round_a_larger_stone_and_two_round_none (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (26);
  for (int k = 0; k < DESIGNS; k++) {
    BwStone stone;
    BwDesign design = sample_random_design (rand, &stone);
    double last = 0;
    for (int n = 1; n < 90; n++) {
      double lambda = bw_fit_closing_scale (&design, &stone, n);
      assert_true (n < 3 ? lambda <= 0 : lambda >= last);
      assert_true (lambda <= 0 || lambda > last);
      last = lambda;
    }
    assert_true (last > 0);
  }
}

/* Whatever the ranges allow: no NaN but the chord of partial work. */
static void
extreme_designs_have_finite_answers (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (27);
  for (int k = 0; k < 60; k++) {
    BwStone stone;
    BwFit fit;
    BwDesign design = sample_design ();
    design.stone.measured = BW_MEASURED_GIRTH;
    design.stone.faces = k % 2 ? 3 : 64;
    design.stone.values_mm[0] = exp (sample_between (rand, log (1), log (900)));
    design.stone.has_second = FALSE;
    design.stone.apex_offset_mm[0] = design.stone.apex_offset_mm[1] = 0;
    design.bed.squeeze = k % 3 ? 0.9 : 0;
    design.bed.layers = k % 5;
    design.band.columns = 2;
    design.band.bottom_mm = sample_between (rand, 0, 55);
    if (!bw_design_validate (&design, &stone, NULL))
      continue;
    bw_fit_init (&fit, &design, &stone, k % 4 ? 20000 : 6);
    for (int i = 0; i < fit.n_columns; i++) {
      assert_true (isfinite (fit.column[i].gap_mm));
      assert_true (isfinite (fit.column[i].pull_mm));
      assert_true (isfinite (fit.column[i].chord_mm));
      assert_true (fit.column[i].has_chord || fit.partial);
    }
    int n = bw_fit_recommended (&design, &stone);
    assert_true (n >= 3);
    assert_true (isfinite (bw_fit_closing_scale (&design, &stone, n)));
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (every_column_follows_the_formulas),
    cmocka_unit_test (the_verdict_follows_the_columns_and_every_verdict_occurs),
    cmocka_unit_test (a_quick_verdict_is_the_verdict_of_the_whole_fit),
    cmocka_unit_test (the_recommended_count_is_the_smallest_that_closes),
    cmocka_unit_test (a_thicker_bed_never_wants_fewer_beads),
    cmocka_unit_test (odd_rows_have_the_numbers_of_the_next_row_and_a_verdict_of_their_own),
    cmocka_unit_test (partial_work_has_a_gap_but_no_chord),
    cmocka_unit_test (a_round_stone_has_the_gap_of_a_circle),
    cmocka_unit_test (numbering_the_faces_from_another_one_changes_no_gap),
    cmocka_unit_test (scaling_every_length_scales_every_answer),
    cmocka_unit_test (at_the_closing_scale_the_ring_just_closes),
    cmocka_unit_test (more_beads_close_round_a_larger_stone_and_two_round_none),
    cmocka_unit_test (extreme_designs_have_finite_answers),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
