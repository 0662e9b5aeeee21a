/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What bed and thread are known to give, in the project file, in the maker's book, and from one
 * piece to the next. */
#include "config.h"

#include "fixture.h"
#include "project/book/book-file.h"
#include "project/observed.h"
#include "project/project-private.h"

#include <math.h>
#include <string.h>

#define STRETCH "\"stretch\": {\"thread_mm\": 0.15, \"slack_mm\": 48.8, \"pulled_mm\": 49.6%s}"
#define SQUEEZE                                                                                    \
  "\"squeeze\": {\"cord_width_mm\": 1, \"girth_mm\": 70, \"slack_mm\": 76, \"pulled_mm\": 74.8%s}"

static BwProject *
measured (void)
{
  BwProject *project = bw_project_new ();
  BwDesign design = *bw_project_get_design (project);
  design.thread.has_pulled = design.bed.has_pulled = TRUE;
  design.thread.pulled = (BwStretchReading){ 48.8, 49.6, BW_STRIP_BY_CALLIPER };
  design.bed.pulled = (BwSqueezeReading){ 70, 76, 74.8, BW_STRIP_BY_CALLIPER };
  assert_true (bw_project_set_design (project, "Measured", &design, NULL));
  return project;
}

static BwProject *
loaded (BwProject *project)
{
  gsize length;
  g_autofree char *text = bw_project_to_data (project, &length);
  g_autoptr (GError) error = NULL;
  BwProject *again = bw_project_load_data (text, length, &error);
  if (!again)
    fail_msg ("%s", error->message);
  return again;
}

static void
near (double a, double b)
{
  if (!(fabs (a - b) <= 1e-12))
    fail_msg ("%.17g is not %.17g", a, b);
}

/* --- The project file --------------------------------------------------------------------------
 */

static void
readings_come_back_and_the_fit_counts_on_them (void **state)
{
  g_autoptr (BwProject) project = measured ();
  g_autoptr (BwProject) again = loaded (project);
  const BwDesign *design = bw_project_get_design (again);
  const BwStretchReading *stretch = &design->thread.pulled;
  BwGive believed = bw_give_weigh (bw_stretch_usual (), bw_stretch_said (stretch));
  assert_true (design->thread.has_pulled && design->bed.has_pulled);
  near (stretch->slack_mm, 48.8);
  near (stretch->pulled_mm, 49.6);
  assert_int_equal (stretch->tool, BW_STRIP_BY_CALLIPER);
  near (design->bed.pulled.girth_mm, 70);
  near (design->thread.stretch, believed.share);
  near (design->thread.stretch_sd, believed.sd);
  assert_true (design->bed.squeeze > 0.15 && design->bed.squeeze < 0.2);
  assert_int_equal (bw_design_difference (design, bw_project_get_design (project)), 0);
}

/* What an older program wrote, and what a newer one may, is kept. */
static void
a_file_without_says_nothing_of_them (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  gsize length;
  g_autofree char *text = bw_project_to_data (project, &length);
  assert_null (strstr (text, "\"pulled\""));
  assert_null (strstr (text, "\"hands\""));
  g_autoptr (BwProject) again = loaded (project);
  near (bw_project_get_design (again)->bed.squeeze_sd, 0);
  near (bw_project_get_design (again)->thread.stretch_sd, 0);
}

static char *
with (const char *text, const char *old, const char *new)
{
  g_auto (GStrv) parts = g_strsplit (text, old, 2);
  assert_int_equal (g_strv_length (parts), 2);
  return g_strjoinv (new, parts);
}

static void
what_is_not_known_beside_a_reading_is_kept (void **state)
{
  g_autoptr (BwProject) project = measured ();
  gsize length;
  g_autofree char *text = bw_project_to_data (project, &length);
  g_autofree char *more = with (text, "\"slack_mm\": 48.8", "\"slack_mm\": 48.8, \"wax\": 3");
  g_autoptr (BwProject) again = bw_project_load_data (more, strlen (more), NULL);
  g_autofree char *kept = bw_project_to_data (again, &length);
  assert_non_null (strstr (kept, "\"wax\": 3"));
}

