/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a kept step costs, and what the drawing does when the band changes its size. */
#include "edits.h"

#include "core/base/lattice.h"
#include "project/project-private.h"

/* Unlimited undo must stay cheap in a long life of a file. */
static void
a_million_beads_set_one_by_one_take_little_memory (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autofree char *before = bw_project_to_data (project, NULL);
  g_autofree char *after = NULL;
  int rows = bw_project_get_design (project)->band.rows;
  gsize bytes = 0;

  for (int i = 0; i < 1000000; i++) {
    int row = i % rows + 1;

    bw_project_set_bead (project, "Set bead", FALSE, row, bw_lattice_column (row, i / rows % 6),
                         (guint8)(1 + i / rows / 6) % 4);
  }
  after = bw_project_to_data (project, NULL);
  assert_int_equal (project->history.steps->len, 1000000);
  for (guint i = 0; i < project->history.steps->len; i++)
    bytes += sizeof (gpointer) + bw_step_bytes (g_ptr_array_index (project->history.steps, i));
  /* With the allocator's own 16 bytes a step this is far below 200 MB. */
  assert_true (bytes < 50 * 1000 * 1000);
  while (bw_project_can_undo (project))
    bw_project_undo (project);
  assert_text (project, before);
  while (bw_project_can_redo (project))
    bw_project_redo (project);
  assert_text (project, after);
}

/* Row r, bead j gets a colour that tells where it is. */
static void
paint (BwProject *project)
{
  const BwDrawing *drawing = bw_project_get_drawing (project);

  bw_project_begin (project, "Paint");
  for (int row = 1; row <= bw_drawing_rows (drawing); row++)
    for (int bead = 0; bead < bw_drawing_columns (drawing) / 2; bead++)
      bw_project_set_bead (project, "", FALSE, row, bw_lattice_column (row, bead),
                           (guint8)((row * row + 3 * bead) % 7 % 4));
  bw_project_commit (project);
}

static void
cells_hidden_by_fewer_rows_come_back (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  int rows = bw_project_get_design (project)->band.rows;
  g_autofree char *before = NULL;

  paint (project);
  before = bw_project_to_data (project, NULL);
  set_rows (project, "Fewer", 10);
  assert_int_equal (bw_drawing_rows (bw_project_get_drawing (project)), 10);
  set_rows (project, "As before", rows);
  assert_text (project, before);
}

static void
cells_hidden_by_fewer_columns_come_back (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autofree char *before = NULL;

  paint (project);
  before = bw_project_to_data (project, NULL);
  set_columns (project, "Narrow", 4);
  set_rows (project, "Short", 8);
  set_rows (project, "Long", (int)bw_project_forecast (project)->recommended * 2);
  set_columns (project, "Wide", 12);
  assert_text (project, before);
}

static void
a_bail_taken_away_keeps_its_drawing (void **state)
{
  g_autoptr (BwProject) project = corpus_project ("sound.bandwright");
  g_autofree char *before = bw_project_to_data (project, NULL);

  set_bail_style (project, "None", BW_BAIL_NONE);
  assert_null (bw_project_get_bail_drawing (project));
  set_bail_style (project, "Flap", BW_BAIL_FLAP);
  assert_non_null (bw_project_get_bail_drawing (project));
  assert_text (project, before);
}

static void
set_bail_size (BwProject *project, int columns, int rows)
{
  BwDesign design = *bw_project_get_design (project);
  g_autoptr (GError) error = NULL;

  design.bail.columns = columns;
  design.bail.rows = rows;
  if (!bw_project_set_design (project, "Size", &design, &error))
    fail_msg ("%s", error->message);
}

static void
a_bail_made_smaller_and_large_again_keeps_its_drawing (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autofree char *before = NULL;
  int rows, columns;

  set_bail_style (project, "Flap", BW_BAIL_FLAP);
  rows = bw_project_get_design (project)->bail.rows;
  columns = bw_project_get_design (project)->bail.columns;
  for (int row = 1; row <= rows; row++)
    for (int bead = 0; bead < columns / 2; bead++)
      assert_true (bw_project_set_bead (project, "Bead", TRUE, row, bw_lattice_column (row, bead),
                                        (guint8)((row + bead) % 4)));
  before = bw_project_to_data (project, NULL);
  set_bail_size (project, 2, 9);
  set_bail_size (project, 4, rows + 8);
  set_bail_size (project, columns, rows);
  assert_text (project, before);
}

