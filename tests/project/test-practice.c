/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What makers do without anybody having published it, met by what the program starts with. Every
 * number here is common practice, no source. */
#include "core/path/materials.h"
#include "core/path/path.h"
#include "project/project.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

/* A file that says no more than it must, and which bail. */
static BwProject *
sparse_project (int columns, double girth_mm, const char *bail)
{
  g_autofree char *json = g_strdup_printf (
      "{ \"format\": \"bandwright-project\", \"version\": 1, \"stone\": { \"faces\": 6, "
      "\"measured\": \"girth\", \"values_mm\": [%d.%d], \"at_mm\": 20, \"length_mm\": 60, "
      "\"shoulder_mm\": 45 }, \"bead\": { \"diameter_mm\": 1.6, \"length_mm\": 1.3, "
      "\"hole_mm\": 0.8 }, \"band\": { \"columns\": %d }, \"bail\": { %s } }",
      (int)girth_mm, (int)(10 * girth_mm) % 10, columns, bail);
  BwProject *project = bw_project_load_data (json, strlen (json), NULL);
  assert_non_null (project);
  return project;
}

/* Common practice, no source: 1.2 to 1.5 m of flat waxed cord for twelve columns of 11/0 in one
 * layer. Medium is taken as 75 to 85 mm round. */
static void
a_medium_stone_takes_a_bed_cord_of_1200_to_1500_mm (void **state)
{
  for (double girth = 75; girth <= 85; girth += 2.5) {
    g_autoptr (BwProject) project = sparse_project (12, girth, "\"style\": \"none\"");
    const BwDesign *design = bw_project_get_design (project);
    assert_int_equal (design->bed.layers, 1);
    double cord
        = bw_bed_cord_mm (&design->bed, bw_project_stone (project), bw_design_span (design));
    if (cord < 1200 || cord > 1500)
      fail_msg ("girth %g: %.0f mm", girth, cord);
  }
}

/* Common practice, no source: a loop of about 6 mm for a cord of 4 mm. */
static void
a_cord_of_4_mm_gets_a_loop_of_about_6_mm (void **state)
{
  g_autoptr (BwProject) project = sparse_project (12, 80, "\"style\": \"flap\", \"cord_mm\": 4");
  BwDesign design = *bw_project_get_design (project);
  design.bail.rows = bw_project_hang (project)->loop.rows_needed;
  assert_true (bw_project_set_design (project, "", &design, NULL));
  double opening = bw_project_hang (project)->loop.opening_mm;
  if (opening < 6 || opening > 7)
    fail_msg ("%.2f mm", opening);
}

/* Common practice, no source: three beads to a row of the flap, two or three columns of the band
 * left at either edge: on the path of the needle itself, for the usual widths of ten and twelve. */
static void
a_flap_has_three_beads_a_row_and_leaves_two_or_three_columns (void **state)
{
  for (int columns = 10; columns <= 12; columns += 2) {
    g_autoptr (BwProject) project = sparse_project (columns, 80, "\"style\": \"flap\"");
    const GArray *visits = bw_project_path (project)->visits;
    int rows = bw_project_get_design (project)->bail.rows;
    g_autofree int *beads = g_new0 (int, rows + 1);
    int low = columns, high = 1;
    for (guint i = 0; i < visits->len; i++) {
      const BwVisit *visit = &g_array_index (visits, BwVisit, i);
      if (visit->in_bail && visit->is_new)
        beads[visit->row]++;
      if (!visit->in_bail && visit->part == BW_PART_ATTACHMENT) {
        low = MIN (low, visit->column);
        high = MAX (high, visit->column);
      }
    }
    for (int row = 1; row <= rows; row++)
      assert_int_equal (beads[row], 3);
    /* It is sewn down within its columns, the needle turns in the one beside them. */
    int left = (columns - bw_project_get_design (project)->bail.columns) / 2;
    assert_in_range (left, 2, 3);
    assert_true (low >= left && high <= columns + 1 - left);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_medium_stone_takes_a_bed_cord_of_1200_to_1500_mm),
    cmocka_unit_test (a_cord_of_4_mm_gets_a_loop_of_about_6_mm),
    cmocka_unit_test (a_flap_has_three_beads_a_row_and_leaves_two_or_three_columns),
  };
  return cmocka_run_group_tests_name ("practice", tests, NULL, NULL);
}
