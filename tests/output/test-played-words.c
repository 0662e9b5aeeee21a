/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where a piece stands that is still being woven, against the thread's path. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "core/base/lattice.h"
#include "core/path/path-pass.h"
#include "output/words/played-words.h"
#include "sample.h"
#include <string.h>

static BwProject *
project_of (int rows, SampleBail bail)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (11);
  g_autoptr (Sample) sample = sample_new (rand, 8, rows, bail);
  g_autofree char *json = sample_json (sample);
  g_autoptr (GError) error = NULL;
  BwProject *project = bw_project_load_data (json, strlen (json), &error);
  assert_non_null (project);
  return project;
}

static void
expect (BwProject *project, int visits, const char *now, const char *then)
{
  g_autofree char *told_now = bw_played_now (project, visits);
  g_autofree char *told_then = bw_played_then (project, visits);
  assert_string_equal (told_now, now);
  assert_string_equal (told_then, then);
}

static int
end_of_row (BwProject *project, gboolean in_bail, int row)
{
  BwPass pass;
  assert_true (bw_path_row_pass (bw_project_path (project), in_bail, row, &pass));
  return (int)(pass.first + pass.n);
}

static void
each_row_is_told_and_what_comes_after_it (void **state)
{
  g_autoptr (BwProject) project = project_of (0, SAMPLE_NO_BAIL);
  int rows = bw_project_get_design (project)->band.rows;
  g_autofree char *strung = g_strdup_printf ("Pick-up, rows 1 and 2 of %d, 8 of 8 beads", rows);
  g_autofree char *one = g_strdup_printf ("Pick-up, rows 1 and 2 of %d, 1 of 8 beads", rows);
  assert_int_equal (rows % 2, 0);
  expect (project, 0, "Nothing strung yet", "then the pick-up");
  expect (project, 1, one, "then row 3");
  expect (project, 8, strung, "then row 3");
  for (int row = 3; row <= rows; row++) {
    g_autofree char *now = g_strdup_printf ("Row %d of %d %s, 4 of 4 beads", row, rows,
                                            bw_lattice_direction (row) > 0 ? "↑" : "↓");
    g_autofree char *then
        = row < rows ? g_strdup_printf ("then row %d", row + 1) : g_strdup ("then the zip");
    expect (project, end_of_row (project, FALSE, row), now, then);
  }
}

/* Of a row's visits every other one passes a bead that is there. */
static void
beads_are_counted_as_they_are_picked_up (void **state)
{
  g_autoptr (BwProject) project = project_of (0, SAMPLE_NO_BAIL);
  const BwPath *path = bw_project_path (project);
  int rows = bw_project_get_design (project)->band.rows, first = end_of_row (project, FALSE, 6);
  for (int k = 1, there = 0; k <= 8; k++) {
    there += g_array_index (path->visits, BwVisit, (guint)(first + k - 1)).is_new;
    g_autofree char *now = g_strdup_printf ("Row 7 of %d ↓, %d of 4 beads", rows, there);
    expect (project, first + k, now, "then row 8");
  }
}

static void
after_the_band_come_join_and_ends (void **state)
{
  g_autoptr (BwProject) project = project_of (0, SAMPLE_NO_BAIL);
  int rows = bw_project_get_design (project)->band.rows, zip = end_of_row (project, FALSE, rows);
  int all = (int)bw_project_path (project)->visits->len;
  g_autofree char *done
      = g_strdup_printf ("All %d rows are woven and zipped, the ends woven in", rows);
  expect (project, zip + 1, "Zip: the last row into the first, 1 of 8 beads",
          "then back through the zip");
  expect (project, zip + 8, "Zip: the last row into the first, 8 of 8 beads",
          "then back through the zip");
  expect (project, zip + 9, "Back through the zip, 1 of 8 beads", "then the anchor");
  expect (project, zip + 17, "Anchor: holding the join, 1 of 8 beads", "then weave in an end");
  expect (project, all - 1, "Weaving in an end, 15 of 16 beads", "then all is done");
  expect (project, all, done, "");
  expect (project, all + 100, done, "");
}

static void
the_bail_is_told_by_its_rows_and_its_sewing (void **state)
{
  g_autoptr (BwProject) project = project_of (0, SAMPLE_UPRIGHT);
  const BwBail *bail = &bw_project_get_design (project)->bail;
  int last = end_of_row (project, TRUE, bail->rows);
  for (int row = 3; row <= bail->rows; row++) {
    g_autofree char *name = g_strdup_printf ("Bail, row %d of %d, ", row, bail->rows);
    g_autofree char *then = row < bail->rows ? g_strdup_printf ("then row %d of the bail", row + 1)
                                             : g_strdup ("then sew the bail down");
    int visits = end_of_row (project, TRUE, row);
    g_autofree char *now = bw_played_now (project, visits);
    g_autofree char *told = bw_played_then (project, visits);
    assert_true (g_str_has_prefix (now, name));
    assert_string_equal (told, then);
  }
  g_autofree char *sewing = bw_played_now (project, last + 1);
  g_autofree char *after = bw_played_then (project, last + 1);
  assert_true (g_str_has_prefix (sewing, "Sewing the bail down, 1 of "));
  /* However many times the needle goes to and fro. */
  assert_string_equal (after, "then weave in an end");
}

static void
an_odd_strip_ends_unzipped (void **state)
{
  g_autoptr (BwProject) project = project_of (9, SAMPLE_NO_BAIL);
  expect (project, (int)bw_project_path (project)->visits->len,
          "All 9 rows are woven: such a strip cannot be zipped", "");
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (each_row_is_told_and_what_comes_after_it),
    cmocka_unit_test (beads_are_counted_as_they_are_picked_up),
    cmocka_unit_test (after_the_band_come_join_and_ends),
    cmocka_unit_test (the_bail_is_told_by_its_rows_and_its_sewing),
    cmocka_unit_test (an_odd_strip_ends_unzipped),
  };
  return cmocka_run_group_tests_name ("played-words", tests, NULL, NULL);
}
