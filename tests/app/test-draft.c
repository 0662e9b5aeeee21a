/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The road from entries to the project: one change is one undo step, stepping is live, and undo
 * takes what waits along with it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "app/form/draft.h"
#include "app/form/measures.h"
#include "project/fault/fault-error.h"

#include <math.h>
#include <string.h>

typedef struct {
  BwProject *project;
  BwSession *session;
  BwDraft *draft;
  BwField length;
  int n_changed;
} Bench;

static int
set_up (void **state)
{
  Bench *bench = g_new0 (Bench, 1);
  bench->project = bw_project_new ();
  bench->session = bw_session_new (bench->project);
  bench->draft = bw_draft_new (bench->session);
  assert_true (bw_field_find (&bench->length, "/stone/length_mm"));
  *state = bench;
  return 0;
}

static int
tear_down (void **state)
{
  Bench *bench = *state;
  g_assert_finalize_object (bench->draft);
  g_assert_finalize_object (bench->session);
  g_assert_finalize_object (bench->project);
  g_free (bench);
  return 0;
}

static double
length (Bench *bench)
{
  return bw_project_get_design (bench->project)->stone.length_mm;
}

static void
a_run_of_steps_is_live_and_one_undo_step (void **state)
{
  Bench *bench = *state;
  double before = length (bench);
  for (int i = 1; i <= 5; i++) {
    assert_true (bw_draft_nudge (bench->draft, &bench->length, 0.5));
    assert_true (fabs (length (bench) - before - 0.5 * i) < 1e-9);
  }
  bw_draft_settle (bench->draft);
  assert_string_equal (bw_project_undo_label (bench->project), "Length, base to tip");
  bw_project_undo (bench->project);
  assert_true (fabs (length (bench) - before) < 1e-12);
  assert_false (bw_project_can_undo (bench->project));
}

static gboolean
step_once_more (gpointer data)
{
  Bench *bench = data;
  bw_draft_nudge (bench->draft, &bench->length, 0.5);
  return G_SOURCE_REMOVE;
}

/* The key was struck in time; the program, busy elsewhere, comes to it when the run's rest is over.
 */
static void
a_step_that_waited_behind_other_work_goes_on_with_the_run (void **state)
{
  Bench *bench = *state;
  double before = length (bench);
  bw_draft_nudge (bench->draft, &bench->length, 0.5);
  GSource *rest
      = g_main_context_find_source_by_funcs_user_data (NULL, &g_timeout_funcs, bench->draft);
  assert_non_null (rest);
  g_source_set_ready_time (rest, 0);
  g_idle_add_full (G_PRIORITY_DEFAULT, step_once_more, bench, NULL);
  while (fabs (length (bench) - before) < 0.9)
    assert_true (g_main_context_iteration (NULL, FALSE));
  bw_draft_settle (bench->draft);
  bw_project_undo (bench->project);
  assert_true (fabs (length (bench) - before) < 1e-12);
  assert_false (bw_project_can_undo (bench->project));
}

static void
steps_of_two_fields_are_two_undo_steps (void **state)
{
  Bench *bench = *state;
  BwField density;
  double before = length (bench);
  assert_true (bw_field_find (&density, "/stone/density_g_cm3"));
  bw_draft_nudge (bench->draft, &bench->length, 0.5);
  bw_draft_nudge (bench->draft, &density, 0.01);
  bw_draft_settle (bench->draft);
  bw_project_undo (bench->project);
  assert_true (fabs (length (bench) - before - 0.5) < 1e-9);
  bw_project_undo (bench->project);
  assert_true (fabs (length (bench) - before) < 1e-12);
}

static void
a_hundred_small_steps_add_up_to_no_stray_digits (void **state)
{
  Bench *bench = *state;
  double before = length (bench);
  for (int i = 0; i < 100; i++)
    bw_draft_nudge (bench->draft, &bench->length, 0.1);
  bw_draft_settle (bench->draft);
  assert_true (fabs (length (bench) - (before + 10)) < 1e-12);
}

static void
a_step_into_the_impossible_stops_there (void **state)
{
  Bench *bench = *state;
  double before = length (bench);
  assert_false (bw_draft_nudge (bench->draft, &bench->length, -1000));
  bw_draft_settle (bench->draft);
  assert_true (fabs (length (bench) - before) < 1e-12);
  assert_int_equal (bw_draft_count_pending (bench->draft), 0);
  assert_false (bw_project_can_undo (bench->project));
}

