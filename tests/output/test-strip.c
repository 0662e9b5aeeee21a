/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The marks of the strip against the stone itself. */
#include "output/sheet/strip.h"
#include "sample.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#define assert_near(a, b) assert_true (fabs ((a) - (b)) < 1e-9)

static BwProject *
some_project (GRand *rand, SampleBail bail, gboolean taper)
{
  g_autoptr (Sample) sample = sample_new (rand, 12, 0, bail);
  sample->taper = taper;
  g_autofree char *json = sample_json (sample);
  BwProject *project = bw_project_load_data (json, strlen (json), NULL);
  assert_non_null (project);
  return project;
}

static void
the_line_is_as_long_as_the_stone_is_round (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (61);
  for (int i = 0; i < 20; i++) {
    g_autoptr (BwProject) project = some_project (rand, SAMPLE_FLAP, i % 2);
    BwBandSpan span = bw_design_span (bw_project_get_design (project));
    BwStripMarks marks;
    BwSection section;
    bw_strip_marks_init (&marks, project);
    bw_section_init (&section, bw_project_stone (project), bw_band_span_mid (span));
    assert_near (marks.girth_mm, section.girth_mm);
    assert_near (marks.girth_mm, (marks.low_girth_mm + marks.high_girth_mm) / 2);
    assert_int_equal (fabs (marks.low_girth_mm - marks.high_girth_mm) > 1e-6, i % 2);
  }
}

/* From each corner to the next it is one face's width, round and round. */
static void
the_corners_lie_a_face_apart (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (62);
  g_autoptr (BwProject) project = some_project (rand, SAMPLE_FLAP, TRUE);
  BwBandSpan span = bw_design_span (bw_project_get_design (project));
  BwStripMarks marks;
  BwSection section;
  bw_strip_marks_init (&marks, project);
  bw_section_init (&section, bw_project_stone (project), bw_band_span_mid (span));
  for (int i = 0; i < marks.faces; i++) {
    double next = marks.corner_mm[(i + 1) % marks.faces];
    double width = fmod (next - marks.corner_mm[i] + marks.girth_mm, marks.girth_mm);
    assert_near (width, bw_section_face_width_mm (&section, i));
  }
}

static void
the_bail_lies_where_it_is_turned_to (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (63);
  g_autoptr (BwProject) project = some_project (rand, SAMPLE_FLAP, FALSE);
  BwDesign design = *bw_project_get_design (project);
  BwStripMarks marks;
  design.bail.at_deg = design.band.seam_deg;
  assert_true (bw_project_set_design (project, "", &design, NULL));
  bw_strip_marks_init (&marks, project);
  assert_near (remainder (marks.bail_mm[0], marks.girth_mm), 0);
  design.bail.at_deg = design.band.seam_deg + 1;
  assert_true (bw_project_set_design (project, "", &design, NULL));
  bw_strip_marks_init (&marks, project);
  assert_true (marks.bail_mm[0] > 0 && marks.bail_mm[0] < marks.girth_mm / 20);
}

/* Straight across: half the ring of beads apart, which on a stone of even faces is half its way
 * round.
 */
static void
both_feet_of_a_loop_over_the_tip_are_marked (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (65);
  g_autoptr (BwProject) project = some_project (rand, SAMPLE_OVER, FALSE);
  BwDesign design = *bw_project_get_design (project);
  BwStripMarks marks;
  design.bail.base_beads = design.band.rows / 4.0;
  assert_true (bw_project_set_design (project, "", &design, NULL));
  bw_strip_marks_init (&marks, project);
  assert_int_equal (marks.n_bails, 2);
  double apart = remainder (marks.bail_mm[1] - marks.bail_mm[0], marks.girth_mm);
  assert_true (fabs (apart) > 0.45 * marks.girth_mm);
  design.bail.base_beads = 2;
  assert_true (bw_project_set_design (project, "", &design, NULL));
  bw_strip_marks_init (&marks, project);
  apart = remainder (marks.bail_mm[1] - marks.bail_mm[0], marks.girth_mm);
  assert_true (apart > 0 && apart < 2.5 * design.gauge.pitch_mm);
}

/* Steiner: 2π times the thickness more than the stone. */
static void
the_second_line_goes_round_the_bed (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (64);
  g_autoptr (BwProject) project = some_project (rand, SAMPLE_NO_BAIL, FALSE);
  BwDesign design = *bw_project_get_design (project);
  BwStripMarks marks;
  design.bed
      = (BwBed){ .cord_thickness_mm = 0.4, .cord_width_mm = 1, .layers = 2, .squeeze = 0.15 };
  assert_true (bw_project_set_design (project, "", &design, NULL));
  bw_strip_marks_init (&marks, project);
  assert_near (marks.over_mm - marks.girth_mm, 2 * G_PI * 0.8);
  assert_int_equal (marks.n_bails, 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_line_is_as_long_as_the_stone_is_round),
    cmocka_unit_test (the_corners_lie_a_face_apart),
    cmocka_unit_test (both_feet_of_a_loop_over_the_tip_are_marked),
    cmocka_unit_test (the_bail_lies_where_it_is_turned_to),
    cmocka_unit_test (the_second_line_goes_round_the_bed),
  };
  return cmocka_run_group_tests_name ("strip", tests, NULL, NULL);
}
