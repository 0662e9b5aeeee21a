/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Edits, steps and undo, seen from outside. */
#include "edits.h"

#include "core/base/lattice.h"

static void
a_new_project_is_sound_snug_and_unmodified (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();

  assert_true (bw_design_validate (bw_project_get_design (project), NULL, NULL));
  assert_int_equal (bw_project_fit (project)->verdict, BW_VERDICT_SNUG);
  assert_int_equal (bw_project_get_design (project)->band.columns, 12);
  assert_int_equal (bw_project_get_tray (project)->n_colours, 4);
  assert_int_equal (bw_drawing_rows (bw_project_get_drawing (project)),
                    bw_project_get_design (project)->band.rows);
  assert_null (bw_project_get_bail_drawing (project));
  assert_null (bw_project_get_file (project));
  assert_false (bw_project_get_modified (project));
  assert_false (bw_project_can_undo (project));
  assert_false (bw_project_can_redo (project));
}

static void
assert_near (double a, double b)
{
  if (!(fabs (a - b) <= 1e-9 * fmax (1, fabs (b))))
    fail_msg ("%.17g is not %.17g", a, b);
}

static double
hours_of (BwProject *project)
{
  return bw_project_materials (project)->hours;
}

/* A pace is told of the band at hand: of twice as many columns an hour makes half as many rows. */
static void
a_wider_band_takes_longer_at_the_pace_told (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwDesign design = *bw_project_get_design (project);
  design.supply.has_prices = TRUE;
  design.supply.rows_per_hour = 20;
  design.bed.layers = 0;
  assert_true (bw_project_set_design (project, "Prices", &design, NULL));
  assert_near (hours_of (project), bw_project_materials (project)->work_rows / 20);
  int columns = design.band.columns;
  design.band.columns = 2 * columns;
  design.band.bottom_mm = 2;
  assert_true (bw_project_set_design (project, "Width", &design, NULL));
  assert_int_equal (bw_project_get_design (project)->supply.pace_columns, columns);
  assert_near (hours_of (project), bw_project_materials (project)->work_rows / 10);
  /* The file tells it as it is told here. */
  g_autofree char *text = bw_project_to_data (project, NULL);
  g_autoptr (BwProject) again = bw_project_load_data (text, strlen (text), NULL);
  assert_near (hours_of (again), hours_of (project));
  bw_project_undo (project);
  assert_int_equal (bw_project_get_design (project)->supply.pace_columns, 0);
}

static void
each_edit_is_one_step_with_its_own_name (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();

  bw_project_set_title (project, "Name it", "Ebb");
  assert_true (bw_project_set_bead (project, "Set bead", FALSE, 3, 2, 1));
  assert_string_equal (bw_project_undo_label (project), "Set bead");
  assert_null (bw_project_redo_label (project));
  bw_project_undo (project);
  assert_string_equal (bw_project_undo_label (project), "Name it");
  assert_string_equal (bw_project_redo_label (project), "Set bead");
  assert_int_equal (bw_drawing_get (bw_project_get_drawing (project), 3, 2), 0);
  bw_project_undo (project);
  assert_null (bw_project_undo_label (project));
  assert_string_equal (bw_project_get_title (project), "");
  bw_project_redo (project);
  bw_project_redo (project);
  assert_int_equal (bw_drawing_get (bw_project_get_drawing (project), 3, 2), 1);
  assert_string_equal (bw_project_get_title (project), "Ebb");
}

/* The text of the document after every kept step, walked back and forth. */
static void
every_step_is_taken_back_and_forth_exactly (void **state)
{
  for (guint32 seed = 1; seed <= 12; seed++) {
    g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
    g_autoptr (BwProject) project
        = seed % 2 ? bw_project_new () : corpus_project ("sound.bandwright");
    g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);
    int steps = 0;

    g_ptr_array_add (texts, bw_project_to_data (project, NULL));
    for (int i = 0; i < 60; i++)
      if (random_edit (project, rand)) {
        steps++;
        g_ptr_array_add (texts, bw_project_to_data (project, NULL));
      }
    assert_true (steps > 20);
    for (int i = steps; i-- > 0;) {
      bw_project_undo (project);
      assert_text (project, g_ptr_array_index (texts, (guint)i));
    }
    assert_false (bw_project_can_undo (project));
    for (int i = 1; i <= steps; i++) {
      bw_project_redo (project);
      assert_text (project, g_ptr_array_index (texts, (guint)i));
    }
    assert_false (bw_project_can_redo (project));
  }
}