static void
a_typed_value_that_cannot_stand_leaves_the_project_alone (void **state)
{
  Bench *bench = *state;
  double before = length (bench);
  assert_false (bw_draft_type (bench->draft, &bench->length, "20", BW_UNIT_MM));
  assert_true (fabs (length (bench) - before) < 1e-12);
  assert_false (bw_project_get_modified (bench->project));
  assert_string_equal (bw_draft_pending (bench->draft, "/stone/length_mm")->text, "20");
  assert_true (bw_draft_blames (bench->draft, "/stone/shoulder_mm"));
  assert_false (bw_draft_blames (bench->draft, "/stone/length_mm"));
  bw_draft_forget (bench->draft, "/stone/length_mm");
  assert_false (bw_draft_blames (bench->draft, "/stone/shoulder_mm"));
}

/* A list of steps that are all called the same helps nobody to go back. */
static void
a_step_is_called_by_what_was_measured (void **state)
{
  Bench *bench = *state;
  BwField field;
  assert_true (bw_draft_type (bench->draft, &bench->length, "61", BW_UNIT_MM));
  assert_string_equal (bw_project_undo_label (bench->project), "Length, base to tip");
  assert_true (bw_field_find (&field, "/stone/values_mm/2"));
  assert_true (bw_draft_nudge (bench->draft, &field, 0.1));
  bw_draft_settle (bench->draft);
  g_autofree char *title = bw_value_title (&bw_project_get_design (bench->project)->stone, 2);
  assert_string_equal (bw_project_undo_label (bench->project), title);
  assert_non_null (strchr (title, '3'));
}

static void
values_that_stand_together_are_one_undo_step (void **state)
{
  Bench *bench = *state;
  BwField shoulder;
  double before = length (bench);
  assert_true (bw_field_find (&shoulder, "/stone/shoulder_mm"));
  assert_false (bw_draft_type (bench->draft, &bench->length, "34", BW_UNIT_MM));
  assert_true (bw_draft_type (bench->draft, &shoulder, "30", BW_UNIT_MM));
  assert_true (fabs (length (bench) - 34) < 1e-12);
  bw_project_undo (bench->project);
  assert_true (fabs (length (bench) - before) < 1e-12);
  assert_false (bw_project_can_undo (bench->project));
}

static void
undo_under_a_waiting_value_lets_it_go (void **state)
{
  Bench *bench = *state;
  assert_true (bw_draft_type (bench->draft, &bench->length, "60", BW_UNIT_MM));
  assert_false (bw_draft_type (bench->draft, &bench->length, "20", BW_UNIT_MM));
  bw_project_undo (bench->project);
  assert_int_equal (bw_draft_count_pending (bench->draft), 0);
}

static void
a_change_elsewhere_keeps_a_waiting_value (void **state)
{
  Bench *bench = *state;
  BwDesign design = *bw_project_get_design (bench->project);
  assert_false (bw_draft_type (bench->draft, &bench->length, "20", BW_UNIT_MM));
  design.bed.layers++;
  assert_true (bw_project_set_design (bench->project, "Layers", &design, NULL));
  assert_int_equal (bw_draft_count_pending (bench->draft), 1);
}

static void
another_project_starts_with_nothing_waiting (void **state)
{
  Bench *bench = *state;
  g_autoptr (BwProject) other = bw_project_new ();
  assert_false (bw_draft_type (bench->draft, &bench->length, "20", BW_UNIT_MM));
  bw_draft_nudge (bench->draft, &bench->length, 0.5);
  bw_session_set_project (bench->session, other);
  assert_int_equal (bw_draft_count_pending (bench->draft), 0);
  assert_false (bw_project_in_step (bench->project));
  assert_true (bw_draft_get_project (bench->draft) == other);
  bw_session_set_project (bench->session, bench->project);
}

static void
a_design_that_cannot_be_is_refused_whole (void **state)
{
  Bench *bench = *state;
  g_autoptr (GError) error = NULL;
  BwDesign design = *bw_project_get_design (bench->project);
  design.band.columns = 7;
  assert_false (bw_draft_apply (bench->draft, "Seven", &design, &error));
  assert_non_null (error);
  assert_false (bw_project_in_step (bench->project));
  assert_false (bw_project_can_undo (bench->project));
}