static void
what_cannot_be_is_one_fault_at_its_key (void **state)
{
  static const char *const changes[][3] = {
    { "\"slack_mm\": 48.8", "\"slack_mm\": 4.88", "/thread/pulled/pulled_mm" },
    { "\"pulled_mm\": 49.6", "\"pulled_m\": 49.6", "/thread/pulled/pulled_mm" },
    { "\"pulled_mm\": 74.8", "\"pulled_mm\": 60", "/bed/pulled/pulled_mm" },
    { "\"girth_mm\": 70", "\"girth_mm\": \"70\"", "/bed/pulled/girth_mm" },
    { "\"tool\": \"calliper\"", "\"tool\": \"thumb\"", "/bed/pulled/tool" },
  };
  g_autoptr (BwProject) project = measured ();
  gsize length;
  g_autofree char *text = bw_project_to_data (project, &length);
  for (gsize i = 0; i < G_N_ELEMENTS (changes); i++) {
    g_autoptr (GError) error = NULL;
    g_autofree char *wrong = with (text, changes[i][0], changes[i][1]);
    assert_null (bw_project_load_data (wrong, strlen (wrong), &error));
    assert_fault (error, -1, changes[i][2]);
  }
}

/* --- The book ----------------------------------------------------------------------------------
 */

static BwBook *
book_of (const char *members)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *text = g_strdup_printf ("{\"format\": \"bandwright-book\", \"version\": 1, "
                                           "\"pieces\": [{\"bead\": \"11/0 cylinder\", "
                                           "\"diameter_mm\": 1.6, \"date\": \"2026-11-29\"%s%s}]}",
                                           *members ? ", " : "", members);
  BwBook *book = bw_book_from_data (text, strlen (text), &error);
  if (!book)
    fail_msg ("%s", error->message);
  return book;
}

static BwBook *
measured_book (const char *more)
{
  g_autofree char *stretch = g_strdup_printf (STRETCH, ", \"tool\": \"calliper\"");
  g_autofree char *squeeze = g_strdup_printf (SQUEEZE, ", \"colour\": \"black\"");
  g_autofree char *members = g_strconcat (stretch, ", ", squeeze, more, NULL);
  return book_of (members);
}

static void
the_book_keeps_the_readings_and_what_stands_beside_them (void **state)
{
  g_autoptr (BwBook) book = measured_book ("");
  const BwWoven *piece = bw_book_get_piece (book, 0);
  assert_true (piece->has_stretch && piece->has_squeeze);
  near (piece->thread_mm, 0.15);
  near (piece->stretch.pulled_mm, 49.6);
  assert_int_equal (piece->stretch.tool, BW_STRIP_BY_CALLIPER);
  assert_int_equal (piece->squeeze.tool, BW_STRIP_BY_RULER);
  near (piece->squeeze.slack_mm, 76);
  g_auto (BwWoven) copy = bw_woven_copy (piece);
  assert_true (bw_book_mend_piece (book, 0, piece, &copy, NULL));
  gsize length;
  g_autofree char *text = bw_book_to_data (book, &length);
  assert_non_null (strstr (text, "\"colour\": \"black\""));
  g_autoptr (BwBook) again = bw_book_from_data (text, length, NULL);
  g_autofree char *same = bw_book_to_data (again, NULL);
  assert_string_equal (same, text);
  assert_true (bw_book_get_piece (again, 0)->has_stretch);
  near (bw_book_get_piece (again, 0)->stretch.pulled_mm, 49.6);
  near (bw_book_get_piece (again, 0)->squeeze.girth_mm, 70);
  near (bw_book_get_piece (again, 0)->cord_width_mm, 1);
}

static void
a_reading_that_is_taken_out_is_gone (void **state)
{
  g_autoptr (BwBook) book = measured_book ("");
  g_auto (BwWoven) copy = bw_woven_copy (bw_book_get_piece (book, 0));
  copy.has_stretch = FALSE;
  assert_true (bw_book_mend_piece (book, 0, bw_book_get_piece (book, 0), &copy, NULL));
  g_autofree char *text = bw_book_to_data (book, NULL);
  assert_null (strstr (text, "stretch"));
  assert_non_null (strstr (text, "squeeze"));
}