static void
a_coloured_bail_is_saved_and_loaded_equal (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (BwProject) again = NULL;
  g_autofree char *text = NULL;
  gsize length;

  set_bail_style (project, "Ring", BW_BAIL_RING);
  assert_true (bw_project_set_bead (project, "Bead", TRUE, 5, 2, 3));
  assert_true (bw_project_set_bead (project, "Bead", TRUE, 8, 1, 1));
  assert_false (bw_project_set_bead (project, "Bead", TRUE, 5, 1, 1));
  assert_false (bw_project_set_bead (project, "Bead", TRUE, 24, 1, 1));
  text = bw_project_to_data (project, &length);
  again = bw_project_load_data (text, length, NULL);
  assert_non_null (again);
  assert_int_equal (bw_drawing_get (bw_project_get_bail_drawing (again), 5, 2), 3);
  assert_int_equal (bw_drawing_get (bw_project_get_bail_drawing (again), 8, 1), 1);
  assert_text (again, text);
}

static void
a_new_bail_is_plain_in_the_bands_ground (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  guint64 counts[256] = { 0 };
  BwTray tray = *bw_project_get_tray (project);
  g_autoptr (BwDrawing) drawing = bw_drawing_copy (bw_project_get_drawing (project));

  for (int row = 1; row <= bw_drawing_rows (drawing); row++)
    for (int bead = 0; bead < 6; bead++)
      bw_drawing_set (drawing, row, bw_lattice_column (row, bead), bead == 5 ? 1 : 3);
  assert_true (bw_project_set_drawing (project, "Fill", FALSE, drawing, NULL));
  set_bail_style (project, "Bail", BW_BAIL_RING);
  bw_drawing_count (bw_project_get_bail_drawing (project), counts);
  assert_int_equal (counts[3], bw_bail_bead_count (&bw_project_get_design (project)->bail));
  assert_int_equal (tray.n_colours, 4);
}

/* Rows 1 to `rows` in a repeat of four. */
static void
draw_repeat (BwProject *project)
{
  g_autoptr (BwDrawing) drawing = bw_drawing_copy (bw_project_get_drawing (project));

  for (int row = 1; row <= bw_drawing_rows (drawing); row++)
    for (int bead = 0; bead < bw_drawing_columns (drawing) / 2; bead++)
      bw_drawing_set (drawing, row, bw_lattice_column (row, bead), (guint8)((row + bead) % 4));
  assert_true (bw_project_set_drawing (project, "Repeat", FALSE, drawing, NULL));
}

static void
a_repeat_runs_on_into_new_rows (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  int rows = bw_project_get_design (project)->band.rows;
  const BwDrawing *drawing = bw_project_get_drawing (project);

  draw_repeat (project);
  set_rows (project, "Grow", rows + 30);
  for (int row = 1; row <= rows + 30; row++)
    for (int bead = 0; bead < 6; bead++)
      assert_int_equal (bw_drawing_get (drawing, row, bw_lattice_column (row, bead)),
                        (row + bead) % 4);
}

static void
without_a_repeat_new_rows_take_the_ground (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  int rows = bw_project_get_design (project)->band.rows;
  const BwDrawing *drawing = bw_project_get_drawing (project);

  bw_project_set_bead (project, "Spot", FALSE, 5, 4, 2);
  set_columns (project, "Wider", 16);
  set_rows (project, "Longer", rows + 7);
  for (int row = 1; row <= rows + 7; row++)
    for (int bead = 0; bead < 8; bead++)
      assert_int_equal (bw_drawing_get (drawing, row, bw_lattice_column (row, bead)),
                        row == 5 && bw_lattice_column (row, bead) == 4 ? 2 : 0);
}

static void
hidden_rows_come_back_before_a_repeat_runs_on (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  int rows = bw_project_get_design (project)->band.rows;
  const BwDrawing *drawing = bw_project_get_drawing (project);

  draw_repeat (project);
  set_rows (project, "Fewer", 12);
  set_rows (project, "Far more", rows + 8);
  for (int row = 1; row <= rows + 8; row++)
    assert_int_equal (bw_drawing_get (drawing, row, bw_lattice_column (row, 2)), (row + 2) % 4);
}

