/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The maker's book: what it keeps, what it refuses, and that several programs may write it. */
#include "config.h"

#include "project/book/book-file.h"
#include "project/fault/fault-error.h"

#include <gio/gio.h>
#include <glib/gstdio.h>
#include <math.h>
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>
#include <cmocka.h>

#define HEAD "{\"format\": \"bandwright-book\", \"version\": 1"
#define PIECE "\"bead\": \"11/0 cylinder\", \"diameter_mm\": 1.6, \"date\": \"2026-11-29\""
#define SWATCH                                                                                     \
  "\"swatch\": {\"columns\": 10, \"width_mm\": 13.1, \"rows\": 24, \"length_mm\": 20.1}"

static BwBook *
book_of (const char *text)
{
  g_autoptr (GError) error = NULL;
  BwBook *book = bw_book_from_data (text, strlen (text), &error);
  if (!book)
    fail_msg ("%s", error->message);
  return book;
}

/* The book with one piece of these further members. */
static char *
with_piece (const char *members)
{
  return g_strdup_printf (HEAD ", \"pieces\": [{" PIECE "%s%s}]}", *members ? ", " : "", members);
}

static BwWoven
piece_of (const char *id, double diameter_mm)
{
  BwWoven piece = { .diameter_mm = diameter_mm, .date = "2026-11-29" };
  g_strlcpy (piece.id, id, sizeof piece.id);
  g_strlcpy (piece.bead, "11/0 cylinder", sizeof piece.bead);
  return piece;
}

static void
add_check (BwWoven *piece, int rows, double length_mm)
{
  BwCheck check = { rows, length_mm };
  if (!piece->checks)
    piece->checks = g_array_new (FALSE, FALSE, sizeof (BwCheck));
  g_array_append_val (piece->checks, check);
}

static void
put (BwBook *book, const BwWoven *piece)
{
  g_autoptr (GError) error = NULL;
  if (!bw_book_put_piece (book, piece, &error))
    fail_msg ("%s", error->message);
}

static void
assert_near (double a, double b)
{
  if (!(fabs (a - b) <= 1e-12 * fmax (1, fabs (b))))
    fail_msg ("%.17g is not %.17g", a, b);
}

/* --- What it keeps ------------------------------------------------------------------------------
 */

static void
a_piece_comes_back_as_it_was_put_in (void **state)
{
  g_autoptr (BwBook) book = bw_book_new ();
  g_auto (BwWoven) piece = piece_of ("one", 1.6);
  g_strlcpy (piece.thread, "gel-spun thread", sizeof piece.thread);
  piece.has_swatch = TRUE;
  piece.swatch = (BwSwatch){ 10, 24, 13.1, 20.1, BW_STRIP_BY_CALLIPER };
  add_check (&piece, 40, 32.9);
  add_check (&piece, 80, 64.9);
  piece.has_end = TRUE;
  piece.end = (BwWovenEnd){ 114, 1.61, 0.4 };
  put (book, &piece);
  gsize length;
  g_autofree char *text = bw_book_to_data (book, &length);
  g_autoptr (BwBook) again = book_of (text);
  const BwWoven *found = bw_book_get_piece (again, 0);
  assert_int_equal (bw_book_n_pieces (again), 1);
  assert_string_equal (found->id, "one");
  assert_string_equal (found->bead, "11/0 cylinder");
  assert_string_equal (found->thread, "gel-spun thread");
  assert_string_equal (found->date, "2026-11-29");
  assert_true (found->has_swatch && found->has_end && !found->left_out);
  assert_int_equal (found->swatch.tool, BW_STRIP_BY_CALLIPER);
  assert_int_equal (found->swatch.columns, 10);
  assert_int_equal (found->swatch.rows, 24);
  assert_near (found->swatch.width_mm, 13.1);
  assert_near (found->swatch.length_mm, 20.1);
  assert_int_equal (found->end.rows, 114);
  assert_near (found->end.closing_pitch_mm, 1.61);
  assert_near (found->end.girth_sd_mm, 0.4);
  assert_int_equal (found->checks->len, 2);
  assert_int_equal (g_array_index (found->checks, BwCheck, 1).rows, 80);
  assert_near (g_array_index (found->checks, BwCheck, 1).length_mm, 64.9);
  g_autofree char *text_again = bw_book_to_data (again, NULL);
  assert_string_equal (text_again, text);
}