static void
a_wandering_undo_never_loses_its_place (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (77);
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);
  guint at = 0;

  g_ptr_array_add (texts, bw_project_to_data (project, NULL));
  for (int i = 0; i < 400; i++) {
    int way = g_rand_int_range (rand, 0, 3);

    if (way == 0 && at > 0) {
      bw_project_undo (project);
      at--;
    } else if (way == 1 && at + 1 < texts->len) {
      bw_project_redo (project);
      at++;
    } else if (random_edit (project, rand)) {
      g_ptr_array_set_size (texts, (int)++at);
      g_ptr_array_add (texts, bw_project_to_data (project, NULL));
    }
    assert_text (project, g_ptr_array_index (texts, at));
  }
}

static void
edits_between_begin_and_commit_are_one_step (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autofree char *before = bw_project_to_data (project, NULL);
  g_autofree char *after = NULL;

  bw_project_begin (project, "Stroke");
  for (int row = 1; row <= 5; row++)
    bw_project_set_bead (project, "", FALSE, row, row % 2 ? 2 : 1, 2);
  set_rows (project, "", bw_project_get_design (project)->band.rows + 2);
  assert_true (bw_project_in_step (project));
  bw_project_commit (project);
  after = bw_project_to_data (project, NULL);
  assert_string_equal (bw_project_undo_label (project), "Stroke");
  bw_project_undo (project);
  assert_text (project, before);
  assert_false (bw_project_can_undo (project));
  bw_project_redo (project);
  assert_text (project, after);
}

static void
nested_steps_join_the_outermost_and_revert_alone (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  const BwDrawing *drawing = bw_project_get_drawing (project);
  g_autofree char *before = bw_project_to_data (project, NULL);

  bw_project_begin (project, "Outer");
  bw_project_set_bead (project, "", FALSE, 1, 2, 1);
  bw_project_begin (project, "Inner");
  bw_project_set_bead (project, "", FALSE, 1, 2, 2);
  bw_project_set_bead (project, "", FALSE, 1, 4, 2);
  set_rows (project, "", 20);
  bw_project_revert (project);
  assert_true (bw_project_in_step (project));
  assert_int_equal (bw_drawing_get (drawing, 1, 2), 1);
  assert_int_equal (bw_drawing_get (drawing, 1, 4), 0);
  bw_project_begin (project, "Inner again");
  bw_project_set_bead (project, "", FALSE, 1, 6, 3);
  bw_project_commit (project);
  bw_project_commit (project);
  assert_false (bw_project_in_step (project));
  assert_string_equal (bw_project_undo_label (project), "Outer");
  assert_int_equal (bw_drawing_get (drawing, 1, 6), 3);
  bw_project_undo (project);
  assert_text (project, before);
}

static void
a_reverted_step_leaves_no_trace (void **state)
{
  for (guint32 seed = 1; seed <= 20; seed++) {
    g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
    g_autoptr (BwProject) project = corpus_project ("sound.bandwright");
    g_autofree char *before = bw_project_to_data (project, NULL);

    bw_project_begin (project, "Tried");
    for (int i = 0; i < 15; i++)
      random_edit (project, rand);
    bw_project_revert (project);
    assert_text (project, before);
    assert_false (bw_project_can_undo (project));
    assert_false (bw_project_get_modified (project));
  }
}

static void
a_step_that_ends_where_it_began_is_not_kept (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  const BwDesign same = *bw_project_get_design (project);
  int rows = same.band.rows;

  assert_true (bw_project_set_design (project, "Nothing", &same, NULL));
  bw_project_set_title (project, "Nothing", "");
  assert_true (bw_project_set_tray (project, "Nothing", bw_project_get_tray (project), NULL));
  assert_true (bw_project_set_bead (project, "Nothing", FALSE, 1, 2, 0));
  bw_project_begin (project, "There and back");
  set_rows (project, "", rows + 10);
  bw_project_set_bead (project, "", FALSE, rows + 4, 1, 3);
  bw_project_set_bead (project, "", FALSE, 2, 1, 3);
  bw_project_set_bead (project, "", FALSE, 2, 1, 0);
  set_rows (project, "", rows);
  bw_project_commit (project);
  assert_false (bw_project_can_undo (project));
  assert_false (bw_project_get_modified (project));
  set_rows (project, "Grow", rows + 10);
  assert_int_equal (bw_drawing_get (bw_project_get_drawing (project), rows + 4, 1), 0);
}

static void
undo_inside_an_open_step_does_nothing (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();

  bw_project_set_title (project, "One", "1");
  bw_project_begin (project, "Open");
  bw_project_set_title (project, "", "2");
  bw_project_undo (project);
  bw_project_redo (project);
  assert_string_equal (bw_project_get_title (project), "2");
  bw_project_commit (project);
  bw_project_undo (project);
  assert_string_equal (bw_project_get_title (project), "1");
}

