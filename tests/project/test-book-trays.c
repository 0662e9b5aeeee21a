/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Trays in the maker's book: kept under a name, mended, and never lost to another program. */
#include "config.h"

#include "project/book/book-file.h"
#include "project/book/book-trays.h"
#include "project/fault/fault-error.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#define HEAD "{\"format\": \"bandwright-book\", \"version\": 1"

static BwBook *
book_of (const char *text)
{
  g_autoptr (GError) error = NULL;
  BwBook *book = bw_book_from_data (text, strlen (text), &error);
  if (!book)
    fail_msg ("%s", error->message);
  return book;
}

/* n colours that differ by the seed. Owned. */
static BwKeptTray *
tray_of (const char *name, int n, guint32 seed)
{
  BwKeptTray *kept = g_new0 (BwKeptTray, 1);
  g_strlcpy (kept->name, name, sizeof kept->name);
  for (int i = 0; i < n; i++) {
    BwColour *colour = &kept->tray.colour[i];
    colour->id = bw_tray_free_letter (&kept->tray);
    colour->srgb = (seed * 2654435761u + (guint32)i * 40503u) & 0xffffff;
    colour->finish = (BwFinish)((seed + (guint32)i) % BW_N_FINISHES);
    g_snprintf (colour->name, sizeof colour->name, "Shade %d", i);
    if (i % 2)
      g_snprintf (colour->article, sizeof colour->article, "A-%d", i);
    colour->in_hand_g = i * 0.5;
    kept->tray.n_colours++;
  }
  return kept;
}

static void
change (BwBook *book, const BwKeptTray *before, const BwKeptTray *tray)
{
  g_autoptr (GError) error = NULL;
  if (!bw_book_change_tray (book, before, tray, &error))
    fail_msg ("%s", error->message);
}

static void
put (BwBook *book, const char *name, int n, guint32 seed)
{
  g_autofree BwKeptTray *kept = tray_of (name, n, seed);
  change (book, NULL, kept);
}

static void
assert_same (const BwKeptTray *a, const BwKeptTray *b)
{
  assert_string_equal (a->name, b->name);
  assert_int_equal (a->tray.n_colours, b->tray.n_colours);
  for (int i = 0; i < a->tray.n_colours; i++) {
    const BwColour *one = &a->tray.colour[i], *other = &b->tray.colour[i];
    assert_int_equal (one->id, other->id);
    assert_int_equal (one->srgb, other->srgb);
    assert_int_equal (one->finish, other->finish);
    assert_string_equal (one->name, other->name);
    assert_string_equal (one->article, other->article);
    assert_true (one->in_hand_g == other->in_hand_g);
  }
}

static void
trays_come_back_as_they_were_put_in (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20261130);
  for (int round = 0; round < 20; round++) {
    g_autoptr (BwBook) book = bw_book_new ();
    int n = g_rand_int_range (rand, 1, 12);
    g_autoptr (GPtrArray) all = g_ptr_array_new_with_free_func (g_free);
    for (int i = 0; i < n; i++) {
      g_autofree char *name = g_strdup_printf ("Tray %d ~/“ü”", i);
      g_ptr_array_add (all, tray_of (name, g_rand_int_range (rand, 1, 25), g_rand_int (rand)));
      change (book, NULL, g_ptr_array_index (all, (guint)i));
    }
    g_autofree char *text = bw_book_to_data (book, NULL);
    g_autoptr (BwBook) again = book_of (text);
    g_autofree char *text_again = bw_book_to_data (again, NULL);
    assert_string_equal (text_again, text);
    assert_int_equal (bw_book_n_trays (again), n);
    for (guint i = 0; i < (guint)n; i++) {
      g_autofree BwKeptTray *found = g_new0 (BwKeptTray, 1);
      bw_book_get_tray (again, i, found);
      assert_same (found, g_ptr_array_index (all, i));
      assert_int_equal (bw_book_find_tray (again, found->name), i);
    }
  }
}