static void
what_a_growth_filled_is_forgotten_with_its_undo (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  int rows = bw_project_get_design (project)->band.rows;
  const BwDrawing *drawing = bw_project_get_drawing (project);

  set_rows (project, "Grow", rows + 8);
  bw_project_set_bead (project, "Spot", FALSE, rows + 3, bw_lattice_column (rows + 3, 0), 3);
  bw_project_undo (project);
  bw_project_undo (project);
  draw_repeat (project);
  set_rows (project, "Grow again", rows + 8);
  for (int row = 1; row <= rows + 8; row++)
    assert_int_equal (bw_drawing_get (drawing, row, bw_lattice_column (row, 0)), row % 4);
}

static void
undoing_a_resize_restores_hidden_cells (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  int rows = bw_project_get_design (project)->band.rows;
  g_autofree char *before = NULL;

  paint (project);
  before = bw_project_to_data (project, NULL);
  set_rows (project, "Fewer", 10);
  bw_project_set_bead (project, "Spot", FALSE, 1, 2, 3);
  bw_project_remove_colour (project, "Remove", 1, 2, NULL);
  bw_project_undo (project);
  bw_project_undo (project);
  bw_project_undo (project);
  assert_text (project, before);
  set_rows (project, "Fewer", 10);
  set_rows (project, "As before", rows);
  assert_text (project, before);
}

static void
removing_a_colour_reaches_hidden_cells_too (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  const BwDrawing *drawing = bw_project_get_drawing (project);
  int rows = bw_project_get_design (project)->band.rows;
  g_autoptr (BwDrawing) old = NULL;

  paint (project);
  old = bw_drawing_copy (drawing);
  set_rows (project, "Fewer", 10);
  assert_true (bw_project_remove_colour (project, "Remove", 1, 3, NULL));
  set_rows (project, "As before", rows);
  assert_int_equal (bw_project_get_tray (project)->n_colours, 3);
  for (int row = 1; row <= rows; row++)
    for (int bead = 0; bead < 6; bead++) {
      static const guint8 became[] = { 0, 2, 1, 2 };
      int column = bw_lattice_column (row, bead);

      assert_int_equal (bw_drawing_get (drawing, row, column),
                        became[bw_drawing_get (old, row, column)]);
    }
}

/* The letter of every bead, hidden ones included, is what it was. */
static void
moving_a_colour_leaves_every_bead_its_colour (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  const BwDrawing *drawing = bw_project_get_drawing (project);
  int rows = bw_project_get_design (project)->band.rows;
  g_autoptr (BwDrawing) old = NULL;
  BwTray tray;

  paint (project);
  old = bw_drawing_copy (drawing);
  tray = *bw_project_get_tray (project);
  set_rows (project, "Fewer", 10);
  assert_true (bw_project_move_colour (project, "Move", 0, 2));
  assert_false (bw_project_move_colour (project, "Move", 0, tray.n_colours));
  assert_false (bw_project_move_colour (project, "Move", -1, 0));
  set_rows (project, "As before", rows);
  assert_int_equal (bw_project_get_tray (project)->colour[2].id, tray.colour[0].id);
  assert_int_equal (bw_project_get_tray (project)->colour[0].id, tray.colour[1].id);
  for (int row = 1; row <= rows; row++)
    for (int bead = 0; bead < 6; bead++) {
      int column = bw_lattice_column (row, bead);
      int now = bw_drawing_get (drawing, row, column), then = bw_drawing_get (old, row, column);

      assert_int_equal (bw_project_get_tray (project)->colour[now].id, tray.colour[then].id);
    }
}

