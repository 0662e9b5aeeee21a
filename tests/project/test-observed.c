/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a project says of the hands, as the book takes it. */
#include "config.h"

#include "fixture.h"
#include "project/book/book-file.h"
#include "project/observed.h"

#include <glib/gstdio.h>
#include <string.h>

static void
an_id_is_kept_and_goes_with_the_file (void **state)
{
  g_autoptr (BwProject) project = corpus_project ("sound.bandwright");
  assert_string_equal (bw_project_get_id (project), "");
  bw_project_ensure_id (project);
  g_autofree char *id = g_strdup (bw_project_get_id (project));
  assert_true (strlen (id) > 8 && strlen (id) < BW_WOVEN_ID_BYTES);
  bw_project_ensure_id (project);
  assert_string_equal (bw_project_get_id (project), id);
  gsize length;
  g_autofree char *text = bw_project_to_data (project, &length);
  g_autoptr (BwProject) again = bw_project_load_data (text, length, NULL);
  assert_string_equal (bw_project_get_id (again), id);
  g_autofree char *same = bw_project_to_data (again, NULL);
  assert_string_equal (same, text);
}

static void
two_projects_never_share_an_id (void **state)
{
  g_autoptr (BwProject) one = corpus_project ("sound.bandwright");
  g_autoptr (BwProject) other = corpus_project ("sound.bandwright");
  bw_project_ensure_id (one);
  bw_project_ensure_id (other);
  assert_string_not_equal (bw_project_get_id (one), bw_project_get_id (other));
}

static void
swatch_and_strip_lengths_are_what_was_observed (void **state)
{
  g_autoptr (BwProject) project = corpus_project ("sound.bandwright");
  const BwDesign *design = bw_project_get_design (project);
  g_auto (BwWoven) piece = { 0 };
  int n;
  const BwCheck *checks = bw_project_get_checks (project, &n);
  bw_project_ensure_id (project);
  assert_true (bw_observed_piece (&piece, project, "2026-11-29"));
  assert_string_equal (piece.id, bw_project_get_id (project));
  assert_string_equal (piece.bead, design->bead.name);
  assert_int_equal (piece.swatch.rows, design->gauge.swatch.rows);
  assert_true (piece.swatch.length_mm > 0);
  assert_memory_equal (&piece.swatch.length_mm, &design->gauge.swatch.length_mm, sizeof (double));
  assert_true (n > 0);
  assert_int_equal (piece.checks->len, n);
  for (int i = 0; i < n; i++)
    assert_int_equal (g_array_index (piece.checks, BwCheck, i).rows, checks[i].rows);
  assert_true (bw_woven_validate (&piece, "", NULL));
}

static void
what_was_never_measured_says_nothing (void **state)
{
  g_autoptr (BwProject) project = corpus_project ("sound.bandwright");
  g_auto (BwWoven) piece = { 0 };
  BwDesign design = *bw_project_get_design (project);
  design.gauge.has_swatch = FALSE;
  assert_true (bw_project_set_design (project, "", &design, NULL));
  assert_true (bw_project_set_progress (project, "", 0, NULL, 0, NULL));
  assert_false (bw_observed_piece (&piece, project, "2026-11-29"));
  assert_true (bw_observed_note (project, "/no/such/folder/book.json", "2026-11-29", NULL));
}

/* What the maker said in the book of a piece outlives the project's next save. */
static void
what_only_the_book_knows_stays_there (void **state)
{
  g_autofree char *folder = g_dir_make_tmp ("bandwright-observed-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "book.json", NULL);
  g_autofree char *lock = g_strconcat (path, ".lock", NULL),
                  *backup = g_strconcat (path, "~", NULL);
  g_autofree char *text = NULL;
  g_autoptr (BwProject) project = corpus_project ("sound.bandwright");
  g_autoptr (GError) error = NULL;
  bw_project_ensure_id (project);
  text = g_strdup_printf ("{\"format\": \"bandwright-book\", \"version\": 1, \"pieces\": [{\"id\": "
                          "\"%s\", \"diameter_mm\": 1.6, \"date\": \"2026-01-02\", "
                          "\"left_out\": true, \"thread\": \"gel-spun thread\"}]}",
                          bw_project_get_id (project));
  assert_true (g_file_set_contents (path, text, -1, NULL));
  assert_true (bw_observed_note (project, path, "2026-11-29", &error));
  g_autoptr (BwBook) book = bw_book_load (path, NULL);
  const BwWoven *piece = bw_book_get_piece (book, 0);
  assert_int_equal (bw_book_n_pieces (book), 1);
  assert_true (piece->left_out && piece->has_swatch);
  assert_string_equal (piece->date, "2026-01-02");
  assert_string_equal (piece->thread, "gel-spun thread");
  g_remove (path);
  g_remove (lock);
  g_remove (backup);
  assert_int_equal (g_rmdir (folder), 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (an_id_is_kept_and_goes_with_the_file),
    cmocka_unit_test (two_projects_never_share_an_id),
    cmocka_unit_test (swatch_and_strip_lengths_are_what_was_observed),
    cmocka_unit_test (what_was_never_measured_says_nothing),
    cmocka_unit_test (what_only_the_book_knows_stays_there),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