static void
modified_compares_with_what_was_saved (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();

  bw_project_set_title (project, "One", "1");
  bw_project_set_title (project, "Two", "2");
  assert_true (bw_project_get_modified (project));
  bw_project_set_modified (project, FALSE);
  assert_false (bw_project_get_modified (project));
  bw_project_undo (project);
  assert_true (bw_project_get_modified (project));
  bw_project_redo (project);
  assert_false (bw_project_get_modified (project));
  bw_project_undo (project);
  bw_project_set_title (project, "Another", "3");
  assert_true (bw_project_get_modified (project));
  bw_project_undo (project);
  assert_true (bw_project_get_modified (project));
  bw_project_set_modified (project, FALSE);
  bw_project_begin (project, "Open");
  assert_false (bw_project_get_modified (project));
  bw_project_set_bead (project, "", FALSE, 1, 2, 1);
  assert_true (bw_project_get_modified (project));
  bw_project_revert (project);
  assert_false (bw_project_get_modified (project));
  bw_project_set_modified (project, TRUE);
  assert_true (bw_project_get_modified (project));
}

static void
note_changed (BwProject *project, guint what, guint *flags)
{
  *flags |= what;
}

static void
count_history (BwProject *project, int *n)
{
  (*n)++;
}

static void
a_change_tells_what_it_changed (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwTray tray = *bw_project_get_tray (project);
  BwDesign design = *bw_project_get_design (project);
  guint flags = 0;
  int n_history = 0;

  g_signal_connect (project, "changed", G_CALLBACK (note_changed), &flags);
  g_signal_connect (project, "history", G_CALLBACK (count_history), &n_history);
  bw_project_set_bead (project, "Bead", FALSE, 1, 2, 1);
  assert_int_equal (flags, BW_CHANGED_CELLS);
  assert_true (n_history > 0);
  flags = 0;
  bw_project_set_mineral (project, "Mineral", "beryl");
  assert_int_equal (flags, BW_CHANGED_TITLE);
  flags = 0;
  tray.colour[0].srgb ^= 0xff;
  bw_project_set_tray (project, "Tray", &tray, NULL);
  assert_int_equal (flags, BW_CHANGED_TRAY);
  flags = 0;
  design.supply.spare = 0.2;
  bw_project_set_design (project, "Spare", &design, NULL);
  assert_int_equal (flags, BW_CHANGED_DESIGN);
  flags = 0;
  set_rows (project, "Rows", 50);
  assert_int_equal (flags, BW_CHANGED_DESIGN | BW_CHANGED_SHAPE | BW_CHANGED_CELLS);
  flags = 0;
  bw_project_set_progress (project, "Row", 3, NULL, 0, NULL);
  assert_int_equal (flags, BW_CHANGED_PROGRESS);
  flags = 0;
  bw_project_undo (project);
  assert_int_equal (flags, BW_CHANGED_PROGRESS);
  flags = 0;
  bw_project_undo (project);
  assert_int_equal (flags, BW_CHANGED_DESIGN | BW_CHANGED_SHAPE | BW_CHANGED_CELLS);
}

static void
a_change_inside_a_step_shows_at_once (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  guint flags = 0;

  g_signal_connect (project, "changed", G_CALLBACK (note_changed), &flags);
  bw_project_begin (project, "Stroke");
  bw_project_set_bead (project, "", FALSE, 1, 2, 1);
  assert_int_equal (flags, BW_CHANGED_CELLS);
  flags = 0;
  bw_project_commit (project);
  assert_int_equal (flags, 0);
}

static void
beads_outside_the_lattice_are_not_there (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  int rows = bw_project_get_design (project)->band.rows;
  static const int columns[] = { 0, -2, 1, 13, 14, 1000000 };

  for (gsize i = 0; i < G_N_ELEMENTS (columns); i++)
    assert_false (bw_project_set_bead (project, "x", FALSE, 1, columns[i], 1));
  assert_false (bw_project_set_bead (project, "x", FALSE, 0, 1, 1));
  assert_false (bw_project_set_bead (project, "x", FALSE, rows + 1, 2, 1));
  assert_false (bw_project_set_bead (project, "x", FALSE, 1, 2, 4));
  assert_false (bw_project_set_bead (project, "x", TRUE, 1, 2, 1));
  assert_false (bw_project_can_undo (project));
}

