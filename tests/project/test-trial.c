/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A trial shows and leaves no trace; kept it is one step; and the history can be gone through by
 * number. */
#include "edits.h"

#include "core/base/lattice.h"

static BwDrawing *
striped (BwProject *project, guint8 colour)
{
  BwDrawing *drawing = bw_drawing_copy (bw_project_get_drawing (project));
  for (int row = 1; row <= bw_drawing_rows (drawing); row++)
    bw_drawing_set (drawing, row, bw_lattice_column (row, 2), colour);
  return drawing;
}

static void
try_stripe (BwProject *project, guint8 colour)
{
  g_autoptr (BwDrawing) drawing = striped (project, colour);
  g_autoptr (GError) error = NULL;
  if (!bw_project_try (project, "Stripe", NULL, drawing, &error))
    fail_msg ("%s", error->message);
  assert_true (bw_project_has_trial (project));
  assert_true (bw_drawing_equal (bw_project_shown_drawing (project), drawing));
}

static void
a_trial_is_shown_but_neither_saved_nor_a_step (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autofree char *before = bw_project_to_data (project, NULL);
  g_autoptr (BwDrawing) plain = bw_drawing_copy (bw_project_get_drawing (project));
  try_stripe (project, 1);
  assert_true (bw_drawing_equal (bw_project_get_drawing (project), plain));
  assert_false (bw_project_get_modified (project));
  assert_int_equal (bw_project_count_steps (project), 0);
  assert_text (project, before);
  assert_int_equal (bw_drawing_get (bw_project_shown_drawing (project), 1, 6), 1);
  bw_project_drop_trial (project);
  assert_false (bw_project_has_trial (project));
  assert_int_equal (bw_drawing_get (bw_project_shown_drawing (project), 1, 6), 0);
  assert_text (project, before);
  assert_false (bw_project_can_undo (project));
}

static void
a_later_trial_takes_the_place_of_the_earlier (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autofree char *before = bw_project_to_data (project, NULL);
  for (guint8 colour = 1; colour < 4; colour++)
    try_stripe (project, colour);
  bw_project_drop_trial (project);
  assert_text (project, before);
}

static void
a_trial_kept_is_one_step_by_its_name (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autofree char *before = bw_project_to_data (project, NULL);
  try_stripe (project, 1);
  try_stripe (project, 2);
  bw_project_keep_trial (project);
  assert_int_equal (bw_project_count_steps (project), 1);
  assert_string_equal (bw_project_undo_label (project), "Stripe");
  assert_int_equal (bw_drawing_get (bw_project_get_drawing (project), 1, 6), 2);
  bw_project_undo (project);
  assert_text (project, before);
}

static void
undo_takes_a_trial_back_and_nothing_else (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  bw_project_set_bead (project, "Spot", FALSE, 1, 2, 3);
  g_autofree char *before = bw_project_to_data (project, NULL);
  try_stripe (project, 1);
  assert_string_equal (bw_project_undo_label (project), "Stripe");
  bw_project_undo (project);
  assert_text (project, before);
  assert_int_equal (bw_project_get_position (project), 1);
}

/* Edits as a panel makes them: what is to be changed is read first, and set when it is done. */
static void
set_what_was_read (BwProject *project, GRand *rand)
{
  BwTray tray = *bw_project_get_tray (project);
  g_autoptr (BwDrawing) drawing = bw_drawing_copy (bw_project_get_drawing (project));
  tray.colour[0].srgb = g_rand_int (rand) & 0xffffff;
  bw_drawing_set (drawing, 1, 2, (guint8)g_rand_int_range (rand, 0, tray.n_colours));
  bw_project_set_tray (project, "Colour", &tray, NULL);
  bw_project_set_drawing (project, "Draw", FALSE, drawing, NULL);
}

static void
lay_another_tray (BwProject *project, GRand *rand)
{
  BwTray tray = *bw_project_get_tray (project);
  guint8 map[256];
  for (int i = 0; i < 256; i++)
    map[i] = (guint8)g_rand_int_range (rand, 0, tray.n_colours);
  bw_project_replace_tray (project, "Tray", &tray, map, NULL);
}

