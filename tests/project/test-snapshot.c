/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Snapshots: a project as it was, whatever is done to it meanwhile and on whatever thread it is
 * written out. And what two states of a project are said to differ in. */
#include "edits.h"

#include "project/differences.h"
#include "project/snapshot.h"

#include <string.h>

static BwProject *
load (const char *text)
{
  g_autoptr (GError) error = NULL;
  BwProject *project = bw_project_load_data (text, strlen (text), &error);

  if (!project)
    fail_msg ("%s", error->message);
  return project;
}

/* A project with keys that the program does not know at every kind of place, of every kind. */
static BwProject *
strange_project (void)
{
  static const char *const places[][2] = {
    { "{\n", "{\n  \"x-root\": { \"list\": [1, 2.5, null, true, \"é\", { \"deep\": [[]] }] },\n" },
    { "\"stone\": {", "\"stone\": { \"x-stone\": -0.125," },
    { "\"tray\": [\n    {", "\"tray\": [\n    { \"x-colour\": { \"article\": \"7\" }," },
    { "\"checks\": []", "\"checks\": [{ \"rows\": 20, \"length_mm\": 16, \"x-check\": [false] }]" },
  };
  g_autoptr (BwProject) plain = bw_project_new ();
  g_autofree char *text = bw_project_to_data (plain, NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (places); i++) {
    g_auto (GStrv) parts = g_strsplit (text, places[i][0], 2);

    if (g_strv_length (parts) != 2)
      fail_msg ("%s is not in the file", places[i][0]);
    g_free (text);
    text = g_strjoin (places[i][1], parts[0], parts[1], NULL);
  }
  return load (text);
}

static void
a_snapshot_is_what_would_be_saved_unknown_keys_and_all (void **state)
{
  g_autoptr (BwProject) project = strange_project ();
  g_autofree char *saved = bw_project_to_data (project, NULL);
  g_autoptr (BwSnapshot) snapshot = bw_snapshot_new (project);
  gsize length;
  g_autofree char *text = bw_snapshot_to_data (snapshot, &length);

  assert_string_equal (text, saved);
  assert_int_equal (length, strlen (saved));
  assert_non_null (strstr (text, "x-colour"));
  assert_non_null (strstr (text, "x-check"));
}

static void
a_snapshot_does_not_follow_the_project_and_outlives_it (void **state)
{
  BwProject *project = strange_project ();
  g_autofree char *before = bw_project_to_data (project, NULL), *text = NULL;
  g_autoptr (BwSnapshot) snapshot = bw_snapshot_new (project);

  bw_project_set_title (project, "Title", "Neap");
  set_rows (project, "Rows", 30);
  assert_true (bw_project_set_bead (project, "Bead", FALSE, 3, 2, 0));
  set_bail_style (project, "Bail", BW_BAIL_FLAP);
  g_object_unref (project);
  text = bw_snapshot_to_data (snapshot, NULL);
  assert_string_equal (text, before);
}

static gpointer
write_out (gpointer snapshot)
{
  return bw_snapshot_to_data (snapshot, NULL);
}

/* A sanitizer for threads would tell a count that both sides touch; a wrong text is told here. */
static void
snapshots_are_written_out_while_the_maker_goes_on (void **state)
{
  g_autoptr (BwProject) project = strange_project ();

  for (int i = 0; i < 50; i++) {
    g_autofree char *before = bw_project_to_data (project, NULL), *text = NULL;
    g_autoptr (BwSnapshot) snapshot = bw_snapshot_new (project);
    GThread *thread = g_thread_new ("writer", write_out, snapshot);

    for (int k = 0; k < 20; k++)
      set_rows (project, "Rows", 20 + 2 * ((i + k) % 30));
    g_free (bw_project_to_data (project, NULL));
    text = g_thread_join (thread);
    assert_string_equal (text, before);
  }
}

/* --- Differences -------------------------------------------------------------------------------
 */

