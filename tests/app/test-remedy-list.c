/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A remedy is one step of undo, or it is refused and nothing has changed. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "app/fit/remedy-list.h"

#include <math.h>
#include <string.h>

typedef struct {
  BwProject *project;
  BwSession *session;
  BwDraft *draft;
} Bench;

static int
set_up (void **state)
{
  Bench *bench = g_new0 (Bench, 1);
  bench->project = bw_project_new ();
  bench->session = bw_session_new (bench->project);
  bench->draft = bw_draft_new (bench->session);
  *state = bench;
  return 0;
}

static int
tear_down (void **state)
{
  Bench *bench = *state;
  g_object_unref (bench->draft);
  g_object_unref (bench->session);
  g_object_unref (bench->project);
  g_free (bench);
  return 0;
}

/* Another row count, as the list would offer it. */
static BwRemedy
remedy_of (Bench *bench, int rows)
{
  BwRemedy remedy = { .kind = BW_REMEDY_ROWS,
                      .value = rows,
                      .design = *bw_project_get_design (bench->project) };
  remedy.design.band.rows = rows;
  return remedy;
}

static void
a_remedy_is_one_step_of_undo (void **state)
{
  Bench *bench = *state;
  g_autoptr (GError) error = NULL;
  g_autofree char *before = bw_project_to_data (bench->project, NULL);
  BwRemedy remedy = remedy_of (bench, bw_project_get_design (bench->project)->band.rows + 2);
  assert_true (bw_remedy_apply (bench->draft, &remedy, &error));
  assert_int_equal (bw_project_get_design (bench->project)->band.rows, (int)remedy.value);
  bw_project_undo (bench->project);
  g_autofree char *after = bw_project_to_data (bench->project, NULL);
  assert_string_equal (after, before);
}

static void
a_remedy_that_does_not_stand_is_refused_without_a_trace (void **state)
{
  Bench *bench = *state;
  g_autoptr (GError) error = NULL;
  g_autofree char *before = bw_project_to_data (bench->project, NULL);
  BwRemedy remedy = remedy_of (bench, 0);
  assert_false (bw_remedy_apply (bench->draft, &remedy, &error));
  assert_non_null (error);
  assert_non_null (strstr (error->message, "/band/rows"));
  g_autofree char *after = bw_project_to_data (bench->project, NULL);
  assert_string_equal (after, before);
  assert_false (bw_project_can_undo (bench->project));
}

/* Lengths measured with the old bead would speak for its pitch. */
static void
another_bead_drops_what_was_measured_with_the_old_one (void **state)
{
  Bench *bench = *state;
  g_autoptr (GError) error = NULL;
  BwCheck check = { .rows = 40, .length_mm = 34 };
  int n_checks;
  assert_true (bw_project_set_progress (bench->project, "", 40, &check, 1, NULL));
  g_autofree char *before = bw_project_to_data (bench->project, NULL);
  const GArray *remedies = bw_project_remedies (bench->project);
  BwRemedy remedy = g_array_index (remedies, BwRemedy, remedies->len - 1);
  assert_int_equal (remedy.kind, BW_REMEDY_BEAD);
  assert_true (bw_remedy_apply (bench->draft, &remedy, &error));
  bw_project_get_checks (bench->project, &n_checks);
  assert_int_equal (n_checks, 0);
  const BwFit *fit = bw_project_fit (bench->project);
  assert_int_equal (fit->verdict, remedy.verdict);
  assert_true (fabs (fit->gap_max_mm - remedy.gap_max_mm) < 1e-9);
  bw_project_undo (bench->project);
  g_autofree char *after = bw_project_to_data (bench->project, NULL);
  assert_string_equal (after, before);
}

/* After another bead the rows follow it; the bed is not made to. */
static void
after_another_bead_the_rows_come_first (void **state)
{
  Bench *bench = *state;
  for (double factor = 0.7; factor < 1.5; factor += 0.05) {
    BwDesign design = *bw_project_get_design (bench->project);
    BwRemedy best;
    design.bead.diameter_mm *= factor;
    design.gauge.pitch_mm *= factor;
    assert_true (bw_project_set_design (bench->project, "Bead", &design, NULL));
    if (bw_project_fit (bench->project)->verdict != BW_VERDICT_SNUG) {
      assert_true (bw_remedy_list_best (bench->project, &best));
      assert_int_equal (best.kind, BW_REMEDY_ROWS);
    }
    bw_project_undo (bench->project);
  }
}

int
main (void)
{
#define ON_BENCH(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    ON_BENCH (a_remedy_is_one_step_of_undo),
    ON_BENCH (another_bead_drops_what_was_measured_with_the_old_one),
    ON_BENCH (after_another_bead_the_rows_come_first),
    ON_BENCH (a_remedy_that_does_not_stand_is_refused_without_a_trace),
  };
  return cmocka_run_group_tests_name ("remedy-list", tests, NULL, NULL);
}