/* What a maker types is either in the project or waits with its reason: it never vanishes. */
static void
expect_kept (Bench *bench, const char *pointer, const char *text)
{
  BwField field;
  double typed = NAN;
  assert_true (bw_field_find (&field, pointer));
  gboolean stands = bw_draft_type (bench->draft, &field, text, BW_UNIT_MM);
  const BwPending *pending = bw_draft_pending (bench->draft, pointer);
  if (!stands) {
    if (!pending || !pending->reason || strlen (pending->reason) < 10)
      fail_msg ("“%s” typed for %s is gone without a word", text, pointer);
    return;
  }
  assert_null (pending);
  if (!*text)
    return;
  assert_true (bw_field_parse (&field, text, BW_UNIT_MM, &typed, NULL));
  assert_true (fabs (bw_field_get (&field, bw_project_get_design (bench->project)) - typed) < 1e-9);
}

static void
whatever_is_typed_stands_or_waits_with_its_reason (void **state)
{
  static const char *const pointers[] = {
    "/gauge/pitch_mm",      "/gauge/column_mm",   "/stone/length_mm",   "/stone/values_mm/0",
    "/stone/density_g_cm3", "/bead/diameter_mm",  "/bead/hole_mm",      "/bed/squeeze",
    "/bed/layers",          "/band/columns",      "/band/rows",         "/band/seam_deg",
    "/bail/columns",        "/thread/needle_mm",  "/fit/friction",      "/materials/spare",
    "/materials/pieces",    "/materials/neck_mm", "/stone/girth_sd_mm", "/materials/prices/pack"
  };
  static const char *const texts[]
      = { "0.004", "0", "-1", "1e3", "99999999",     "3", "0.5", "1.62",
          "seven", "",  "6",  "1,5", "1000000000000" };
  for (gsize i = 0; i < G_N_ELEMENTS (pointers); i++)
    for (gsize k = 0; k < G_N_ELEMENTS (texts); k++) {
      void *fresh;
      set_up (&fresh);
      expect_kept (fresh, pointers[i], texts[k]);
      tear_down (&fresh);
    }
}

static void
the_reason_is_the_sentence_of_the_project (void **state)
{
  Bench *bench = *state;
  g_autoptr (GError) error = NULL;
  BwField pitch;
  BwDesign design = *bw_project_get_design (bench->project);
  design.gauge.pitch_mm = 0.004;
  assert_false (bw_project_set_design (bench->project, "Pitch", &design, &error));
  assert_true (bw_field_find (&pitch, "/gauge/pitch_mm"));
  assert_false (bw_draft_type (bench->draft, &pitch, "0.004", BW_UNIT_MM));
  assert_string_equal (bw_draft_pending (bench->draft, "/gauge/pitch_mm")->reason,
                       bw_fault_sentence (error));
}

static void
type (Bench *bench, const char *pointer, const char *text)
{
  BwField field;
  assert_true (bw_field_find (&field, pointer));
  assert_true (bw_draft_type (bench->draft, &field, text, BW_UNIT_MM));
}

static const BwStoneMeasures *
stone (Bench *bench)
{
  return &bw_project_get_design (bench->project)->stone;
}

static void
expect_mm (double is, double should_be)
{
  if (fabs (is - should_be) > 1e-9)
    fail_msg ("%g mm, not %g mm", is, should_be);
}

static void
what_was_measured_for_a_number_of_faces_comes_back_with_it (void **state)
{
  Bench *bench = *state;
  type (bench, "/stone/values_mm/0", "23.7");
  type (bench, "/stone/values_mm/1", "24.4");
  const BwStoneMeasures six = *stone (bench);
  type (bench, "/stone/faces", "5");
  type (bench, "/stone/values_mm/2", "16.25");
  const BwStoneMeasures five = *stone (bench);
  type (bench, "/stone/faces", "6");
  assert_int_equal (stone (bench)->measured, six.measured);
  for (int i = 0; i < 3; i++)
    expect_mm (stone (bench)->values_mm[i], six.values_mm[i]);
  type (bench, "/stone/faces", "5");
  assert_int_equal (stone (bench)->measured, five.measured);
  for (int i = 0; i < 5; i++)
    expect_mm (stone (bench)->values_mm[i], five.values_mm[i]);
  bw_project_undo (bench->project);
  assert_int_equal (stone (bench)->faces, 6);
}