static void
what_is_not_known_is_kept_at_every_level (void **state)
{
  g_autofree char *text = g_strdup (
      HEAD
      ", \"shelf\": 7, \"pieces\": [{\"id\": \"a\", " PIECE ", \"mood\": \"calm\", "
      "\"swatch\": {\"columns\": 10, \"width_mm\": 13.1, \"rows\": 24, \"length_mm\": 20.1, "
      "\"light\": \"dim\"}, \"checks\": [{\"rows\": 40, \"length_mm\": 32.9, \"by\": \"lamp\"}], "
      "\"finished\": {\"rows\": 114, \"closing_pitch_mm\": 1.61, \"girth_sd_mm\": 0.4, "
      "\"gift\": true}}]}");
  static const char *const kept[] = { "\"shelf\": 7", "\"mood\": \"calm\"", "\"light\": \"dim\"",
                                      "\"by\": \"lamp\"", "\"gift\": true" };
  g_autoptr (BwBook) book = book_of (text);
  g_auto (BwWoven) piece = *bw_book_get_piece (book, 0);
  piece.checks = g_array_copy (piece.checks);
  piece.swatch.length_mm = 20.2;
  add_check (&piece, 60, 49.2);
  piece.end.rows = 116;
  put (book, &piece);
  g_autofree char *written = bw_book_to_data (book, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (kept); i++)
    assert_non_null (strstr (written, kept[i]));
  assert_non_null (strstr (written, "20.2"));
  assert_non_null (strstr (written, "49.2"));
  assert_non_null (strstr (written, "116"));
}

static void
what_is_told_of_one_piece_stands_in_one_place (void **state)
{
  g_autoptr (BwBook) book = bw_book_new ();
  g_auto (BwWoven) piece = piece_of ("one", 1.6), other = piece_of ("two", 1.6);
  g_auto (BwWoven) nameless = piece_of ("", 1.6);
  put (book, &piece);
  put (book, &other);
  add_check (&piece, 40, 32.9);
  put (book, &piece);
  assert_int_equal (bw_book_n_pieces (book), 2);
  assert_int_equal (bw_book_find_piece (book, "one"), 0);
  assert_int_equal (bw_book_get_piece (book, 0)->checks->len, 1);
  put (book, &nameless);
  put (book, &nameless);
  assert_int_equal (bw_book_n_pieces (book), 4);
  assert_int_equal (bw_book_find_piece (book, ""), -1);
  g_clear_pointer (&piece.checks, g_array_unref);
  put (book, &piece);
  assert_null (bw_book_get_piece (book, 0)->checks);
}

/* --- What it says -------------------------------------------------------------------------------
 */

