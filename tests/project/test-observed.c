/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a project says of the hands, as the book takes it. */
#include "config.h"

#include "fixture.h"
#include "project/book/book-done.h"
#include "project/book/book-file.h"
#include "project/observed.h"

#include <glib/gstdio.h>
#include <math.h>
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

/* --- Finished ----------------------------------------------------------------------------------
 */

static BwDone
some_done (BwProject *project)
{
  int rows = bw_project_get_design (project)->band.rows;
  return (BwDone){ .rows = rows + 2,
                   .planned = rows,
                   .told = 0.625,
                   .hours = 6.5,
                   .price = 120,
                   .picture = "kelp.jpg",
                   .fate = BW_FATE_SOLD };
}

static void
a_finished_piece_comes_back_and_is_one_step_of_undo (void **state)
{
  g_autoptr (BwProject) project = corpus_project ("sound.bandwright");
  g_autofree char *before = bw_project_to_data (project, NULL);
  BwDone done = some_done (project);
  gsize length;
  assert_true (bw_project_set_done (project, "Finished", &done, NULL));
  g_autofree char *text = bw_project_to_data (project, &length);
  g_autoptr (BwProject) again = bw_project_load_data (text, length, NULL);
  assert_true (bw_done_equal (bw_project_get_done (again), &done));
  g_autofree char *same = bw_project_to_data (again, NULL);
  assert_string_equal (same, text);
  bw_project_undo (project);
  g_autofree char *after = bw_project_to_data (project, NULL);
  assert_string_equal (after, before);
  assert_int_equal (bw_project_get_done (project)->rows, 0);
}

/* With these members of "finished"; NULL when it is refused. */
static BwProject *
project_finished (const char *members, GError **error)
{
  g_autoptr (BwProject) project = corpus_project ("least.bandwright");
  g_autofree char *text = bw_project_to_data (project, NULL);
  char *end = strrchr (text, '}');
  *end = '\0';
  g_autofree char *whole = g_strdup_printf ("%s, \"finished\": %s}", text, members);
  return bw_project_load_data (whole, strlen (whole), error);
}