static void
a_refused_edit_changes_nothing_and_says_why (void **state)
{
  g_autoptr (BwProject) project = corpus_project ("sound.bandwright");
  g_autofree char *before = bw_project_to_data (project, NULL);
  const BwCheck check = { .rows = 10, .length_mm = 9000 };
  BwTray tray = *bw_project_get_tray (project);
  guint flags = 0;

  g_signal_connect (project, "changed", G_CALLBACK (note_changed), &flags);
  for (int i = 0; i < 8; i++) {
    BwDesign design = *bw_project_get_design (project);
    g_autoptr (GError) error = NULL;
    static const char *const pointers[]
        = { "/band/columns", "/stone/values_mm/2", "/bead/hole_mm", "/gauge/swatch/rows",
            "/bail/columns", "/band/bottom_mm",    "/fit/slack_mm", "/materials/pieces" };

    switch (i) {
    case 0:
      design.band.columns = 7;
      break;
    case 1:
      design.stone.values_mm[2] = -1;
      break;
    case 2:
      design.bead.hole_mm = 99;
      break;
    case 3:
      design.gauge.swatch.rows = 0;
      break;
    case 4:
      design.bail.columns = 8;
      break;
    case 5:
      design.band.bottom_mm = 40;
      break;
    case 6:
      design.limits.slack_mm = NAN;
      break;
    default:
      design.supply.pieces = 0;
    }
    assert_false (bw_project_set_design (project, "x", &design, &error));
    assert_fault (error, -1, pointers[i]);
  }
  tray.colour[1].id = tray.colour[0].id;
  assert_false (bw_project_set_tray (project, "x", &tray, NULL));
  assert_false (bw_project_set_progress (project, "x", 0, &check, 1, NULL));
  assert_false (bw_project_set_progress (project, "x", -1, NULL, 0, NULL));
  assert_false (bw_project_remove_colour (project, "x", 0, 0, NULL));
  assert_false (bw_project_remove_colour (project, "x", 9, 0, NULL));
  assert_int_equal (flags, 0);
  assert_false (bw_project_can_undo (project));
  assert_text (project, before);
}

static void
a_swatch_sets_the_gauge_and_sharpens_the_pitch (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwDesign design = *bw_project_get_design (project);
  const BwCheck check = { .rows = 40, .length_mm = 33.5 };
  double sd = design.pitch.sd_mm, sd_swatch;

  design.gauge.has_swatch = TRUE;
  design.gauge.swatch
      = (BwSwatch){ .columns = 10, .rows = 24, .width_mm = 13.1, .length_mm = 20.1 };
  assert_true (bw_project_set_design (project, "Swatch", &design, NULL));
  assert_true (fabs (bw_project_get_design (project)->gauge.column_mm - 1.31) < 1e-12);
  assert_true (fabs (bw_project_get_design (project)->gauge.pitch_mm - 2 * 20.1 / 25) < 1e-12);
  sd_swatch = bw_project_get_design (project)->pitch.sd_mm;
  assert_true (sd_swatch < sd);
  assert_true (bw_project_set_progress (project, "Check", 40, &check, 1, NULL));
  assert_true (bw_project_get_design (project)->pitch.sd_mm < sd_swatch);
  bw_project_undo (project);
  assert_true (fabs (bw_project_get_design (project)->pitch.sd_mm - sd_swatch) < 1e-15);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_new_project_is_sound_snug_and_unmodified),
    cmocka_unit_test (a_wider_band_takes_longer_at_the_pace_told),
    cmocka_unit_test (each_edit_is_one_step_with_its_own_name),
    cmocka_unit_test (every_step_is_taken_back_and_forth_exactly),
    cmocka_unit_test (a_wandering_undo_never_loses_its_place),
    cmocka_unit_test (edits_between_begin_and_commit_are_one_step),
    cmocka_unit_test (nested_steps_join_the_outermost_and_revert_alone),
    cmocka_unit_test (a_reverted_step_leaves_no_trace),
    cmocka_unit_test (a_step_that_ends_where_it_began_is_not_kept),
    cmocka_unit_test (undo_inside_an_open_step_does_nothing),
    cmocka_unit_test (modified_compares_with_what_was_saved),
    cmocka_unit_test (a_change_tells_what_it_changed),
    cmocka_unit_test (a_change_inside_a_step_shows_at_once),
    cmocka_unit_test (beads_outside_the_lattice_are_not_there),
    cmocka_unit_test (a_refused_edit_changes_nothing_and_says_why),
    cmocka_unit_test (a_swatch_sets_the_gauge_and_sharpens_the_pitch),
  };

  return cmocka_run_group_tests_name ("project", tests, NULL, NULL);
}