static void
the_hands_are_those_of_all_that_was_observed (void **state)
{
  g_autoptr (BwBook) book = bw_book_new ();
  g_auto (BwWoven) piece = piece_of ("one", 1.6), end = piece_of ("two", 1.6);
  g_auto (BwBookHands) hands = { 0 };
  BwHandsPiece said[] = { { 0, 0, 0 }, { 0, 0, 0 } };
  BwHands expected;
  int pieces;
  piece.has_swatch = TRUE;
  piece.swatch = (BwSwatch){ 10, 24, 13.1, 20.1, BW_STRIP_BY_CALLIPER };
  add_check (&piece, 40, 32.9);
  end.has_end = TRUE;
  end.end = (BwWovenEnd){ 114, 1.61, 0.4 };
  put (book, &piece);
  put (book, &end);
  bw_hands_add (&said[0], bw_hands_strip (24, 20.1, 0.1, 1.6));
  bw_hands_add (&said[0], bw_hands_strip (40, 32.9, 0.3, 1.6));
  bw_hands_add (&said[1], bw_hands_finished (57, 1.61, 0.4, 1.6));
  bw_hands_init (&expected, bw_hands_usual_spread (), said, 2, 1);
  bw_book_hands_init (&hands, book);
  assert_false (hands.fitted);
  assert_int_equal (hands.n_kinds, 1);
  assert_int_equal (hands.kinds[0].pieces, 2);
  assert_near (hands.hands.mean, expected.hands.mean);
  assert_near (hands.hands.sd, expected.hands.sd);
  assert_near (hands.kinds[0].next.mean, expected.next[0].mean);
  assert_near (hands.kinds[0].next.sd, expected.next[0].sd);
  BwGaugeHands next = bw_book_hands_of (&hands, "11/0 cylinder", 1.6, &pieces);
  assert_int_equal (pieces, 2);
  assert_near (next.pitch_mm, 1.6 * exp (expected.next[0].mean));
  assert_near (next.pitch_sd_mm, next.pitch_mm * expected.next[0].sd);
  bw_hands_clear (&expected);
}

static void
beads_never_woven_are_known_by_the_hands_alone (void **state)
{
  g_autoptr (BwBook) book = bw_book_new ();
  g_auto (BwWoven) piece = piece_of ("one", 1.6);
  g_auto (BwBookHands) hands = { 0 };
  int pieces;
  add_check (&piece, 99, 50 * 1.6 * 1.03);
  put (book, &piece);
  bw_book_hands_init (&hands, book);
  BwGaugeHands same = bw_book_hands_of (&hands, "11/0 cylinder", 1.6, &pieces);
  assert_int_equal (pieces, 1);
  BwGaugeHands other = bw_book_hands_of (&hands, "11/0 round", 1.6, &pieces);
  assert_int_equal (pieces, 0);
  assert_true (same.pitch_mm > other.pitch_mm && other.pitch_mm > 1.6);
  assert_true (same.pitch_sd_mm < other.pitch_sd_mm && other.pitch_sd_mm < 0.02 * other.pitch_mm);
  BwGaugeHands larger = bw_book_hands_of (&hands, "8/0 cylinder", 3, &pieces);
  assert_near (larger.pitch_mm / 3, other.pitch_mm / 1.6);
}

static void
an_empty_book_gives_the_usual_guess (void **state)
{
  g_autoptr (BwBook) book = bw_book_new ();
  g_auto (BwBookHands) hands = { 0 };
  int pieces;
  bw_book_hands_init (&hands, book);
  BwGaugeHands next = bw_book_hands_of (&hands, "11/0 cylinder", 1.6, &pieces);
  assert_int_equal (pieces, 0);
  assert_near (next.pitch_mm, 1.6);
  assert_near (next.pitch_sd_mm, 0.02 * 1.6);
}

static void
a_piece_that_is_left_out_says_nothing (void **state)
{
  g_autoptr (BwBook) book = bw_book_new ();
  g_auto (BwWoven) piece = piece_of ("one", 1.6);
  g_auto (BwBookHands) hands = { 0 };
  int pieces;
  add_check (&piece, 99, 50 * 1.6 * 1.03);
  piece.left_out = TRUE;
  put (book, &piece);
  g_autofree char *text = bw_book_to_data (book, NULL);
  g_autoptr (BwBook) again = book_of (text);
  assert_true (bw_book_get_piece (again, 0)->left_out);
  bw_book_hands_init (&hands, again);
  BwGaugeHands next = bw_book_hands_of (&hands, "11/0 cylinder", 1.6, &pieces);
  assert_int_equal (pieces, 0);
  assert_near (next.pitch_mm, 1.6);
}