static void
what_cannot_be_of_a_finished_piece_is_refused_by_name (void **state)
{
  static const char *const bad[][2] = {
    { "[]", "/finished:" },
    { "{}", "/finished/rows:" },
    { "{\"rows\": 113}", "/finished/rows:" },
    { "{\"rows\": 4}", "/finished/rows:" },
    { "{\"rows\": 114, \"planned\": 113, \"told\": 0.5}", "/finished/planned:" },
    { "{\"rows\": 114, \"planned\": 112}", "/finished/told:" },
    { "{\"rows\": 114, \"planned\": 112, \"told\": 1.5}", "/finished/told:" },
    { "{\"rows\": 114, \"hours\": -1}", "/finished/hours:" },
    { "{\"rows\": 114, \"price\": \"much\"}", "/finished/price:" },
    { "{\"rows\": 114, \"sold\": \"lost\"}", "/finished/sold:" },
    { "{\"rows\": 114, \"picture\": \"two\\nlines\"}", "/finished/picture:" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++) {
    g_autoptr (GError) error = NULL;
    g_autoptr (BwProject) project = project_finished (bad[i][0], &error);
    assert_null (project);
    if (!g_str_has_prefix (error->message, bad[i][1]))
      fail_msg ("%s: %s", bad[i][0], error->message);
  }
}

static void
keys_that_are_not_known_stay_with_the_finished_piece (void **state)
{
  g_autoptr (BwProject) project
      = project_finished ("{\"rows\": 114, \"buyer\": \"a friend\"}", NULL);
  assert_non_null (project);
  BwDone done = *bw_project_get_done (project);
  done.hours = 3;
  assert_true (bw_project_set_done (project, "Finished", &done, NULL));
  g_autofree char *text = bw_project_to_data (project, NULL);
  assert_non_null (strstr (text, "a friend"));
}

/* A bead of another size was chosen after all was measured: the book would refuse the piece whole,
 * and every piece after it. */
static void
what_no_bead_of_the_size_can_have_is_left_out_and_the_rest_kept (void **state)
{
  g_autoptr (BwProject) project = corpus_project ("sound.bandwright");
  BwDesign design = *bw_project_get_design (project);
  BwDone done = some_done (project);
  g_auto (BwWoven) before = { 0 }, after = { 0 };
  assert_true (bw_project_set_done (project, "Finished", &done, NULL));
  assert_true (bw_observed_piece (&before, project, "2026-11-29"));
  assert_true (before.has_swatch && before.has_end && before.checks->len > 0);
  done.rows = 12;
  assert_true (bw_project_set_done (project, "Finished", &done, NULL));
  assert_true (bw_observed_piece (&after, project, "2026-11-29"));
  assert_false (after.has_end);
  assert_true (after.has_swatch);
  assert_int_equal (after.checks->len, before.checks->len);
  bw_woven_clear (&after);
  done.rows = before.end.rows;
  assert_true (bw_project_set_done (project, "Finished", &done, NULL));
  design.bead.diameter_mm *= 2;
  assert_true (bw_project_set_design (project, "Bead", &design, NULL));
  bw_observed_piece (&after, project, "2026-11-29");
  assert_false (after.has_swatch || after.has_end || (after.checks && after.checks->len > 0));
  assert_true (bw_woven_validate (&after, "", NULL));
}

static void
rows_that_cannot_come_round_the_stone_are_told_so (void **state)
{
  g_autoptr (BwProject) project = corpus_project ("sound.bandwright");
  BwDone done = some_done (project);
  int least = BW_ROWS_MAX, most = 0, n_good = 0;
  for (int rows = 6; rows <= 4 * done.rows; rows += 2) {
    g_autoptr (GError) error = NULL;
    g_auto (BwWoven) piece = { 0 };
    BwDone other = done;
    other.rows = rows;
    gboolean good = bw_observed_check_rows (project, rows, &error);
    assert_true (bw_project_set_done (project, "Finished", &other, NULL));
    bw_observed_piece (&piece, project, "2026-11-29");
    assert_int_equal (good, piece.has_end);
    least = good ? MIN (least, rows) : least;
    most = good ? rows : most;
    n_good += good;
    assert_int_equal (good, error == NULL);
    assert_true (good || g_str_has_prefix (error->message, "/finished/rows"));
  }
  /* One run of counts, from the widest pitch that hands can have to the closest. */
  assert_int_equal (n_good, (most - least) / 2 + 1);
  assert_in_range (done.rows, least, most);
  assert_true (most > 1.5 * least && most < 2.1 * least);
}

/* The count that was woven closes at the pitch the book is told, and not a hair below it. */
static void
a_finished_piece_tells_the_pitch_at_which_it_just_closed (void **state)
{
  g_autoptr (BwProject) project = corpus_project ("sound.bandwright");
  BwDone done = some_done (project);
  g_auto (BwWoven) piece = { 0 };
  BwFit fit;
  assert_true (bw_project_set_done (project, "Finished", &done, NULL));
  assert_true (bw_observed_piece (&piece, project, "2026-11-29"));
  assert_true (piece.has_end);
  assert_int_equal (piece.end.rows, done.rows);
  assert_true (bw_done_equal (&piece.end.done, &done));
  assert_string_equal (piece.title, bw_project_get_title (project));
  for (int above = 0; above <= 1; above++) {
    BwDesign design = *bw_project_get_design (project);
    gboolean closes = TRUE;
    design.tried = (BwBelief){ 0 };
    design.pitch.mm = piece.end.closing_pitch_mm * (above ? 1 + 1e-6 : 1 - 1e-6);
    bw_fit_init (&fit, &design, bw_project_stone (project), done.rows);
    for (int c = 0; c < fit.n_columns; c++)
      closes = closes && fit.column[c].closes;
    assert_int_equal (closes, above);
  }
}

static void
a_piece_without_a_title_goes_by_its_file (void **state)
{
  g_autoptr (BwProject) project = corpus_project ("sound.bandwright");
  g_autoptr (GFile) file = g_file_new_for_path ("/somewhere/My Point.bandwright");
  g_auto (BwWoven) piece = { 0 };
  bw_project_set_title (project, "Title", "");
  bw_project_set_file (project, file);
  assert_true (bw_observed_piece (&piece, project, "2026-11-29"));
  assert_string_equal (piece.title, "My Point");
}

static void
the_book_keeps_all_of_a_finished_piece (void **state)
{
  g_autoptr (BwProject) project = corpus_project ("sound.bandwright");
  g_autoptr (BwBook) book = bw_book_new ();
  g_auto (BwWoven) piece = { 0 };
  BwDone done = some_done (project);
  gsize length;
  assert_true (bw_project_set_done (project, "Finished", &done, NULL));
  bw_observed_piece (&piece, project, "2026-11-29");
  assert_true (bw_book_put_piece (book, &piece, NULL));
  g_autofree char *text = bw_book_to_data (book, &length);
  g_autoptr (BwBook) again = bw_book_from_data (text, length, NULL);
  const BwWoven *found = bw_book_get_piece (again, 0);
  assert_true (bw_done_equal (&found->end.done, &done));
  assert_string_equal (found->title, piece.title);
  assert_true (found->end.cost > 0);
  assert_string_equal (found->end.currency, "EUR");
}

/* Of ten told 72 % seven come out right; of four told 30 % one; two are not known. */
static void
what_was_told_is_set_against_what_happened (void **state)
{
  g_autoptr (BwBook) book = bw_book_new ();
  BwBookDone all;
  for (int i = 0; i < 16; i++) {
    g_auto (BwWoven) piece = { .diameter_mm = 1.6, .date = "2026-11-29", .has_end = TRUE };
    gboolean right = i < 10 ? i < 7 : i == 10;
    piece.end = (BwWovenEnd){ .rows = 114, .closing_pitch_mm = 1.6, .girth_sd_mm = 0.4 };
    piece.end.done = (BwDone){ .rows = 114, .hours = i == 0 || i == 3 ? 5.7 + i : 0 };
    piece.end.columns = i == 3 ? 20 : 0; /* older entries know of none */
    if (i < 14) {
      piece.end.done.planned = right ? 114 : 112;
      piece.end.done.told = i < 10 ? 0.72 : 0.3;
    }
    assert_true (bw_book_put_piece (book, &piece, NULL));
  }
  bw_book_done_init (&all, book);
  assert_int_equal (all.pieces, 16);
  assert_int_equal (all.planned, 14);
  assert_int_equal (all.right, 8);
  assert_int_equal (all.bin[7].pieces, 10);
  assert_int_equal (all.bin[7].right, 7);
  assert_int_equal (all.bin[3].pieces, 4);
  assert_int_equal (all.bin[3].right, 1);
  assert_true (fabs (all.told - (10 * 0.72 + 4 * 0.3) / 14) < 1e-12);
  assert_true (fabs (all.bin[7].told - 0.72) < 1e-12);
  assert_int_equal (all.hours_rows, 228);
  assert_true (fabs (all.hours - 14.4) < 1e-12);
  assert_true (fabs (bw_book_pace (book) - 57 * 20 / 8.7) < 1e-9);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (an_id_is_kept_and_goes_with_the_file),
    cmocka_unit_test (two_projects_never_share_an_id),
    cmocka_unit_test (swatch_and_strip_lengths_are_what_was_observed),
    cmocka_unit_test (what_was_never_measured_says_nothing),
    cmocka_unit_test (what_no_bead_of_the_size_can_have_is_left_out_and_the_rest_kept),
    cmocka_unit_test (rows_that_cannot_come_round_the_stone_are_told_so),
    cmocka_unit_test (a_piece_without_a_title_goes_by_its_file),
    cmocka_unit_test (what_only_the_book_knows_stays_there),
    cmocka_unit_test (a_finished_piece_comes_back_and_is_one_step_of_undo),
    cmocka_unit_test (what_cannot_be_of_a_finished_piece_is_refused_by_name),
    cmocka_unit_test (keys_that_are_not_known_stay_with_the_finished_piece),
    cmocka_unit_test (a_finished_piece_tells_the_pitch_at_which_it_just_closed),
    cmocka_unit_test (the_book_keeps_all_of_a_finished_piece),
    cmocka_unit_test (what_was_told_is_set_against_what_happened),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