static void
set_way (Bench *bench, BwMeasured way)
{
  BwDesign design = *bw_project_get_design (bench->project);
  assert_true (bw_measures_set_way (&design.stone, way));
  assert_true (bw_draft_apply (bench->draft, "Way", &design, NULL));
}

static void
expect_values (Bench *bench, const BwStoneMeasures *as)
{
  assert_int_equal (stone (bench)->measured, as->measured);
  for (int i = 0; i < bw_stone_value_count (as->measured, as->faces); i++)
    expect_mm (stone (bench)->values_mm[i], as->values_mm[i]);
}

/* A girth has lost what the widths were: read off the stone they would all be alike. */
static guint64
made_up (Bench *bench)
{
  return bw_project_get_examples (bench->project).values;
}

static void
shares_of_a_girth_are_no_measurements_of_the_faces (void **state)
{
  Bench *bench = *state;
  set_way (bench, BW_MEASURED_GIRTH);
  type (bench, "/stone/values_mm/0", "79");
  assert_int_equal (made_up (bench), 0);
  set_way (bench, BW_MEASURED_FACE_WIDTHS);
  assert_int_equal (made_up (bench), 0x3f);
  for (int i = 0; i < 6; i++) {
    g_autofree char *pointer = g_strdup_printf ("/stone/values_mm/%d", i);
    type (bench, pointer, i % 2 ? "13.1" : "13.2");
  }
  assert_int_equal (made_up (bench), 0);
  set_way (bench, BW_MEASURED_GIRTH);
  assert_int_equal (made_up (bench), 0);
  set_way (bench, BW_MEASURED_FACE_WIDTHS);
  assert_int_equal (made_up (bench), 0);
}

static void
what_was_measured_in_a_way_comes_back_with_it (void **state)
{
  Bench *bench = *state;
  type (bench, "/stone/values_mm/0", "23.71");
  type (bench, "/stone/values_mm/1", "24.43");
  const BwStoneMeasures across = *stone (bench);
  set_way (bench, BW_MEASURED_FACE_WIDTHS);
  type (bench, "/stone/values_mm/4", "12.9");
  const BwStoneMeasures widths = *stone (bench);
  set_way (bench, BW_MEASURED_GIRTH);
  type (bench, "/stone/values_mm/0", "79");
  set_way (bench, BW_MEASURED_ACROSS_FLATS);
  expect_values (bench, &across);
  set_way (bench, BW_MEASURED_FACE_WIDTHS);
  expect_values (bench, &widths);
  set_way (bench, BW_MEASURED_GIRTH);
  expect_mm (stone (bench)->values_mm[0], 79);
  bw_project_undo (bench->project);
  expect_values (bench, &widths);
}

static void
a_way_nobody_typed_in_follows_what_was_typed_since (void **state)
{
  Bench *bench = *state;
  set_way (bench, BW_MEASURED_GIRTH);
  double girth = stone (bench)->values_mm[0];
  set_way (bench, BW_MEASURED_ACROSS_FLATS);
  for (int i = 0; i < 3; i++) {
    g_autofree char *pointer = g_strdup_printf ("/stone/values_mm/%d", i);
    type (bench, pointer, "25");
  }
  set_way (bench, BW_MEASURED_GIRTH);
  assert_true (stone (bench)->values_mm[0] > girth + 5);
}

static gboolean
is_example (Bench *bench, const char *pointer)
{
  return bw_project_is_example (bench->project, pointer);
}

static void
the_example_typed_once_more_is_the_makers_own (void **state)
{
  Bench *bench = *state;
  assert_true (is_example (bench, "/stone/length_mm"));
  type (bench, "/stone/length_mm", "52");
  assert_false (is_example (bench, "/stone/length_mm"));
  expect_mm (length (bench), 52);
  bw_project_undo (bench->project);
  assert_true (is_example (bench, "/stone/length_mm"));
  bw_draft_confirm (bench->draft, &bench->length);
  assert_false (is_example (bench, "/stone/length_mm"));
  assert_string_equal (bw_project_undo_label (bench->project), "Length, base to tip");
  bw_draft_confirm (bench->draft, &bench->length);
  bw_project_undo (bench->project);
  assert_false (bw_project_can_undo (bench->project));
}