/* Twenty pieces of hands that hardly differ: the spread becomes the maker's own. */
static void
from_twenty_pieces_on_the_spread_is_the_makers_own (void **state)
{
  g_autoptr (BwBook) book = bw_book_new ();
  for (int i = 0; i < 20; i++) {
    g_auto (BwWoven) piece = piece_of ("", i % 2 ? 1.6 : 3.0);
    g_auto (BwBookHands) hands = { 0 };
    bw_book_hands_init (&hands, book);
    assert_false (hands.fitted);
    add_check (&piece, 199, 100 * piece.diameter_mm * (i % 3 ? 1.0101 : 1.0099));
    put (book, &piece);
  }
  g_auto (BwBookHands) hands = { 0 };
  bw_book_hands_init (&hands, book);
  assert_true (hands.fitted);
  assert_true (hands.spread.piece < bw_hands_usual_spread ().piece);
  assert_int_equal (hands.n_kinds, 2);
  assert_true (hands.kinds[0].diameter_mm < hands.kinds[1].diameter_mm);
}

static void
ten_thousand_pieces_are_read_and_told (void **state)
{
  g_autoptr (GString) text = g_string_new (HEAD ", \"pieces\": [");
  for (int i = 0; i < 10000; i++)
    g_string_append_printf (text,
                            "%s{\"id\": \"p%d\", " PIECE ", " SWATCH
                            ", \"checks\": [{\"rows\": 40, \"length_mm\": 32.9}], \"finished\": "
                            "{\"rows\": 114, \"closing_pitch_mm\": 1.61, \"girth_sd_mm\": 0.4}}",
                            i ? ", " : "", i);
  g_string_append (text, "]}");
  g_autoptr (BwBook) book = book_of (text->str);
  g_auto (BwBookHands) hands = { 0 };
  bw_book_hands_init (&hands, book);
  assert_int_equal (bw_book_n_pieces (book), 10000);
  assert_int_equal (hands.kinds[0].pieces, 10000);
  assert_int_equal (bw_book_find_piece (book, "p9999"), 9999);
}

/* --- What it refuses ----------------------------------------------------------------------------
 */

static void
refuses (const char *text, const char *pointer, BwFaultCode code)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (BwBook) book = bw_book_from_data (text, strlen (text), &error);
  if (book)
    fail_msg ("taken: %s", text);
  if (!g_error_matches (error, BW_FAULT, (int)code)
      || (*pointer && !g_str_has_prefix (error->message, pointer)))
    fail_msg ("%s: %s", text, error->message);
}

static void
what_a_book_cannot_be_is_one_fault_at_its_key (void **state)
{
  static const struct {
    const char *text, *pointer;
    BwFaultCode code;
  } books[] = {
    { "", "", BW_FAULT_SYNTAX },
    { "{\"format\": \"bandwright-book\", \"version\": 1, \"pieces\": [", "", BW_FAULT_SYNTAX },
    { "[]", "", BW_FAULT_TYPE },
    { "{\"version\": 1}", "/format", BW_FAULT_MISSING },
    { "{\"format\": \"bandwright-project\", \"version\": 1}", "/format", BW_FAULT_RANGE },
    { "{\"format\": \"bandwright-book\"}", "/version", BW_FAULT_MISSING },
    { "{\"format\": \"bandwright-book\", \"version\": 2}", "/version", BW_FAULT_VERSION },
    { "{\"format\": \"bandwright-book\", \"version\": 1.5}", "/version", BW_FAULT_RANGE },
    { HEAD ", \"pieces\": {}}", "/pieces", BW_FAULT_TYPE },
    { HEAD ", \"pieces\": [7]}", "/pieces/0", BW_FAULT_TYPE },
    { HEAD ", \"pieces\": [{\"date\": \"2026-11-29\"}]}", "/pieces/0/diameter_mm",
      BW_FAULT_MISSING },
    { HEAD ", \"pieces\": [{\"diameter_mm\": 1.6}]}", "/pieces/0/date", BW_FAULT_MISSING },
    { HEAD ", \"pieces\": [{" PIECE "}, {\"diameter_mm\": -1, \"date\": \"2026-11-29\"}]}",
      "/pieces/1/diameter_mm", BW_FAULT_RANGE },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (books); i++)
    refuses (books[i].text, books[i].pointer, books[i].code);
}