static void
a_tray_is_mended_renamed_and_taken_out (void **state)
{
  g_autoptr (BwBook) book = bw_book_new ();
  g_autofree BwKeptTray *second = tray_of ("Second", 3, 2), *other = tray_of ("Ebb", 4, 9);
  put (book, "First", 2, 1);
  change (book, NULL, second);
  put (book, "Third", 2, 3);
  change (book, second, other);
  assert_int_equal (bw_book_find_tray (book, "Second"), -1);
  assert_int_equal (bw_book_find_tray (book, "Ebb"), 1);
  g_autofree BwKeptTray *found = g_new0 (BwKeptTray, 1);
  bw_book_get_tray (book, 1, found);
  assert_same (found, other);
  change (book, other, NULL);
  assert_int_equal (bw_book_n_trays (book), 2);
  assert_string_equal (bw_book_tray_name (book, 1), "Third");
}

static void
two_trays_never_have_one_name (void **state)
{
  g_autoptr (BwBook) book = bw_book_new ();
  g_autoptr (GError) error = NULL;
  g_autofree BwKeptTray *first = tray_of ("Ebb", 2, 1), *same = tray_of ("Ebb", 3, 2);
  g_autofree BwKeptTray *second = tray_of ("Flood", 2, 1);
  change (book, NULL, first);
  change (book, NULL, second);
  assert_false (bw_book_change_tray (book, NULL, same, &error));
  assert_string_equal (error->message, "/trays/2/name: “Ebb” is the name of another one.");
  g_clear_error (&error);
  assert_false (bw_book_change_tray (book, second, same, &error));
  assert_int_equal (bw_book_n_trays (book), 2);
  assert_int_equal (bw_book_find_tray (book, "Flood"), 1);
}

static void
what_was_changed_meanwhile_is_not_written_over (void **state)
{
  g_autoptr (BwBook) book = bw_book_new ();
  g_autoptr (GError) error = NULL;
  g_autofree BwKeptTray *seen = tray_of ("Ebb", 2, 1), *now = tray_of ("Ebb", 2, 7);
  g_autofree BwKeptTray *mine = tray_of ("Ebb", 5, 3);
  change (book, NULL, seen);
  change (book, seen, now);
  g_autofree char *before = bw_book_to_data (book, NULL);
  assert_false (bw_book_change_tray (book, seen, mine, &error));
  assert_string_equal (error->message, "this tray was changed by another program meanwhile");
  g_clear_error (&error);
  assert_false (bw_book_change_tray (book, seen, NULL, &error));
  g_autofree char *after = bw_book_to_data (book, NULL);
  assert_string_equal (after, before);
}

static void
what_is_not_known_stays_with_its_tray_and_colour (void **state)
{
  g_autoptr (BwBook) book
      = book_of (HEAD ", \"trays\": [{\"name\": \"Ebb\", \"mood\": 3, \"tray\": [{\"id\": \"a\", "
                      "\"srgb\": \"#102030\", \"shop\": \"quay\"}]}]}");
  g_autofree BwKeptTray *seen = g_new0 (BwKeptTray, 1);
  bw_book_get_tray (book, 0, seen);
  g_autofree BwKeptTray *mended = g_memdup2 (seen, sizeof *seen);
  mended->tray.colour[0].srgb = 0x405060;
  g_strlcpy (mended->name, "Flood", sizeof mended->name);
  change (book, seen, mended);
  g_autofree char *text = bw_book_to_data (book, NULL);
  assert_non_null (strstr (text, "\"mood\": 3"));
  assert_non_null (strstr (text, "\"shop\": \"quay\""));
  assert_non_null (strstr (text, "#405060"));
  assert_non_null (strstr (text, "\"name\": \"Flood\""));
}

