/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every line is asked of fit again, on a stone measured anew. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>
#include "core/band/join.h"
#include "core/band/other-stones.h"
#include "core/base/lattice.h"
#include "samples.h"

/* The verdict of a count on a stone that has this girth over its bed: its measures are all longer
 * or shorter by one factor, the bed is wound as in the design. */
static BwVerdict
verdict_of (const BwDesign *from, const BwOtherStone *line, double over_mm)
{
  BwStone own, stone;
  BwSection section;
  BwDesign design = *from;
  double height = from->band.bottom_mm + from->band.columns * from->gauge.column_mm / 2;
  double least, most;
  assert_true (bw_stone_init (&own, &from->stone, NULL));
  bw_section_init (&section, &own, height);
  double factor = (over_mm - line->bed_mm) / section.girth_mm;
  design.stone.has_shoulder = TRUE;
  design.stone.shoulder_mm = own.shoulder_mm;
  for (int i = 0; i < design.stone.faces; i++)
    design.stone.values_mm[i] *= factor;
  design.stone.second_girth_mm *= factor;
  for (int i = 0; i < 2; i++)
    design.stone.apex_offset_mm[i] *= factor;
  assert_true (bw_stone_init (&stone, &design.stone, NULL));
  return bw_fit_verdict (&design, &stone, line->rows, &least, &most);
}

#define NEAR 1e-4 /* mm */

static void
each_line_is_snug_between_its_ends_and_nowhere_beyond (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (90);
  int n = 0;
  for (int k = 0; k < 12; k++) {
    BwStone stone;
    BwDesign design = k == 0 ? sample_design () : sample_random_design (rand, &stone);
    if (k == 0)
      sample_solve (&design, &stone);
    if (design.stone.base == BW_BASE_POINT)
      continue;
    g_autoptr (BwDrawing) drawing = bw_drawing_new (design.band.columns, design.band.rows, 0);
    g_autoptr (GArray) lines = bw_other_stones (&design, &stone, drawing);
    for (guint i = 0; i < lines->len; i++, n++) {
      const BwOtherStone *line = &g_array_index (lines, BwOtherStone, i);
      double middle = (line->least_mm + line->most_mm) / 2;
      assert_int_equal (line->rows, 2 * line->beads_around);
      assert_true (line->least_mm <= line->most_mm);
      assert_int_equal (verdict_of (&design, line, line->least_mm - NEAR), BW_VERDICT_LOOSE);
      assert_int_equal (verdict_of (&design, line, line->most_mm + NEAR),
                        BW_VERDICT_WILL_NOT_CLOSE);
      if (line->most_mm - line->least_mm < 3 * NEAR)
        continue;
      assert_int_equal (verdict_of (&design, line, line->least_mm + NEAR), BW_VERDICT_SNUG);
      assert_int_equal (verdict_of (&design, line, middle), BW_VERDICT_SNUG);
      assert_int_equal (verdict_of (&design, line, line->most_mm - NEAR), BW_VERDICT_SNUG);
    }
  }
  assert_true (n > 30);
}

static void
more_beads_are_for_thicker_stones (void **state)
{
  BwStone stone;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  g_autoptr (BwDrawing) drawing = bw_drawing_new (design.band.columns, design.band.rows, 0);
  g_autoptr (GArray) lines = bw_other_stones (&design, &stone, drawing);
  assert_int_equal (lines->len, 2 * BW_OTHER_STONES + 1);
  for (guint i = 1; i < lines->len; i++) {
    const BwOtherStone *line = &g_array_index (lines, BwOtherStone, i);
    assert_int_equal (line->beads_around, line[-1].beads_around + 1);
    assert_true (line->least_mm > line[-1].least_mm && line->most_mm > line[-1].most_mm);
  }
}