static void
expect_differences (BwProject *here, BwProject *file, const char *words)
{
  g_auto (GStrv) lines = bw_project_differences (here, file);
  g_autofree char *joined = g_strjoinv ("\n", lines);

  assert_string_equal (joined, words);
}

static void
the_same_piece_differs_in_nothing (void **state)
{
  g_autoptr (BwProject) here = bw_project_new (), file = strange_project ();
  g_autofree char *text = bw_project_to_data (here, NULL);
  g_autoptr (BwProject) again = load (text);

  expect_differences (here, again, "");
  expect_differences (here, file,
                      "Other lengths were measured at the bench in the file.\n"
                      "Other values in the file: how the beads lie.");
}

static void
what_differs_is_told_with_what_is_at_stake_first (void **state)
{
  g_autoptr (BwProject) here = bw_project_new ();
  g_autofree char *text = bw_project_to_data (here, NULL);
  g_autoptr (BwProject) file = load (text);
  BwTray tray = *bw_project_get_tray (file);
  BwDesign design = *bw_project_get_design (file);

  tray.colour[tray.n_colours] = tray.colour[0];
  tray.colour[tray.n_colours++].id = bw_tray_free_letter (bw_project_get_tray (file));
  assert_true (bw_project_set_tray (file, "Tray", &tray, NULL));
  for (int row = 1; row <= 5; row += 2)
    assert_true (bw_project_set_bead (file, "Bead", FALSE, row, 2, (guint8)(tray.n_colours - 1)));
  design.bed.squeeze = 0.2;
  assert_true (bw_project_set_design (file, "Bed", &design, NULL));
  assert_true (bw_project_set_progress (file, "Row", 12, NULL, 0, NULL));
  bw_project_set_title (here, "Title", "Neap");
  bw_project_set_title (file, "Title",
                        "A title that goes on for so long that nobody would read all of it");
  expect_differences (here, file,
                      "Its title is “Neap” here and “A title that goes on for so long that n…” in "
                      "the file.\n"
                      "Rows woven: 0 here, 12 in the file.\n"
                      "3 beads of the band have another colour in the file.\n"
                      "The tray holds other colours in the file.\n"
                      "Other values in the file: the bed.");
}

static void
a_title_that_there_is_not_is_told_to_be_none (void **state)
{
  g_autoptr (BwProject) here = bw_project_new ();
  bw_project_set_title (here, "Title", "");
  g_autofree char *text = bw_project_to_data (here, NULL);
  g_autoptr (BwProject) file = load (text);
  bw_project_set_title (file, "Title", "Neap");
  expect_differences (here, file, "It has no title here and the title “Neap” in the file.");
  expect_differences (file, here, "Its title is “Neap” here; in the file it has none.");
}

static void
bands_of_other_sizes_are_told_by_their_sizes (void **state)
{
  g_autoptr (BwProject) here = bw_project_new ();
  g_autofree char *text = bw_project_to_data (here, NULL), *words = NULL;
  g_autoptr (BwProject) file = load (text);
  int columns = bw_project_get_design (here)->band.columns;
  int rows = bw_project_get_design (here)->band.rows;

  set_rows (file, "Rows", rows - 4);
  words = g_strdup_printf (
      "The band has %d columns and %d rows here, %d columns and %d rows in the file.", columns,
      rows, columns, rows - 4);
  expect_differences (here, file, words);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_snapshot_is_what_would_be_saved_unknown_keys_and_all),
    cmocka_unit_test (a_snapshot_does_not_follow_the_project_and_outlives_it),
    cmocka_unit_test (snapshots_are_written_out_while_the_maker_goes_on),
    cmocka_unit_test (the_same_piece_differs_in_nothing),
    cmocka_unit_test (what_differs_is_told_with_what_is_at_stake_first),
    cmocka_unit_test (a_title_that_there_is_not_is_told_to_be_none),
    cmocka_unit_test (bands_of_other_sizes_are_told_by_their_sizes),
  };

  return cmocka_run_group_tests_name ("snapshot", tests, NULL, NULL);
}