static void
a_tray_that_cannot_be_is_named (void **state)
{
  static const char *const bad[][2] = {
    { "3", "/trays: " },
    { "[3]", "/trays/0: " },
    { "[{}]", "/trays/0/name: " },
    { "[{\"name\": 4, \"tray\": []}]", "/trays/0/name: " },
    { "[{\"name\": \" \", \"tray\": [{\"id\": \"a\"}]}]", "/trays/0/name: a name is needed." },
    { "[{\"name\": \"a\\nb\", \"tray\": [{\"id\": \"a\"}]}]", "/trays/0/name: " },
    { "[{\"name\": \"Ebb\"}]", "/trays/0/tray: " },
    { "[{\"name\": \"Ebb\", \"tray\": []}]", "/trays/0/tray: 0 colours were found" },
    { "[{\"name\": \"Ebb\", \"tray\": [{\"id\": \"ab\"}]}]", "/trays/0/tray/0/id: " },
    { "[{\"name\": \"Ebb\", \"tray\": [{\"id\": \"a\"}, {\"id\": \"a\"}]}]", "/trays/0/tray/1" },
    { "[{\"name\": \"Ebb\", \"tray\": [{\"id\": \"a\", \"in_hand_g\": -1}]}]", "/trays/0/tray/0/" },
    { "[{\"name\": \"Ebb\", \"tray\": [{}]}, {\"name\": \"Ebb\", \"tray\": [{}]}]",
      "/trays/1/name: “Ebb” is the name of another one." },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++) {
    g_autofree char *text = g_strdup_printf (HEAD ", \"trays\": %s}", bad[i][0]);
    g_autoptr (GError) error = NULL;
    assert_null (bw_book_from_data (text, strlen (text), &error));
    if (!g_str_has_prefix (error->message, bad[i][1]))
      fail_msg ("%s: %s", bad[i][0], error->message);
  }
}

static void
another_books_trays_come_in_beside_ones_own (void **state)
{
  g_autoptr (BwBook) own = bw_book_new (), theirs = bw_book_new ();
  put (own, "Ebb", 2, 1);
  put (own, "Flood", 3, 2);
  put (theirs, "Ebb", 4, 5);
  put (theirs, "Flood", 3, 2);
  put (theirs, "Slack", 3, 2);
  for (int twice = 0; twice < 2; twice++)
    assert_true (bw_book_take_in (own, theirs, NULL));
  assert_int_equal (bw_book_n_trays (own), 4);
  assert_string_equal (bw_book_tray_name (own, 0), "Ebb");
  assert_string_equal (bw_book_tray_name (own, 2), "Ebb 2");
  assert_string_equal (bw_book_tray_name (own, 3), "Slack");
  g_autofree BwKeptTray *found = g_new0 (BwKeptTray, 1);
  bw_book_get_tray (own, 0, found);
  assert_int_equal (found->tray.n_colours, 2);
  bw_book_get_tray (own, 2, found);
  assert_int_equal (found->tray.n_colours, 4);
}

static BwBook *
book_of_many (guint n)
{
  g_autoptr (GString) text = g_string_new (HEAD ", \"trays\": [");
  for (guint i = 0; i < n; i++)
    g_string_append_printf (text, "%s{\"name\": \"T%u\", \"tray\": [{\"id\": \"a\"}]}",
                            i ? ", " : "", i);
  g_string_append (text, "]}");
  return book_of (text->str);
}

static void
a_full_list_takes_no_more (void **state)
{
  g_autoptr (BwBook) book = book_of_many (BW_BOOK_TRAYS_MAX);
  g_autoptr (BwBook) other = book_of_many (1);
  g_autoptr (GError) error = NULL;
  g_autofree BwKeptTray *more = tray_of ("One more", 2, 1);
  assert_int_equal (bw_book_n_trays (book), BW_BOOK_TRAYS_MAX);
  assert_false (bw_book_change_tray (book, NULL, more, &error));
  assert_string_equal (error->message,
                       "/trays: a list of length 10001 was found; at most 10000 can be kept.");
  assert_false (bw_book_take_in (book, other, NULL));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (trays_come_back_as_they_were_put_in),
    cmocka_unit_test (a_tray_is_mended_renamed_and_taken_out),
    cmocka_unit_test (two_trays_never_have_one_name),
    cmocka_unit_test (what_was_changed_meanwhile_is_not_written_over),
    cmocka_unit_test (what_is_not_known_stays_with_its_tray_and_colour),
    cmocka_unit_test (a_tray_that_cannot_be_is_named),
    cmocka_unit_test (another_books_trays_come_in_beside_ones_own),
    cmocka_unit_test (a_full_list_takes_no_more),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