static void
what_a_piece_cannot_have_is_one_fault_at_its_key (void **state)
{
  static const struct {
    const char *members, *pointer;
    BwFaultCode code;
  } pieces[] = {
    { "\"id\": 7", "/id", BW_FAULT_TYPE },
    { "\"thread\": \"a name of thread that is so long that no spool ever had such a label\"",
      "/thread", BW_FAULT_RANGE },
    { "\"thread\": \"a\\u001bb\"", "/thread", BW_FAULT_RANGE },
    { "\"left_out\": 1", "/left_out", BW_FAULT_TYPE },
    { "\"swatch\": []", "/swatch", BW_FAULT_TYPE },
    { "\"swatch\": {\"columns\": 10, \"width_mm\": 13.1, \"rows\": 24}", "/swatch/length_mm",
      BW_FAULT_MISSING },
    { "\"swatch\": {\"columns\": 9, \"width_mm\": 13.1, \"rows\": 24, \"length_mm\": 20.1}",
      "/swatch/columns", BW_FAULT_RANGE },
    { "\"swatch\": {\"columns\": 10, \"width_mm\": 13.1, \"rows\": 24, \"length_mm\": 112.5}",
      "/swatch/length_mm", BW_FAULT_RANGE },
    { "\"checks\": {}", "/checks", BW_FAULT_TYPE },
    { "\"checks\": [3]", "/checks/0", BW_FAULT_TYPE },
    { "\"checks\": [{\"rows\": 40}]", "/checks/0/length_mm", BW_FAULT_MISSING },
    { "\"checks\": [{\"rows\": 0, \"length_mm\": 3}]", "/checks/0/rows", BW_FAULT_RANGE },
    { "\"checks\": [{\"rows\": 40, \"length_mm\": 32.9}, {\"rows\": 40, \"length_mm\": 184.5}]",
      "/checks/1/length_mm", BW_FAULT_RANGE },
    { "\"finished\": 114", "/finished", BW_FAULT_TYPE },
    { "\"finished\": {\"rows\": 114, \"closing_pitch_mm\": 1.61}", "/finished/girth_sd_mm",
      BW_FAULT_MISSING },
    { "\"finished\": {\"rows\": 113, \"closing_pitch_mm\": 1.61, \"girth_sd_mm\": 0.4}",
      "/finished/rows", BW_FAULT_RANGE },
    { "\"finished\": {\"rows\": 114, \"closing_pitch_mm\": 9, \"girth_sd_mm\": 0.4}",
      "/finished/closing_pitch_mm", BW_FAULT_RANGE },
    { "\"finished\": {\"rows\": 114, \"closing_pitch_mm\": 1.61, \"girth_sd_mm\": -1}",
      "/finished/girth_sd_mm", BW_FAULT_RANGE },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (pieces); i++) {
    g_autofree char *text = with_piece (pieces[i].members);
    g_autofree char *pointer = g_strconcat ("/pieces/0", pieces[i].pointer, NULL);
    refuses (text, pointer, pieces[i].code);
  }
}

static void
a_day_that_never_was_is_refused (void **state)
{
  static const char *const days[] = { "2026-02-30", "2026-13-01", "29.11.2026", "2026-1-1",
                                      "yesterday!", "+026-01-01", "2026-11-2 ", "" };
  for (gsize i = 0; i < G_N_ELEMENTS (days); i++) {
    g_autofree char *text = g_strdup_printf (
        HEAD ", \"pieces\": [{\"diameter_mm\": 1.6, \"date\": \"%s\"}]}", days[i]);
    refuses (text, "/pieces/0/date", BW_FAULT_RANGE);
  }
}