/* The girth of a bed wound by layers is the stone's and the circle of its thickness. */
static void
the_beds_share_is_that_of_the_planned_bed_however_it_is_given (void **state)
{
  BwStone stone;
  BwSection section;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  design.bed.has_girth_over = FALSE;
  design.bed.top_extra_mm = 0;
  g_autoptr (BwDrawing) drawing = bw_drawing_new (design.band.columns, design.band.rows, 0);
  g_autoptr (GArray) lines = bw_other_stones (&design, &stone, drawing);
  double bed = 2 * G_PI * design.bed.layers * design.bed.cord_thickness_mm;
  assert_near (g_array_index (lines, BwOtherStone, 0).bed_mm, bed, 1e-9);
  bw_section_init (&section, &stone, bw_band_span_mid (bw_design_span (&design)));
  design.bed.has_girth_over = TRUE;
  design.bed.girth_over_mm = section.girth_mm + bed;
  g_autoptr (GArray) told = bw_other_stones (&design, &stone, drawing);
  assert_int_equal (told->len, lines->len);
  for (guint i = 0; i < lines->len; i++) {
    const BwOtherStone *a = &g_array_index (lines, BwOtherStone, i),
                       *b = &g_array_index (told, BwOtherStone, i);
    assert_near (a->least_mm, b->least_mm, 1e-6);
    assert_near (a->most_mm, b->most_mm, 1e-6);
  }
}

static void
what_the_drawing_does_is_told_at_each_count (void **state)
{
  BwStone stone;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  g_autoptr (BwDrawing) drawing = bw_drawing_new (design.band.columns, design.band.rows, 0);
  for (int row = 1; row <= design.band.rows; row++)
    for (int column = 1; column <= design.band.columns; column++)
      if (bw_lattice_has (row, column))
        bw_drawing_set (drawing, row, column, row % 6 < 2);
  g_autoptr (GArray) lines = bw_other_stones (&design, &stone, drawing);
  for (guint i = 0; i < lines->len; i++) {
    const BwOtherStone *line = &g_array_index (lines, BwOtherStone, i);
    assert_int_equal (line->repeat_rows, 6);
    assert_int_equal (line->rows_over, line->rows % 6);
  }
  bw_drawing_set (drawing, 1, 2, 3);
  g_autoptr (GArray) plain = bw_other_stones (&design, &stone, drawing);
  for (guint i = 0; i < plain->len; i++) {
    const BwOtherStone *line = &g_array_index (plain, BwOtherStone, i);
    assert_int_equal (line->repeat_rows, 0);
    assert_int_equal (line->rows_over, line->rows - design.band.rows);
  }
}

/* On a slip of a stone the same bed would be thicker than the stone: such a stone is none. */
static void
a_bed_too_thick_for_the_thinner_stones_is_no_fault (void **state)
{
  BwStone stone;
  BwSection section;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  bw_section_init (&section, &stone, bw_band_span_mid (bw_design_span (&design)));
  design.bed.has_girth_over = TRUE;
  design.bed.girth_over_mm = 1.99 * section.girth_mm;
  design.band.rows = 2 * bw_fit_recommended (&design, &stone);
  g_autoptr (BwDrawing) drawing = bw_drawing_new (design.band.columns, design.band.rows, 0);
  g_autoptr (GArray) lines = bw_other_stones (&design, &stone, drawing);
  assert_int_equal (lines->len, 0);
}

static void
a_stone_that_tapers_too_much_for_any_count_has_no_lines (void **state)
{
  BwStone stone;
  BwDesign design = sample_design ();
  design.bed.top_extra_mm = 0;
  design.stone.has_second = TRUE;
  sample_solve (&design, &stone);
  design.stone.second_girth_mm = 0.85 * stone.girth_mm;
  design.stone.second_at_mm = design.stone.at_mm + 22;
  sample_solve (&design, &stone);
  g_autoptr (BwDrawing) drawing = bw_drawing_new (design.band.columns, design.band.rows, 0);
  g_autoptr (GArray) lines = bw_other_stones (&design, &stone, drawing);
  assert_int_equal (lines->len, 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (each_line_is_snug_between_its_ends_and_nowhere_beyond),
    cmocka_unit_test (more_beads_are_for_thicker_stones),
    cmocka_unit_test (the_beds_share_is_that_of_the_planned_bed_however_it_is_given),
    cmocka_unit_test (what_the_drawing_does_is_told_at_each_count),
    cmocka_unit_test (a_bed_too_thick_for_the_thinner_stones_is_no_fault),
    cmocka_unit_test (a_stone_that_tapers_too_much_for_any_count_has_no_lines),
  };
  return cmocka_run_group_tests_name ("other-stones", tests, NULL, NULL);
}