static void
faces_that_come_back_are_as_made_up_as_they_were (void **state)
{
  Bench *bench = *state;
  type (bench, "/stone/values_mm/0", "23.7");
  type (bench, "/stone/faces", "5");
  for (int i = 0; i < 5; i++) {
    g_autofree char *pointer = g_strdup_printf ("/stone/values_mm/%d", i);
    assert_true (is_example (bench, pointer));
    type (bench, pointer, "15.5");
  }
  assert_false (bw_project_stone_is_example (bench->project));
  type (bench, "/stone/faces", "6");
  assert_false (is_example (bench, "/stone/values_mm/0"));
  assert_true (is_example (bench, "/stone/values_mm/1"));
  type (bench, "/stone/faces", "5");
  assert_false (bw_project_stone_is_example (bench->project));
}

/* Five regular widths that nobody has typed follow the girth that was typed since. */
static void
widths_nobody_typed_are_made_anew (void **state)
{
  Bench *bench = *state;
  type (bench, "/stone/faces", "5");
  double width = stone (bench)->values_mm[0];
  type (bench, "/stone/faces", "6");
  for (int i = 0; i < 3; i++) {
    g_autofree char *pointer = g_strdup_printf ("/stone/values_mm/%d", i);
    type (bench, pointer, "23.7");
  }
  type (bench, "/stone/faces", "5");
  assert_true (fabs (stone (bench)->values_mm[0] - width) > 0.05);
}

static void
another_project_remembers_no_faces (void **state)
{
  Bench *bench = *state;
  g_autoptr (BwProject) other = bw_project_new ();
  type (bench, "/stone/values_mm/0", "23.7");
  type (bench, "/stone/faces", "5");
  bw_session_set_project (bench->session, other);
  BwField faces;
  assert_true (bw_field_find (&faces, "/stone/faces"));
  assert_true (bw_draft_type (bench->draft, &faces, "5", BW_UNIT_MM));
  assert_true (bw_draft_type (bench->draft, &faces, "6", BW_UNIT_MM));
  assert_true (fabs (bw_project_get_design (other)->stone.values_mm[0] - 23.7) > 0.05);
  bw_session_set_project (bench->session, bench->project);
}

#define BENCH_TEST(f) cmocka_unit_test_setup_teardown (f, set_up, tear_down)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    BENCH_TEST (a_run_of_steps_is_live_and_one_undo_step),
    BENCH_TEST (a_step_that_waited_behind_other_work_goes_on_with_the_run),
    BENCH_TEST (steps_of_two_fields_are_two_undo_steps),
    BENCH_TEST (a_hundred_small_steps_add_up_to_no_stray_digits),
    BENCH_TEST (a_step_into_the_impossible_stops_there),
    BENCH_TEST (a_typed_value_that_cannot_stand_leaves_the_project_alone),
    BENCH_TEST (a_step_is_called_by_what_was_measured),
    BENCH_TEST (values_that_stand_together_are_one_undo_step),
    BENCH_TEST (undo_under_a_waiting_value_lets_it_go),
    BENCH_TEST (a_change_elsewhere_keeps_a_waiting_value),
    BENCH_TEST (another_project_starts_with_nothing_waiting),
    BENCH_TEST (a_design_that_cannot_be_is_refused_whole),
    BENCH_TEST (whatever_is_typed_stands_or_waits_with_its_reason),
    BENCH_TEST (what_was_measured_for_a_number_of_faces_comes_back_with_it),
    BENCH_TEST (shares_of_a_girth_are_no_measurements_of_the_faces),
    BENCH_TEST (what_was_measured_in_a_way_comes_back_with_it),
    BENCH_TEST (a_way_nobody_typed_in_follows_what_was_typed_since),
    BENCH_TEST (the_example_typed_once_more_is_the_makers_own),
    BENCH_TEST (faces_that_come_back_are_as_made_up_as_they_were),
    BENCH_TEST (widths_nobody_typed_are_made_anew),
    BENCH_TEST (another_project_remembers_no_faces),
    BENCH_TEST (the_reason_is_the_sentence_of_the_project),
  };
  return cmocka_run_group_tests_name ("draft", tests, NULL, NULL);
}
