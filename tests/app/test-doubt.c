/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers that are hard to believe are asked about, and no others. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "samples.h"
#include "app/form/doubt.h"
#include "app/form/measures.h"

#include <math.h>
#include <string.h>

static guint64 made_up_values; /* as BwExamples has them */

/* What is asked when `value` stands in the field; NULL for nothing. Owned. */
static char *
ask (const BwDesign *design, const char *pointer, double value, double *better)
{
  BwDesign changed = *design;
  BwField field;
  BwDoubt doubt;
  BwExamples made_up = { .values = made_up_values };
  assert_true (bw_field_find (&field, pointer));
  if (field.quantity == BW_QUANTITY_COUNT)
    *(int *)(void *)((char *)&changed + field.offset) = (int)value;
  else
    *(double *)(void *)((char *)&changed + field.offset) = value;
  if (!bw_doubt_find (&doubt, &field, &changed, &made_up, BW_UNIT_MM))
    return NULL;
  *better = doubt.has_better ? doubt.better : (double)NAN;
  return doubt.question;
}

static void
expect_better (const BwDesign *design, const char *pointer, double typed, double meant)
{
  double better = 0;
  g_autofree char *question = ask (design, pointer, typed, &better);
  if (!question)
    fail_msg ("%s: nobody asks about %g", pointer, typed);
  if (!(fabs (better - meant) < 1e-9))
    fail_msg ("%s: for %g it offers %g", pointer, typed, better);
}

static void
expect_taken (const BwDesign *design, const char *pointer, double typed)
{
  double better;
  g_autofree char *question = ask (design, pointer, typed, &better);
  if (question)
    fail_msg ("%s: it asks about %g: %s", pointer, typed, question);
}

static void
a_slipped_point_is_asked_about_with_the_number_meant (void **state)
{
  BwDesign design = sample_design ();
  expect_better (&design, "/gauge/pitch_mm", 0.16, 1.6);
  expect_better (&design, "/gauge/pitch_mm", 16, 1.6);
  expect_better (&design, "/gauge/column_mm", 0.131, 1.31);
  expect_better (&design, "/bead/diameter_mm", 16, 1.6);
  expect_better (&design, "/bed/cord_thickness_mm", 3.5, 0.35);
  expect_better (&design, "/thread/diameter_mm", 1.5, 0.15);
  expect_better (&design, "/stone/values_mm/0", 2.46, 24.6);
  expect_better (&design, "/stone/values_mm/0", 246, 24.6);
  expect_better (&design, "/stone/length_mm", 580, 58);
  expect_better (&design, "/stone/second_girth_mm", 8.2, 82);
}

static void
a_girth_of_nine_for_ninety_is_asked_about (void **state)
{
  BwDesign design = sample_design ();
  assert_true (bw_measures_set_way (&design.stone, BW_MEASURED_GIRTH));
  expect_better (&design, "/stone/values_mm/0", 9, 90);
  expect_taken (&design, "/stone/values_mm/0", 90);
}

static void
more_faces_than_a_mineral_grows_are_asked_about (void **state)
{
  BwDesign design = sample_design ();
  expect_better (&design, "/stone/faces", 56, 6);
  expect_better (&design, "/stone/faces", 60, 6);
  expect_better (&design, "/stone/faces", 38, 8);
  for (int faces = 3; faces <= 16; faces++)
    expect_taken (&design, "/stone/faces", faces);
}

static void
what_is_merely_strange_is_asked_about_without_an_offer (void **state)
{
  BwDesign design = sample_design ();
  double better = 0;
  g_autofree char *question = ask (&design, "/gauge/pitch_mm", 0.5, &better);
  assert_non_null (question);
  assert_true (isnan (better));
}

static void
what_is_not_there_is_not_asked_about (void **state)
{
  BwDesign design = sample_design ();
  bw_measures_set_taper (&design.stone, FALSE);
  expect_taken (&design, "/stone/second_girth_mm", 0.1);
}