static void
a_piece_that_cannot_be_leaves_the_book_as_it_was (void **state)
{
  g_autoptr (BwBook) book = bw_book_new ();
  g_auto (BwWoven) piece = piece_of ("one", 1.6);
  g_autoptr (GError) error = NULL;
  put (book, &piece);
  g_autofree char *before = bw_book_to_data (book, NULL);
  add_check (&piece, 40, 184.5);
  assert_false (bw_book_put_piece (book, &piece, &error));
  assert_true (g_error_matches (error, BW_FAULT, BW_FAULT_RANGE));
  g_autofree char *after = bw_book_to_data (book, NULL);
  assert_string_equal (after, before);
  assert_null (bw_book_get_piece (book, 0)->checks);
}

/* --- As a file ----------------------------------------------------------------------------------
 */

typedef struct {
  char *folder, *path;
} Place;

static int
set_up (void **state)
{
  Place *place = g_new0 (Place, 1);
  place->folder = g_dir_make_tmp ("bandwright-book-XXXXXX", NULL);
  assert_non_null (place->folder);
  place->path = g_build_filename (place->folder, "new", "book.json", NULL);
  *state = place;
  return 0;
}

static void
remove_folder (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  for (const char *name; dir && (name = g_dir_read_name (dir));) {
    g_autofree char *path = g_build_filename (folder, name, NULL);
    if (g_file_test (path, G_FILE_TEST_IS_DIR))
      remove_folder (path);
    else
      g_remove (path);
  }
  g_rmdir (folder);
}

static int
tear_down (void **state)
{
  Place *place = *state;
  remove_folder (place->folder);
  g_free (place->folder);
  g_free (place->path);
  g_free (place);
  return 0;
}

static gboolean
put_numbered (BwBook *book, gpointer data, GError **error)
{
  g_auto (BwWoven) piece = piece_of (data, 1.6);
  add_check (&piece, 40, 32.9);
  return bw_book_put_piece (book, &piece, error);
}

static void
a_first_change_makes_the_book (void **state)
{
  Place *place = *state;
  g_autoptr (GError) error = NULL;
  g_autoptr (BwBook) none = bw_book_load (place->path, &error);
  assert_non_null (none);
  assert_int_equal (bw_book_n_pieces (none), 0);
  assert_false (g_file_test (place->path, G_FILE_TEST_EXISTS));
  assert_true (bw_book_change (place->path, put_numbered, (gpointer) "a", &error));
  g_autoptr (BwBook) book = bw_book_load (place->path, &error);
  assert_int_equal (bw_book_find_piece (book, "a"), 0);
  GStatBuf status;
  assert_int_equal (g_stat (place->path, &status), 0);
  assert_int_equal (status.st_mode & 0077, 0);
}

#define EACH 25

static int
write_many (const char *path, int writer)
{
  for (int i = 0; i < EACH; i++) {
    g_autofree char *id = g_strdup_printf ("%d-%d", writer, i);
    if (!bw_book_change (path, put_numbered, id, NULL))
      return 1;
  }
  return 0;
}

static void
programs_that_write_at_once_lose_nothing (void **state)
{
  Place *place = *state;
  pid_t child[3];
  for (int writer = 0; writer < 3; writer++) {
    child[writer] = fork ();
    assert_true (child[writer] >= 0);
    if (child[writer] == 0)
      _exit (write_many (place->path, writer));
  }
  for (int writer = 0; writer < 3; writer++) {
    int status;
    assert_int_equal (waitpid (child[writer], &status, 0), child[writer]);
    assert_true (WIFEXITED (status) && WEXITSTATUS (status) == 0);
  }
  g_autoptr (BwBook) book = bw_book_load (place->path, NULL);
  assert_int_equal (bw_book_n_pieces (book), 3 * EACH);
}

static void
write_text (const Place *place, const char *text)
{
  g_autofree char *folder = g_path_get_dirname (place->path);
  assert_int_equal (g_mkdir_with_parents (folder, 0700), 0);
  assert_true (g_file_set_contents (place->path, text, -1, NULL));
}