/* A stroke: many beads of an open step, kept or taken back. */
static void
draw_a_stroke (BwProject *project, GRand *rand)
{
  const BwBeadColour beads[] = { { 1, 2, 1 }, { 2, 1, 3 }, { 3, 2, 0 } };
  bw_project_begin (project, "Stroke");
  bw_project_set_beads (project, "", FALSE, beads, G_N_ELEMENTS (beads));
  if (g_rand_boolean (rand))
    bw_project_commit (project);
  else
    bw_project_revert (project);
}

static void
go_back_and_on (BwProject *project, GRand *rand)
{
  if (g_rand_boolean (rand))
    bw_project_go_to (project, 0);
  else
    bw_project_redo (project);
  bw_project_redo (project);
}

static void
move_or_remove_a_colour (BwProject *project, GRand *rand)
{
  if (g_rand_boolean (rand))
    bw_project_move_colour (project, "Move", 0, 2);
  else
    bw_project_remove_colour (project, "Remove", 2, 0, NULL);
}

static void
set_words (BwProject *project, GRand *rand)
{
  bw_project_set_title (project, "Title", g_rand_boolean (rand) ? "Other" : "");
  bw_project_set_mineral (project, "Mineral", g_rand_boolean (rand) ? "Quartz" : "");
}

static void (*const edits[]) (BwProject *project, GRand *rand) = {
  edit_somehow,         edit_design_somehow,     edit_tray_somehow, edit_progress_somehow,
  edit_drawing_somehow, set_what_was_read,       lay_another_tray,  draw_a_stroke,
  go_back_and_on,       move_or_remove_a_colour, set_words,
};

/* A trial with a colour of its own: an edit begun on it would carry that along. */
static void
try_something (BwProject *project)
{
  BwTray tray = *bw_project_get_tray (project);
  const BwDrawing *now = bw_project_get_drawing (project);
  g_autoptr (BwDrawing) drawing
      = bw_drawing_new (bw_drawing_columns (now), bw_drawing_rows (now), (guint8)tray.n_colours);
  tray.colour[tray.n_colours]
      = (BwColour){ bw_tray_free_letter (&tray), "Own", 0x123456, BW_FINISH_MATTE };
  tray.n_colours++;
  if (!bw_project_try (project, "Picture", &tray, drawing, NULL))
    fail ();
}

/* The same edits on two projects, one with a trial shown before each: the same document, and the
 * same values that follow from it. */
static void
no_edit_begins_on_a_trial (void **state)
{
  GRand *rand = g_rand_new_with_seed (31);
  for (gsize i = 0; i < 12 * G_N_ELEMENTS (edits); i++) {
    g_autoptr (BwProject) plain = bw_project_new (), tried = bw_project_new ();
    g_autoptr (GRand) here = g_rand_new_with_seed (g_rand_int (rand));
    g_autoptr (GRand) there = g_rand_copy (here);
    bw_project_set_bead (plain, "Spot", FALSE, 3, 2, 1);
    bw_project_set_bead (tried, "Spot", FALSE, 3, 2, 1);
    for (int k = 0; k < 3; k++) {
      try_something (tried);
      edits[i % G_N_ELEMENTS (edits)](plain, here);
      edits[i % G_N_ELEMENTS (edits)](tried, there);
      g_autofree char *wanted = bw_project_to_data (plain, NULL);
      assert_text (tried, wanted);
      assert_int_equal (bw_project_count_steps (tried), bw_project_count_steps (plain));
      assert_true (bw_project_materials (tried)->total_grams
                   == bw_project_materials (plain)->total_grams);
      assert_int_equal (bw_project_join (tried)->repeat_rows, bw_project_join (plain)->repeat_rows);
    }
    bw_project_drop_trial (tried);
    assert_true (
        bw_drawing_equal (bw_project_shown_drawing (tried), bw_project_get_drawing (plain)));
  }
  g_rand_free (rand);
}

