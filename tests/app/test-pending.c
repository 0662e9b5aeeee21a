/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What was typed but cannot stand yet: kept as typed, told why, tried again with what comes next.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "app/form/pending.h"
#include "project/project.h"

#include <math.h>

typedef struct {
  BwProject *project;
  GPtrArray *pendings;
} Bench;

static int
set_up (void **state)
{
  Bench *bench = g_new0 (Bench, 1);
  bench->project = bw_project_new ();
  bench->pendings = bw_pendings_new ();
  *state = bench;
  return 0;
}

static int
tear_down (void **state)
{
  Bench *bench = *state;
  g_ptr_array_unref (bench->pendings);
  g_assert_finalize_object (bench->project);
  g_free (bench);
  return 0;
}

static const BwDesign *
design_of (Bench *bench)
{
  return bw_project_get_design (bench->project);
}

/* Types into a field as the window does: what stands becomes the design. */
static gboolean
type (Bench *bench, const char *pointer, const char *text)
{
  BwField field;
  BwDesign result;
  assert_true (bw_field_find (&field, pointer));
  if (!bw_pendings_offer (bench->pendings, bench->project, &field, text, BW_UNIT_MM, &result))
    return FALSE;
  assert_true (bw_project_set_design (bench->project, "Typed", &result, NULL));
  return TRUE;
}

static void
a_value_that_stands_is_taken (void **state)
{
  Bench *bench = *state;
  assert_true (type (bench, "/stone/length_mm", "60"));
  assert_true (fabs (design_of (bench)->stone.length_mm - 60) < 1e-12);
  assert_int_equal (bench->pendings->len, 0);
}

static void
a_value_that_cannot_stand_waits_as_it_was_typed (void **state)
{
  Bench *bench = *state;
  double before = design_of (bench)->stone.length_mm;
  assert_false (type (bench, "/stone/length_mm", " 20 mm"));
  const BwPending *pending = bw_pendings_find (bench->pendings, "/stone/length_mm");
  assert_non_null (pending);
  assert_string_equal (pending->text, " 20 mm");
  assert_true (strlen (pending->reason) > 10);
  assert_true (fabs (design_of (bench)->stone.length_mm - before) < 1e-12);
}

static void
text_that_is_no_number_waits_too (void **state)
{
  Bench *bench = *state;
  assert_false (type (bench, "/stone/length_mm", "long"));
  assert_string_equal (bw_pendings_find (bench->pendings, "/stone/length_mm")->text, "long");
  assert_true (type (bench, "/stone/density_g_cm3", "2.7"));
  assert_int_equal (bench->pendings->len, 1);
}

static void
a_smaller_stone_can_be_typed_in_any_order (void **state)
{
  static const char *const values[][2] = {
    { "/stone/length_mm", "20" }, { "/stone/shoulder_mm", "15" }, { "/stone/at_mm", "5" },
    { "/band/bottom_mm", "1" },   { "/band/columns", "8" },
  };
  const int n = G_N_ELEMENTS (values);
  g_autoptr (GRand) rand = g_rand_new_with_seed (72);
  for (int turn = 0; turn < 60; turn++) {
    void *fresh;
    set_up (&fresh);
    int order[] = { 0, 1, 2, 3, 4 };
    for (int i = n - 1; i > 0; i--) {
      int j = g_rand_int_range (rand, 0, i + 1), k = order[i];
      order[i] = order[j];
      order[j] = k;
    }
    for (int i = 0; i < n; i++)
      type (fresh, values[order[i]][0], values[order[i]][1]);
    Bench *bench = fresh;
    assert_int_equal (bench->pendings->len, 0);
    assert_true (fabs (design_of (bench)->stone.length_mm - 20) < 1e-12);
    assert_true (fabs (design_of (bench)->stone.shoulder_mm - 15) < 1e-12);
    assert_int_equal (design_of (bench)->band.columns, 8);
    tear_down (&fresh);
  }
}

static void
a_value_that_never_stands_does_not_hold_up_the_others (void **state)
{
  Bench *bench = *state;
  assert_false (type (bench, "/bead/hole_mm", "9"));
  assert_false (type (bench, "/stone/length_mm", "34"));
  assert_true (type (bench, "/stone/shoulder_mm", "30"));
  assert_true (fabs (design_of (bench)->stone.length_mm - 34) < 1e-12);
  assert_int_equal (bench->pendings->len, 1);
  assert_non_null (bw_pendings_find (bench->pendings, "/bead/hole_mm"));
}

static void
typing_again_replaces_what_waited (void **state)
{
  Bench *bench = *state;
  assert_false (type (bench, "/stone/length_mm", "20"));
  assert_false (type (bench, "/stone/length_mm", "21"));
  assert_int_equal (bench->pendings->len, 1);
  assert_true (type (bench, "/stone/length_mm", "61"));
  assert_int_equal (bench->pendings->len, 0);
}

static void
empty_text_clears_only_what_is_optional (void **state)
{
  Bench *bench = *state;
  assert_true (type (bench, "/bed/girth_over_mm", "78"));
  assert_true (design_of (bench)->bed.has_girth_over);
  assert_true (type (bench, "/bed/girth_over_mm", "  "));
  assert_false (design_of (bench)->bed.has_girth_over);
  assert_false (type (bench, "/stone/length_mm", ""));
}

static void
the_fault_names_the_field_that_is_at_odds (void **state)
{
  Bench *bench = *state;
  assert_false (type (bench, "/stone/length_mm", "20"));
  const BwPending *pending = bw_pendings_find (bench->pendings, "/stone/length_mm");
  assert_string_equal (pending->blamed, "/stone/shoulder_mm");
}

static void
another_change_lets_what_waits_in (void **state)
{
  Bench *bench = *state;
  BwDesign result;
  assert_false (type (bench, "/stone/length_mm", "34"));
  assert_false (bw_pendings_retry (bench->pendings, bench->project, &result));
  BwDesign shorter = *design_of (bench);
  shorter.stone.shoulder_mm = 30;
  assert_true (bw_project_set_design (bench->project, "Shorter", &shorter, NULL));
  assert_true (bw_pendings_retry (bench->pendings, bench->project, &result));
  assert_true (fabs (result.stone.length_mm - 34) < 1e-12);
  assert_int_equal (bench->pendings->len, 0);
}

#define BENCH_TEST(f) cmocka_unit_test_setup_teardown (f, set_up, tear_down)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    BENCH_TEST (a_value_that_stands_is_taken),
    BENCH_TEST (a_value_that_cannot_stand_waits_as_it_was_typed),
    BENCH_TEST (text_that_is_no_number_waits_too),
    BENCH_TEST (a_smaller_stone_can_be_typed_in_any_order),
    BENCH_TEST (a_value_that_never_stands_does_not_hold_up_the_others),
    BENCH_TEST (typing_again_replaces_what_waited),
    BENCH_TEST (empty_text_clears_only_what_is_optional),
    BENCH_TEST (the_fault_names_the_field_that_is_at_odds),
    BENCH_TEST (another_change_lets_what_waits_in),
  };
  return cmocka_run_group_tests_name ("pending", tests, NULL, NULL);
}