static void
expect_text (const Place *place, const char *text)
{
  g_autofree char *found = NULL;
  assert_true (g_file_get_contents (place->path, &found, NULL, NULL));
  assert_string_equal (found, text);
}

static void
a_book_that_cannot_be_read_is_not_written_over (void **state)
{
  static const struct {
    const char *text;
    BwFaultCode code;
  } books[] = { { HEAD ", \"pieces\": [", BW_FAULT_SYNTAX },
                { "{\"format\": \"bandwright-book\", \"version\": 9}", BW_FAULT_VERSION },
                { HEAD ", \"pieces\": [{" PIECE ", \"checks\": 3}]}", BW_FAULT_TYPE } };
  for (gsize i = 0; i < G_N_ELEMENTS (books); i++) {
    g_autoptr (GError) error = NULL;
    write_text (*state, books[i].text);
    assert_false (bw_book_change (((Place *)*state)->path, put_numbered, (gpointer) "a", &error));
    assert_true (g_error_matches (error, BW_FAULT, (int)books[i].code));
    expect_text (*state, books[i].text);
  }
}

/* A limit on the size of files stands for a full disk: writing fails half way. */
static void
a_full_disk_leaves_the_book_whole (void **state)
{
  Place *place = *state;
  g_autoptr (GError) error = NULL;
  struct rlimit before, little;
  write_text (place, HEAD "}");
  signal (SIGXFSZ, SIG_IGN);
  assert_int_equal (getrlimit (RLIMIT_FSIZE, &before), 0);
  little = before;
  little.rlim_cur = 60;
  assert_int_equal (setrlimit (RLIMIT_FSIZE, &little), 0);
  gboolean changed = bw_book_change (place->path, put_numbered, (gpointer) "a", &error);
  assert_int_equal (setrlimit (RLIMIT_FSIZE, &before), 0);
  assert_false (changed);
  assert_int_equal (error->domain, G_IO_ERROR);
  expect_text (place, HEAD "}");
}

static void
a_book_that_may_not_be_written_says_so (void **state)
{
  Place *place = *state;
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = g_path_get_dirname (place->path);
  assert_int_equal (g_mkdir_with_parents (folder, 0700), 0);
  assert_int_equal (g_mkdir (place->path, 0700), 0);
  assert_false (bw_book_change (place->path, put_numbered, (gpointer) "a", &error));
  assert_int_equal (error->domain, G_IO_ERROR);
}

int
main (void)
{
#define AS_FILE(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_piece_comes_back_as_it_was_put_in),
    cmocka_unit_test (what_is_not_known_is_kept_at_every_level),
    cmocka_unit_test (what_is_told_of_one_piece_stands_in_one_place),
    cmocka_unit_test (the_hands_are_those_of_all_that_was_observed),
    cmocka_unit_test (beads_never_woven_are_known_by_the_hands_alone),
    cmocka_unit_test (an_empty_book_gives_the_usual_guess),
    cmocka_unit_test (a_piece_that_is_left_out_says_nothing),
    cmocka_unit_test (from_twenty_pieces_on_the_spread_is_the_makers_own),
    cmocka_unit_test (ten_thousand_pieces_are_read_and_told),
    cmocka_unit_test (what_a_book_cannot_be_is_one_fault_at_its_key),
    cmocka_unit_test (what_a_piece_cannot_have_is_one_fault_at_its_key),
    cmocka_unit_test (a_day_that_never_was_is_refused),
    cmocka_unit_test (a_piece_that_cannot_be_leaves_the_book_as_it_was),
    AS_FILE (a_first_change_makes_the_book),
    AS_FILE (programs_that_write_at_once_lose_nothing),
    AS_FILE (a_book_that_cannot_be_read_is_not_written_over),
    AS_FILE (a_full_disk_leaves_the_book_whole),
    AS_FILE (a_book_that_may_not_be_written_says_so),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