static void
another_tray_recolours_hidden_beads_too (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  const BwDrawing *drawing = bw_project_get_drawing (project);
  int rows = bw_project_get_design (project)->band.rows;
  g_autofree char *before = NULL;
  g_autoptr (BwDrawing) old = NULL;
  g_autoptr (GError) error = NULL;
  BwTray tray = { 2, { { 'x', "One", 0x111111, 0 }, { 'y', "Two", 0xeeeeee, 0 } } };
  guint8 map[256] = { 1, 0, 1, 0 }, none[256] = { 0, 1, 2, 3 };

  paint (project);
  old = bw_drawing_copy (drawing);
  before = bw_project_to_data (project, NULL);
  assert_false (bw_project_replace_tray (project, "Tray", &tray, none, &error));
  assert_fault (error, BW_FAULT_RANGE, "/tray");
  set_rows (project, "Fewer", 10);
  assert_true (bw_project_replace_tray (project, "Tray", &tray, map, NULL));
  set_rows (project, "As before", rows);
  for (int row = 1; row <= rows; row++)
    for (int bead = 0; bead < 6; bead++) {
      int column = bw_lattice_column (row, bead);

      assert_int_equal (bw_drawing_get (drawing, row, column),
                        map[bw_drawing_get (old, row, column)]);
    }
  bw_project_go_to (project, 1);
  assert_text (project, before);
}

static void
a_smaller_tray_is_refused_while_beads_shown_need_it (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwTray tray = *bw_project_get_tray (project);
  int rows = bw_project_get_design (project)->band.rows;
  const BwDrawing *drawing = bw_project_get_drawing (project);
  g_autoptr (GError) error = NULL;

  bw_project_set_bead (project, "Spot", FALSE, rows, 1, 3);
  tray.n_colours = 3;
  assert_false (bw_project_set_tray (project, "Smaller", &tray, &error));
  assert_fault (error, BW_FAULT_RANGE, "/tray");
  set_rows (project, "Fewer", rows - 2);
  assert_true (bw_project_set_tray (project, "Smaller", &tray, NULL));
  set_rows (project, "As before", rows);
  assert_int_equal (bw_drawing_get (drawing, rows, 1), 0);
  bw_project_undo (project);
  bw_project_undo (project);
  bw_project_undo (project);
  assert_int_equal (bw_drawing_get (drawing, rows, 1), 3);
}

static void
unknown_keys_stay_with_their_colour (void **state)
{
  g_autoptr (BwProject) project = corpus_project ("sound.bandwright");
  g_autofree char *before = bw_project_to_data (project, NULL);
  BwTray tray = *bw_project_get_tray (project), swapped = tray;
  g_autofree char *text = NULL;

  swapped.colour[0] = tray.colour[1];
  swapped.colour[1] = tray.colour[0];
  swapped.colour[1].id = 'q';
  assert_true (bw_project_set_tray (project, "Letter and place", &swapped, NULL));
  bw_project_undo (project);
  assert_text (project, before);
  tray.colour[0].id = 'q';
  assert_true (bw_project_set_tray (project, "Letter", &tray, NULL));
  text = bw_project_to_data (project, NULL);
  assert_non_null (strstr (text,
                           "{ \"id\": \"q\", \"name\": \"Night water\", \"srgb\": \"#1b2a41\", "
                           "\"finish\": \"matte\", \"article\": \"NW-11\", \"in_hand_g\": 2.5, "
                           "\"bag\": 3 }"));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_million_beads_set_one_by_one_take_little_memory),
    cmocka_unit_test (cells_hidden_by_fewer_rows_come_back),
    cmocka_unit_test (cells_hidden_by_fewer_columns_come_back),
    cmocka_unit_test (a_bail_taken_away_keeps_its_drawing),
    cmocka_unit_test (a_bail_made_smaller_and_large_again_keeps_its_drawing),
    cmocka_unit_test (a_coloured_bail_is_saved_and_loaded_equal),
    cmocka_unit_test (a_new_bail_is_plain_in_the_bands_ground),
    cmocka_unit_test (a_repeat_runs_on_into_new_rows),
    cmocka_unit_test (without_a_repeat_new_rows_take_the_ground),
    cmocka_unit_test (hidden_rows_come_back_before_a_repeat_runs_on),
    cmocka_unit_test (what_a_growth_filled_is_forgotten_with_its_undo),
    cmocka_unit_test (undoing_a_resize_restores_hidden_cells),
    cmocka_unit_test (moving_a_colour_leaves_every_bead_its_colour),
    cmocka_unit_test (removing_a_colour_reaches_hidden_cells_too),
    cmocka_unit_test (another_tray_recolours_hidden_beads_too),
    cmocka_unit_test (a_smaller_tray_is_refused_while_beads_shown_need_it),
    cmocka_unit_test (unknown_keys_stay_with_their_colour),
  };

  return cmocka_run_group_tests_name ("history", tests, NULL, NULL);
}