/* Hands differ by a fifth from their beads, stones in all their measures. */
static void
no_stone_and_no_hand_that_is_usual_is_asked_about (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (71);
  for (int turn = 0; turn < 400; turn++) {
    BwDesign design = sample_design ();
    double across = sample_between (rand, 12, 40);
    for (int i = 0; i < 3; i++)
      design.stone.values_mm[i] = across * sample_between (rand, 0.75, 1.25);
    design.stone.length_mm = across * sample_between (rand, 1.2, 7);
    design.gauge.pitch_mm = design.bead.diameter_mm * sample_between (rand, 0.85, 1.3);
    design.gauge.column_mm = design.bead.length_mm * sample_between (rand, 0.85, 1.3);
    expect_taken (&design, "/stone/values_mm/1", design.stone.values_mm[1]);
    expect_taken (&design, "/stone/length_mm", design.stone.length_mm);
    expect_taken (&design, "/gauge/pitch_mm", design.gauge.pitch_mm);
    expect_taken (&design, "/gauge/column_mm", design.gauge.column_mm);
  }
}

/* An offer that would be asked about again is no offer. */
static void
what_is_offered_is_believed (void **state)
{
  static const char *const pointers[]
      = { "/gauge/pitch_mm",    "/gauge/column_mm",       "/bead/diameter_mm",  "/stone/length_mm",
          "/stone/values_mm/0", "/bed/cord_thickness_mm", "/thread/diameter_mm" };
  g_autoptr (GRand) rand = g_rand_new_with_seed (72);
  BwDesign design = sample_design ();
  int offers = 0;
  for (int turn = 0; turn < 2000; turn++) {
    const char *pointer = pointers[g_rand_int_range (rand, 0, (int)G_N_ELEMENTS (pointers))];
    double better = 0;
    double value = exp (sample_between (rand, -5, 7));
    g_autofree char *question = ask (&design, pointer, value, &better);
    if (!question || isnan (better))
      continue;
    expect_taken (&design, pointer, better);
    offers++;
  }
  assert_true (offers > 200);
}

static BwDesign
design_of_faces (int faces, double width_mm)
{
  BwDesign design = sample_design ();
  design.stone.measured = BW_MEASURED_FACE_WIDTHS;
  design.stone.faces = faces;
  for (int i = 0; i < faces; i++)
    design.stone.values_mm[i] = width_mm;
  return design;
}

static void
a_face_that_keeps_the_others_from_meeting_is_asked_about (void **state)
{
  for (int faces = 4; faces <= 8; faces++)
    for (int wrong = 0; wrong < faces; wrong++) {
      BwDesign design = design_of_faces (faces, 10);
      for (int i = 0; i < faces; i++) {
        g_autofree char *pointer = g_strdup_printf ("/stone/values_mm/%d", i);
        design.stone.values_mm[wrong] = 14;
        if (i == wrong)
          expect_better (&design, pointer, 14, 10);
        else
          expect_taken (&design, pointer, 10);
      }
    }
}

/* One face was typed, and the others have their shares of a girth. */
static void
a_face_is_not_held_against_others_that_are_made_up (void **state)
{
  BwDesign design = design_of_faces (6, 10);
  design.stone.values_mm[0] = 14;
  made_up_values = 0x20;
  expect_taken (&design, "/stone/values_mm/0", 14);
  made_up_values = 0;
  expect_better (&design, "/stone/values_mm/0", 14, 10);
}

/* Every face read a fifth of a millimetre amiss, this way or that. */
static void
a_misfit_of_callipers_is_not_asked_about (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (73);
  for (int turn = 0; turn < 400; turn++) {
    BwDesign design = design_of_faces (g_rand_int_range (rand, 3, 9), 12);
    for (int i = 0; i < design.stone.faces; i++)
      design.stone.values_mm[i] += sample_between (rand, -0.2, 0.2);
    for (int i = 0; i < design.stone.faces; i++) {
      g_autofree char *pointer = g_strdup_printf ("/stone/values_mm/%d", i);
      expect_taken (&design, pointer, design.stone.values_mm[i]);
    }
  }
}

