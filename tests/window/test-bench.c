/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A whole band woven beside the bench helper, by keys alone but for the numbers typed. */
#include "maker.h"

#include "app/bench-page.h"
#include "app/bench-row.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

typedef struct {
  Maker maker;
  char *path;
} Bench;

/* A slender stone, so that a whole band is soon woven. */
static void
make_slender (BwProject *project)
{
  BwDesign design = *bw_project_get_design (project);
  BwStone stone;
  for (int i = 0; i < BW_FACES_MAX; i++)
    design.stone.values_mm[i] *= 0.45;
  assert_true (bw_design_validate (&design, &stone, NULL));
  design.band.rows = 2 * bw_fit_recommended (&design, &stone);
  assert_true (bw_project_set_design (project, "Slender", &design, NULL));
}

static int
set_up (void **state)
{
  Bench *bench = g_new0 (Bench, 1);
  g_autoptr (BwProject) project = bw_project_new ();
  make_slender (project);
  bw_project_set_title (project, "Title", "Sea holly");
  bench->path = maker_save (project, "holly.bandwright");
  maker_start (&bench->maker, bench->path);
  desk_key ("F11", 0);
  desk_wait (400);
  desk_settle ();
  *state = bench;
  return 0;
}

static int
tear_down (void **state)
{
  Bench *bench = *state;
  maker_stop (&bench->maker);
  g_free (bench->path);
  g_free (bench);
  return 0;
}

static int
rows_done (Bench *bench)
{
  return bw_project_get_rows_done (maker_project (&bench->maker));
}

static int
rows_of (Bench *bench)
{
  return maker_design (&bench->maker)->band.rows;
}

/* Any of the keys that move on, one after the other. */
static void
weave_to (Bench *bench, int row)
{
  static const char *const keys[] = { "space", "Right", "Next" };
  for (int i = 0; rows_done (bench) < row; i++) {
    int before = rows_done (bench);
    desk_key (keys[i % 3], 0);
    assert_int_equal (rows_done (bench), before == 0 ? 2 : before + 1);
  }
}

/* Types what the strip measures when beads follow each other by pitch_mm, and takes the first
 * choice. */
static void
measure (Bench *bench, double pitch_mm)
{
  GtkWidget *page = maker_find (&bench->maker, BW_TYPE_BENCH_PAGE);
  char text[32];
  g_snprintf (text, sizeof text, "%.2f", (rows_done (bench) + 1) / 2.0 * pitch_mm);
  desk_click (desk_find_type (page, GTK_TYPE_ENTRY));
  desk_type (text);
  desk_key ("Return", 0);
  maker_dialog (&bench->maker);
  desk_keep ("bench-check");
  desk_key ("Return", 0);
  maker_no_dialog (&bench->maker);
}

static void
a_band_is_woven_with_two_strip_checks (void **state)
{
  Bench *bench = *state;
  int n, planned = rows_of (bench);
  double pitch = maker_design (&bench->maker)->gauge.pitch_mm * 1.08;
  weave_to (bench, 20);
  desk_keep ("bench-row");
  measure (bench, pitch);
  int now = rows_of (bench);
  assert_true (now < planned && now % 2 == 0);
  assert_int_equal (now, 2 * bw_project_forecast (maker_project (&bench->maker))->recommended);
  weave_to (bench, 30);
  measure (bench, pitch);
  bw_project_get_checks (maker_project (&bench->maker), &n);
  assert_int_equal (n, 2);
  assert_true (fabs (maker_design (&bench->maker)->pitch.mm - pitch) < 0.03 * pitch);
  weave_to (bench, rows_of (bench));
  desk_key ("space", 0);
  assert_int_equal (rows_done (bench), rows_of (bench));
  desk_keep ("bench-end");
}

static void
a_strip_check_is_one_step_of_undo (void **state)
{
  Bench *bench = *state;
  BwProject *project = maker_project (&bench->maker);
  weave_to (bench, 20);
  g_autofree char *before = bw_project_to_data (project, NULL);
  measure (bench, maker_design (&bench->maker)->gauge.pitch_mm * 1.08);
  desk_key ("z", GDK_CONTROL_MASK);
  g_autofree char *after = bw_project_to_data (project, NULL);
  assert_string_equal (before, after);
}

static void
a_row_can_be_taken_back (void **state)
{
  Bench *bench = *state;
  weave_to (bench, 5);
  desk_key ("Left", 0);
  assert_int_equal (rows_done (bench), 4);
  desk_key ("Prior", 0);
  desk_key ("BackSpace", 0);
  assert_int_equal (rows_done (bench), 2);
  desk_key ("Left", 0);
  desk_key ("Left", 0);
  assert_int_equal (rows_done (bench), 0);
}

static void
a_click_on_the_row_moves_on (void **state)
{
  Bench *bench = *state;
  desk_click (maker_find (&bench->maker, BW_TYPE_BENCH_ROW));
  assert_int_equal (rows_done (bench), 2);
}

static void
the_place_is_kept_in_the_file_and_woven_rows_are_dimmed (void **state)
{
  Bench *bench = *state;
  g_autoptr (GError) error = NULL;
  g_autoptr (GFile) file = g_file_new_for_path (bench->path);
  weave_to (bench, 9);
  assert_int_equal (bw_session_get_woven (maker_session (&bench->maker)), 9);
  desk_key ("s", GDK_CONTROL_MASK);
  desk_settle ();
  g_autoptr (BwProject) again = bw_project_load (file, &error);
  assert_non_null (again);
  assert_int_equal (bw_project_get_rows_done (again), 9);
  desk_key ("Escape", 0);
  desk_wait (400);
  assert_int_equal (bw_session_get_woven (maker_session (&bench->maker)), 0);
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (a_band_is_woven_with_two_strip_checks),
    IN_WINDOW (a_strip_check_is_one_step_of_undo),
    IN_WINDOW (a_row_can_be_taken_back),
    IN_WINDOW (a_click_on_the_row_moves_on),
    IN_WINDOW (the_place_is_kept_in_the_file_and_woven_rows_are_dimmed),
  };
  return maker_run (tests);
}