static void
a_trial_may_bring_colours_of_its_own (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autofree char *before = bw_project_to_data (project, NULL);
  BwTray tray = *bw_project_get_tray (project);
  guint8 own = (guint8)tray.n_colours;
  g_autoptr (BwDrawing) drawing = striped (project, own);
  g_autoptr (GError) error = NULL;
  assert_false (bw_project_try (project, "Picture", NULL, drawing, &error));
  assert_fault (error, BW_FAULT_RANGE, "/band/cells");
  assert_false (bw_project_has_trial (project));
  tray.colour[own] = (BwColour){ bw_tray_free_letter (&tray), "Own", 0x123456, BW_FINISH_MATTE };
  tray.n_colours++;
  assert_true (bw_project_try (project, "Picture", &tray, drawing, NULL));
  assert_int_equal (bw_project_shown_tray (project)->n_colours, own + 1);
  assert_int_equal (bw_project_get_tray (project)->n_colours, own);
  assert_text (project, before);
  /* A bead of a colour that only the trial has cannot be set. */
  assert_false (bw_project_set_bead (project, "Bead", FALSE, 1, 2, own));
  assert_text (project, before);
  assert_true (bw_project_try (project, "Picture", &tray, drawing, NULL));
  bw_project_keep_trial (project);
  assert_int_equal (bw_project_get_tray (project)->n_colours, own + 1);
  bw_project_undo (project);
  assert_text (project, before);
}

static void
a_trial_waits_for_an_open_step (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (BwDrawing) drawing = striped (project, 1);
  g_autoptr (GError) error = NULL;
  bw_project_begin (project, "Stroke");
  assert_false (bw_project_try (project, "Stripe", NULL, drawing, &error));
  assert_fault (error, BW_FAULT_RANGE, "");
  bw_project_revert (project);
}

static void
saving_with_a_trial_shown_saves_without_it (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (GFileIOStream) stream = NULL;
  g_autoptr (GFile) file = g_file_new_tmp ("trial-XXXXXX.bandwright", &stream, NULL);
  bw_project_set_bead (project, "Spot", FALSE, 1, 2, 3);
  g_autofree char *before = bw_project_to_data (project, NULL);
  try_stripe (project, 1);
  assert_true (bw_project_save (project, file, NULL));
  assert_true (bw_project_has_trial (project));
  assert_false (bw_project_get_modified (project));
  g_autoptr (BwProject) loaded = bw_project_load (file, NULL);
  assert_text (loaded, before);
  g_file_delete (file, NULL, NULL);
}

static void
count_change (BwProject *project, guint what, gpointer data)
{
  ++*(int *)data;
}

static void
the_history_is_gone_through_by_number_in_one_change (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  GPtrArray *texts = g_ptr_array_new_with_free_func (g_free);
  GRand *rand = g_rand_new_with_seed (32);
  g_ptr_array_add (texts, bw_project_to_data (project, NULL));
  for (int i = 1; i <= 20; i++) {
    g_autofree char *label = g_strdup_printf ("Spot %d", i);
    bw_project_set_bead (project, label, FALSE, 2 * i - 1, 2, 1);
    g_ptr_array_add (texts, bw_project_to_data (project, NULL));
  }
  assert_int_equal (bw_project_count_steps (project), 20);
  assert_string_equal (bw_project_step_label (project, 7), "Spot 7");
  int changes = 0;
  g_signal_connect (project, "changed", G_CALLBACK (count_change), &changes);
  for (int i = 0; i < 100; i++) {
    guint to = (guint)g_rand_int_range (rand, 0, 21);
    gboolean moves = to != bw_project_get_position (project);
    changes = 0;
    bw_project_go_to (project, to);
    assert_int_equal (changes, moves);
    assert_int_equal (bw_project_get_position (project), to);
    assert_text (project, g_ptr_array_index (texts, to));
  }
  bw_project_go_to (project, 1000);
  assert_int_equal (bw_project_get_position (project), 20);
  g_ptr_array_unref (texts);
  g_rand_free (rand);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_trial_is_shown_but_neither_saved_nor_a_step),
    cmocka_unit_test (a_later_trial_takes_the_place_of_the_earlier),
    cmocka_unit_test (a_trial_kept_is_one_step_by_its_name),
    cmocka_unit_test (undo_takes_a_trial_back_and_nothing_else),
    cmocka_unit_test (no_edit_begins_on_a_trial),
    cmocka_unit_test (a_trial_may_bring_colours_of_its_own),
    cmocka_unit_test (a_trial_waits_for_an_open_step),
    cmocka_unit_test (saving_with_a_trial_shown_saves_without_it),
    cmocka_unit_test (the_history_is_gone_through_by_number_in_one_change),
  };
  return cmocka_run_group_tests_name ("trial", tests, NULL, NULL);
}