/* A strip of so many rows whose beads follow each other by `times` what was known. Owned. */
static char *
ask_of_strip (int rows, double times, double *better)
{
  BwDesign design = sample_design ();
  BwDoubt doubt;
  gboolean asked = bw_doubt_find_strip (&doubt, &design, rows,
                                        design.pitch.mm * (rows + 1) / 2 * times, BW_UNIT_MM);
  *better = doubt.has_better ? doubt.better / design.pitch.mm / (rows + 1) * 2 : (double)NAN;
  return asked ? doubt.question : NULL;
}

static void
a_strip_is_asked_about_where_no_hand_weaves_so (void **state)
{
  for (int rows = 2; rows <= 100; rows++) {
    double better;
    g_autofree char *slipped = ask_of_strip (rows, 10, &better);
    assert_non_null (slipped);
    assert_near (better, 1, 1e-5);
    g_autofree char *too_short = ask_of_strip (rows, 0.1, &better);
    assert_non_null (too_short);
    assert_near (better, 1, 1e-5);
    g_autofree char *far = ask_of_strip (rows, 3, &better);
    assert_non_null (far);
    assert_true (isnan (better));
    g_autofree char *loose = ask_of_strip (rows, 1.3, &better);
    assert_null (loose);
    g_autofree char *tight = ask_of_strip (rows, 0.8, &better);
    assert_null (tight);
  }
}

static void
the_question_sets_the_pitch_beside_the_bead_and_what_was_known (void **state)
{
  BwDesign design = sample_design ();
  BwDoubt doubt;
  design.bead.diameter_mm = 1.6;
  design.pitch.mm = 1.55;
  assert_true (bw_doubt_find_strip (&doubt, &design, 10, 83, BW_UNIT_MM));
  assert_string_equal (doubt.question,
                       "That is hard to believe: with 10 rows on 83 mm, bead would follow bead by "
                       "15.09 mm. The bead is 1.6 mm across, and until now bead followed bead by "
                       "1.55 mm.");
  assert_near (doubt.better, 8.3, 1e-9);
  bw_doubt_clear (&doubt);
}

/* The flats of the sample make a girth of about 85 mm at 12 mm; a tape 22 mm higher may say some
 * millimetres less and not 64. */
static void
a_girth_that_the_flats_deny_is_asked_about (void **state)
{
  BwDesign design = sample_design ();
  double better = 0;
  design.stone.second_at_mm = design.stone.at_mm + 22;
  expect_taken (&design, "/stone/second_girth_mm", 76);
  g_autofree char *question = ask (&design, "/stone/second_girth_mm", 64, &better);
  assert_non_null (question);
  assert_non_null (strstr (question, "the tape says 64 mm"));
  assert_non_null (strstr (question, "over 22 mm"));
  assert_non_null (strstr (question, "The faces are used for the girth"));
  assert_true (isnan (better));
  /* Nothing is asked at the other fields. */
  design.stone.second_girth_mm = 64;
  expect_taken (&design, "/stone/values_mm/0", design.stone.values_mm[0]);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_slipped_point_is_asked_about_with_the_number_meant),
    cmocka_unit_test (a_girth_of_nine_for_ninety_is_asked_about),
    cmocka_unit_test (more_faces_than_a_mineral_grows_are_asked_about),
    cmocka_unit_test (what_is_merely_strange_is_asked_about_without_an_offer),
    cmocka_unit_test (what_is_not_there_is_not_asked_about),
    cmocka_unit_test (no_stone_and_no_hand_that_is_usual_is_asked_about),
    cmocka_unit_test (what_is_offered_is_believed),
    cmocka_unit_test (a_face_that_keeps_the_others_from_meeting_is_asked_about),
    cmocka_unit_test (a_face_is_not_held_against_others_that_are_made_up),
    cmocka_unit_test (a_misfit_of_callipers_is_not_asked_about),
    cmocka_unit_test (a_girth_that_the_flats_deny_is_asked_about),
    cmocka_unit_test (a_strip_is_asked_about_where_no_hand_weaves_so),
    cmocka_unit_test (the_question_sets_the_pitch_beside_the_bead_and_what_was_known),
  };
  return cmocka_run_group_tests_name ("doubt", tests, NULL, NULL);
}