static void
what_a_reading_cannot_be_is_one_fault_at_its_key (void **state)
{
  static const char *const wrong[][2] = {
    { "\"stretch\": 3", "/pieces/0/stretch" },
    { "\"stretch\": {\"slack_mm\": 48, \"pulled_mm\": 49}", "/pieces/0/stretch/thread_mm" },
    { "\"stretch\": {\"thread_mm\": 0.15, \"slack_mm\": 48}", "/pieces/0/stretch/pulled_mm" },
    { "\"stretch\": {\"thread_mm\": 0, \"slack_mm\": 48, \"pulled_mm\": 48}",
      "/pieces/0/stretch/thread_mm" },
    { "\"stretch\": {\"thread_mm\": 0.15, \"slack_mm\": 48, \"pulled_mm\": 60}",
      "/pieces/0/stretch/pulled_mm" },
    { "\"squeeze\": {\"cord_width_mm\": 1, \"girth_mm\": 70, \"slack_mm\": 69, \"pulled_mm\": 69}",
      "/pieces/0/squeeze/slack_mm" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++) {
    g_autoptr (GError) error = NULL;
    g_autofree char *text = g_strdup_printf (
        "{\"format\": \"bandwright-book\", \"version\": 1, \"pieces\": [{\"diameter_mm\": 1.6, "
        "\"date\": \"2026-11-29\", %s}]}",
        wrong[i][0]);
    assert_null (bw_book_from_data (text, strlen (text), &error));
    assert_fault (error, -1, wrong[i][1]);
  }
}

/* --- From one piece to the next ----------------------------------------------------------------
 */

static void
the_book_tells_the_next_piece (void **state)
{
  g_autoptr (BwBook) book = measured_book ("");
  const BwWoven *piece = bw_book_get_piece (book, 0);
  g_auto (BwBookHands) hands = { 0 };
  int pieces;
  bw_book_hands_init (&hands, book);
  BwGivePiece heard = { 0, bw_stretch_said (&piece->stretch) };
  g_autofree BwGive *next = bw_give_next (bw_stretch_usual (), &heard, 1, 1);
  BwGive same = bw_book_give_of (&hands.stretch, 0.15, &pieces);
  assert_int_equal (pieces, 1);
  near (same.share, next[0].share);
  near (same.sd, next[0].sd);
  BwGive other = bw_book_give_of (&hands.stretch, 0.2, &pieces);
  assert_int_equal (pieces, 0);
  near (other.share, next[1].share);
  assert_true (other.share < same.share && other.share > 0.010);
  BwGive bed = bw_book_give_of (&hands.squeeze, 1, &pieces);
  assert_true (bed.share > 0.15 && bed.share < 0.2 && bed.sd < 0.05);
}

/* Each size is told apart, wherever its pieces stand in the book. */
static void
readings_are_gathered_by_size (void **state)
{
  static const double threads[] = { 0.2, 0.1, 0.2, 0.1, 0.2 };
  static const double pulled[] = { 51, 50.1, 51, 50.1, 51 };
  g_autoptr (BwBook) book = bw_book_new ();
  g_auto (BwBookHands) hands = { 0 };
  int pieces;
  for (gsize i = 0; i < G_N_ELEMENTS (threads); i++) {
    BwWoven piece = { .diameter_mm = 1.6, .date = "2026-11-29", .has_stretch = TRUE };
    piece.thread_mm = threads[i];
    piece.stretch = (BwStretchReading){ 50, pulled[i], BW_STRIP_BY_CALLIPER };
    g_snprintf (piece.id, sizeof piece.id, "%d", (int)i);
    assert_true (bw_book_put_piece (book, &piece, NULL));
  }
  bw_book_hands_init (&hands, book);
  assert_int_equal (hands.stretch.pieces, 5);
  assert_int_equal (hands.stretch.n_kinds, 2);
  near (hands.stretch.kinds[0].mm, 0.1);
  assert_int_equal (hands.stretch.kinds[0].pieces, 2);
  BwGive thin = bw_book_give_of (&hands.stretch, 0.1, &pieces);
  BwGive thick = bw_book_give_of (&hands.stretch, 0.2, &pieces);
  assert_int_equal (pieces, 3);
  assert_true (thin.share < thick.share);
}

static void
a_piece_that_is_left_out_says_nothing_of_them (void **state)
{
  g_autoptr (BwBook) book = measured_book (", \"left_out\": true");
  g_auto (BwBookHands) hands = { 0 };
  bw_book_hands_init (&hands, book);
  assert_int_equal (hands.stretch.pieces, 0);
  assert_int_equal (hands.squeeze.pieces, 0);
  g_autoptr (BwProject) project = bw_project_new ();
  bw_project_begin_with_hands (project, &hands);
  assert_false (bw_project_get_design (project)->bed.has_hands);
}

static void
a_new_project_begins_with_what_is_known (void **state)
{
  g_autoptr (BwBook) book = measured_book ("");
  g_auto (BwBookHands) hands = { 0 };
  g_autoptr (BwProject) project = bw_project_new ();
  bw_book_hands_init (&hands, book);
  bw_project_begin_with_hands (project, &hands);
  const BwDesign *design = bw_project_get_design (project);
  assert_true (design->bed.has_hands && design->thread.has_hands);
  assert_false (design->gauge.has_hands);
  near (design->thread.stretch, hands.stretch.kinds[0].next.share);
  near (design->thread.stretch_sd, hands.stretch.kinds[0].next.sd);
  near (design->bed.squeeze, hands.squeeze.kinds[0].next.share);
  assert_false (bw_project_can_undo (project));
  g_autoptr (BwProject) again = loaded (project);
  assert_int_equal (bw_design_difference (bw_project_get_design (again), design), 0);
}

static void
what_was_measured_goes_into_the_book (void **state)
{
  g_autoptr (BwProject) project = measured ();
  g_auto (BwWoven) piece = { 0 };
  bw_project_ensure_id (project);
  assert_true (bw_observed_piece (&piece, project, "2026-11-29"));
  assert_true (piece.has_stretch && piece.has_squeeze && !piece.has_swatch);
  near (piece.thread_mm, 0.15);
  near (piece.cord_width_mm, 1);
  near (piece.stretch.pulled_mm, 49.6);
  near (piece.squeeze.pulled_mm, 74.8);
  assert_true (bw_woven_validate (&piece, "", NULL));
}

/* The readings are those of the piece they were taken of: told again with another they would count
 * twice. What they taught goes along. */
static void
on_another_stone_the_design_knows_what_was_learnt (void **state)
{
  g_autoptr (BwProject) project = measured ();
  const BwDesign *old = bw_project_get_design (project);
  BwStoneMeasures measures = old->stone;
  measures.values_mm[0] += 1;
  int left_out;
  g_autoptr (BwProject) other
      = bw_project_restone (project, &measures, NULL, BW_ANEW_REPEAT, &left_out, NULL);
  const BwDesign *design = bw_project_get_design (other);
  g_auto (BwWoven) piece = { 0 };
  assert_false (design->thread.has_pulled || design->bed.has_pulled);
  near (design->thread.stretch, old->thread.stretch);
  near (design->thread.stretch_sd, old->thread.stretch_sd);
  near (design->bed.squeeze, old->bed.squeeze);
  near (design->bed.squeeze_sd, old->bed.squeeze_sd);
  assert_false (bw_observed_piece (&piece, other, "2026-11-29"));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (readings_come_back_and_the_fit_counts_on_them),
    cmocka_unit_test (a_file_without_says_nothing_of_them),
    cmocka_unit_test (what_is_not_known_beside_a_reading_is_kept),
    cmocka_unit_test (what_cannot_be_is_one_fault_at_its_key),
    cmocka_unit_test (the_book_keeps_the_readings_and_what_stands_beside_them),
    cmocka_unit_test (a_reading_that_is_taken_out_is_gone),
    cmocka_unit_test (what_a_reading_cannot_be_is_one_fault_at_its_key),
    cmocka_unit_test (the_book_tells_the_next_piece),
    cmocka_unit_test (readings_are_gathered_by_size),
    cmocka_unit_test (a_piece_that_is_left_out_says_nothing_of_them),
    cmocka_unit_test (a_new_project_begins_with_what_is_known),
    cmocka_unit_test (what_was_measured_goes_into_the_book),
    cmocka_unit_test (on_another_stone_the_design_knows_what_was_learnt),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
