/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stash: what is kept, what of it is whose, and what pieces take from it. */
#include "config.h"

#include "project/book/book-file.h"
#include "project/book/book-only.h"
#include "project/book/book-stash.h"
#include "project/fault/fault-error.h"
#include "project/stash-wants.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#define HEAD "{\"format\": \"bandwright-book\", \"version\": 1, "

static BwBook *
book_of (const char *text)
{
  g_autoptr (GError) error = NULL;
  BwBook *book = bw_book_from_data (text, strlen (text), &error);
  if (!book)
    fail_msg ("%s", error->message);
  return book;
}

static BwStashItem
beads_of (const char *name, const char *article, double grams)
{
  BwStashItem item = { .what = BW_STASH_BEADS,
                       .bead = "11/0 cylinder",
                       .has_srgb = TRUE,
                       .srgb = 0x1b2a41,
                       .finish = BW_FINISH_MATTE,
                       .amount = grams };
  g_strlcpy (item.name, name, sizeof item.name);
  g_strlcpy (item.article, article, sizeof item.article);
  return item;
}

static BwStashItem
cord_of (BwStashWhat what, const char *name, double width_mm, double length_mm)
{
  BwStashItem item = { .what = what, .width_mm = width_mm, .amount = length_mm };
  g_strlcpy (item.name, name, sizeof item.name);
  return item;
}

static void
put (BwBook *book, const BwStashItem *before, const BwStashItem *item)
{
  g_autoptr (GError) error = NULL;
  if (!bw_book_change_stash (book, before, item, &error))
    fail_msg ("%s", error->message);
}

static double
amount_at (const BwBook *book, guint i)
{
  BwStashItem item;
  bw_book_get_stash (book, i, &item);
  return item.amount;
}

static void
assert_near (double a, double b)
{
  if (!(fabs (a - b) <= 1e-9 * fmax (1, fabs (b))))
    fail_msg ("%.17g is not %.17g", a, b);
}

/* --- What is kept ------------------------------------------------------------------------------
 */

static BwStashItem
random_item (GRand *rand, int i)
{
  BwStashItem item = { .what = (BwStashWhat)g_rand_int_range (rand, 0, BW_N_STASH) };
  g_snprintf (item.name, sizeof item.name, "thing “%d”", i);
  g_snprintf (item.article, sizeof item.article, "%s", g_rand_boolean (rand) ? "TW-7" : "");
  g_snprintf (item.note, sizeof item.note, "%s", g_rand_boolean (rand) ? "top, left" : "");
  item.amount = g_rand_int_range (rand, 0, 500);
  if (item.what == BW_STASH_BEADS) {
    g_strlcpy (item.bead, "8/0 cylinder", sizeof item.bead);
    item.has_srgb = g_rand_boolean (rand);
    item.srgb = item.has_srgb ? (guint32)g_rand_int_range (rand, 0, 0x1000000) : 0;
    item.finish = (BwFinish)g_rand_int_range (rand, 0, BW_N_FINISHES);
    item.amount += g_rand_double (rand);
  } else if (bw_stash_measure (item.what) == BW_STASH_BY_LENGTH) {
    item.width_mm = g_rand_boolean (rand) ? g_rand_double_range (rand, 0.1, 3) : 0;
  }
  return item;
}

static void
random_stashes_are_the_same_after_loading_and_saving (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (34);
  for (int round = 0; round < 100; round++) {
    g_autoptr (BwBook) book = bw_book_new ();
    BwStashItem items[10];
    int n = g_rand_int_range (rand, 0, 10);
    for (int i = 0; i < n; i++) {
      items[i] = random_item (rand, i);
      put (book, NULL, &items[i]);
    }
    g_autofree char *text = bw_book_to_data (book, NULL);
    g_autoptr (BwBook) again = book_of (text);
    g_autofree char *text_again = bw_book_to_data (again, NULL);
    assert_string_equal (text_again, text);
    for (int i = 0; i < n; i++) {
      BwStashItem found;
      bw_book_get_stash (again, (guint)i, &found);
      assert_true (bw_stash_item_is (&found, &items[i]));
      assert_near (found.amount, items[i].amount);
      assert_int_equal (found.has_srgb, items[i].has_srgb);
      assert_int_equal (found.srgb, items[i].srgb);
      assert_string_equal (found.note, items[i].note);
    }
  }
}

static void
what_cannot_be_is_one_sentence_that_names_the_key (void **state)
{
  static const char *const bad[][2] = {
    { "\"what\": \"beads\", \"name\": \"a\", \"bead\": \"b\", \"grams\": -1", "/stash/0/grams: " },
    { "\"what\": \"beads\", \"name\": \"a\", \"bead\": \"b\", \"grams\": 1e999",
      "/stash/0/grams: " },
    { "\"what\": \"beads\", \"name\": \"a\", \"grams\": 1", "/stash/0/bead: " },
    { "\"what\": \"beads\", \"bead\": \"b\", \"grams\": 1", "/stash/0/name: " },
    { "\"what\": \"beads\", \"name\": \"a\", \"bead\": \"b\"", "/stash/0/grams: this key is" },
    { "\"what\": \"sequins\", \"name\": \"a\", \"count\": 1", "/stash/0/what: " },
    { "\"what\": \"clasp\", \"name\": \"a\", \"count\": 1.5", "/stash/0/count: 1.5 was found" },
    { "\"what\": \"thread\", \"name\": \"a\", \"length_mm\": 1, \"width_mm\": -3",
      "/stash/0/width_mm: " },
    { "\"what\": \"beads\", \"name\": \"a\", \"bead\": \"b\", \"grams\": 1, \"srgb\": \"blue\"",
      "/stash/0/srgb: " },
    { "\"what\": \"beads\", \"name\": \"a\", \"bead\": \"b\", \"grams\": 1, \"finish\": \"wet\"",
      "/stash/0/finish: " },
    { "\"what\": \"ring\", \"name\": \"a\", \"count\": 1}, {\"what\": \"ring\", \"name\": \"a\", "
      "\"count\": 2",
      "/stash/1: “a” is in the stash already" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++) {
    g_autofree char *text = g_strdup_printf (HEAD "\"stash\": [{%s}]}", bad[i][0]);
    g_autoptr (GError) error = NULL;
    assert_null (bw_book_from_data (text, strlen (text), &error));
    if (!g_str_has_prefix (error->message, bad[i][1]))
      fail_msg ("%s", error->message);
  }
}

static void
one_thing_stands_in_one_place_and_lots_are_kept_apart (void **state)
{
  g_autoptr (BwBook) book = bw_book_new ();
  g_autoptr (GError) error = NULL;
  BwStashItem first = beads_of ("Night water", "", 5), lot = first, more = first;
  g_strlcpy (lot.lot, "2026-10", sizeof lot.lot);
  more.amount = 8;
  put (book, NULL, &first);
  put (book, NULL, &lot);
  assert_false (bw_book_change_stash (book, NULL, &more, &error));
  assert_non_null (strstr (error->message, "is in the stash already"));
  put (book, &first, &more);
  assert_int_equal (bw_book_n_stash (book), 2);
  assert_near (amount_at (book, 0), 8);
  g_clear_error (&error);
  assert_false (bw_book_change_stash (book, &first, &lot, &error));
  assert_non_null (strstr (error->message, "changed by another program meanwhile"));
  put (book, &more, NULL);
  assert_int_equal (bw_book_n_stash (book), 1);
}

/* What is read in was counted: it takes the place of what it is the same thing as. */
static void
a_stash_that_is_read_in_twice_is_not_doubled (void **state)
{
  g_autoptr (BwBook) book = bw_book_new ();
  g_autoptr (BwBook) other = bw_book_new ();
  g_autoptr (GError) error = NULL;
  BwStashItem own = beads_of ("Night water", "", 5), theirs = own,
              thread = cord_of (BW_STASH_THREAD, "Smoke", 0.15, 45000);
  theirs.amount = 3;
  put (book, NULL, &own);
  put (other, NULL, &theirs);
  put (other, NULL, &thread);
  g_autoptr (BwBook) only = bw_book_only_stash (other);
  for (int twice = 0; twice < 2; twice++)
    if (!bw_book_take_in (book, only, &error))
      fail_msg ("%s", error->message);
  assert_int_equal (bw_book_n_stash (book), 2);
  assert_near (amount_at (book, 0), 3);
  assert_near (amount_at (book, 1), 45000);
}

/* --- What is whose -----------------------------------------------------------------------------
 */

static BwColour
colour_of (const char *name, const char *article)
{
  BwColour colour = { .id = 'a', .finish = BW_FINISH_MATTE };
  g_strlcpy (colour.name, name, sizeof colour.name);
  g_strlcpy (colour.article, article, sizeof colour.article);
  return colour;
}

static BwStashWant
want_beads (const BwColour *colour, double grams)
{
  return (BwStashWant){
    .what = BW_STASH_BEADS, .bead = "11/0 cylinder", .colour = colour, .wanted = grams
  };
}

static void
beads_are_the_same_by_article_else_by_name (void **state)
{
  static const struct {
    const char *name, *article, *wanted, *wanted_article;
    gboolean same;
  } pairs[] = {
    { "Night water", "", "night WATER", "", TRUE },
    { "Night water", "T1", "Night water", "", TRUE },
    { "Night water", "T1", "Night water", "T2", FALSE },
    { "Deep", "T1", "Night water", "T1", TRUE },
    { "Deep", "", "Night water", "", FALSE },
    { "Ärmel", "", "ärmel", "", TRUE },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (pairs); i++) {
    g_autoptr (BwBook) book = bw_book_new ();
    BwStashItem item = beads_of (pairs[i].name, pairs[i].article, 5);
    BwColour colour = colour_of (pairs[i].wanted, pairs[i].wanted_article);
    BwStashWant want = want_beads (&colour, 2);
    put (book, NULL, &item);
    g_autoptr (BwStash) stash = bw_stash_new (book);
    bw_stash_hold (stash, &want, 1, NULL);
    assert_int_equal (want.is_known, pairs[i].same);
    assert_near (want.there, pairs[i].same ? 5 : 0);
    colour.finish = BW_FINISH_CLEAR;
    bw_stash_hold (stash, &want, 1, NULL);
    assert_false (want.is_known);
    colour.finish = BW_FINISH_MATTE;
    want.bead = "8/0 cylinder";
    bw_stash_hold (stash, &want, 1, NULL);
    assert_false (want.is_known);
  }
}

static void
cord_is_the_same_within_a_tenth_or_where_nothing_is_told (void **state)
{
  static const struct {
    double stash_mm, wanted_mm;
    gboolean same;
  } pairs[] = { { 1, 1, TRUE }, { 1.05, 1, TRUE },    { 1.2, 1, FALSE },   { 0.8, 1, FALSE },
                { 0, 1, TRUE }, { 0.15, 0.15, TRUE }, { 0.2, 0.15, FALSE } };
  for (gsize i = 0; i < G_N_ELEMENTS (pairs); i++) {
    g_autoptr (BwBook) book = bw_book_new ();
    BwStashItem item = cord_of (BW_STASH_THREAD, "Smoke", pairs[i].stash_mm, 45000);
    BwStashWant wants[]
        = { { .what = BW_STASH_THREAD, .width_mm = pairs[i].wanted_mm, .wanted = 9 },
            { .what = BW_STASH_BED_CORD, .width_mm = 1, .wanted = 9 } };
    put (book, NULL, &item);
    g_autoptr (BwStash) stash = bw_stash_new (book);
    bw_stash_hold (stash, wants, 2, NULL);
    assert_int_equal (wants[0].is_known, pairs[i].same);
    assert_false (wants[1].is_known);
  }
}

/* Every gram goes once, whatever is wanted, and no more is taken than is there. */
static void
what_is_there_goes_once (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (7);
  for (int round = 0; round < 500; round++) {
    g_autoptr (BwBook) book = bw_book_new ();
    g_autoptr (GArray) shares = g_array_new (FALSE, FALSE, sizeof (BwStashShare));
    BwColour colour = colour_of ("Night water", "");
    BwStashWant wants[4];
    double there = 0, wanted = 0, taken = 0, shared = 0;
    for (int i = 0; i < 3; i++) {
      BwStashItem item = beads_of ("Night water", "", g_rand_double_range (rand, 0, 5));
      g_snprintf (item.lot, sizeof item.lot, "lot %d", i);
      there += item.amount;
      put (book, NULL, &item);
    }
    for (int k = 0; k < 4; k++) {
      wants[k] = want_beads (&colour, g_rand_double_range (rand, 0, 5));
      wanted += wants[k].wanted;
    }
    g_autoptr (BwStash) stash = bw_stash_new (book);
    bw_stash_hold (stash, wants, 4, shares);
    for (int k = 0; k < 4; k++) {
      assert_true (wants[k].taken <= wants[k].wanted + 1e-12);
      taken += wants[k].taken;
    }
    for (guint i = 0; i < shares->len; i++)
      shared += g_array_index (shares, BwStashShare, i).amount;
    assert_near (taken, fmin (there, wanted));
    assert_near (shared, taken);
    assert_near (wants[0].there, there);
  }
}

static void
without_a_stash_nothing_is_known (void **state)
{
  BwColour colour = colour_of ("Night water", "");
  BwStashWant want = want_beads (&colour, 2);
  bw_stash_hold (NULL, &want, 1, NULL);
  assert_false (want.is_known);
  assert_near (want.taken, 0);
}

/* --- What pieces take --------------------------------------------------------------------------
 */

static BwStashTaking
taking_of (const char *piece, const BwStashItem *item, double amount)
{
  BwStashTaking taking = { .title = "Lantern", .date = "2026-11-30" };
  BwStashItem share = *item;
  share.amount = amount;
  g_strlcpy (taking.piece, piece, sizeof taking.piece);
  taking.of = g_array_new (FALSE, FALSE, sizeof (BwStashItem));
  g_array_append_val (taking.of, share);
  return taking;
}

static void
take (BwBook *book, const BwStashTaking *taking)
{
  g_autoptr (GError) error = NULL;
  if (!bw_book_take (book, taking, &error))
    fail_msg ("%s", error->message);
}

static void
a_piece_takes_once_and_never_below_nothing (void **state)
{
  g_autoptr (BwBook) book = bw_book_new ();
  BwStashItem item = beads_of ("Night water", "", 5);
  put (book, NULL, &item);
  g_auto (BwStashTaking) two = taking_of ("one", &item, 2), nine = taking_of ("two", &item, 9);
  take (book, &two);
  assert_near (amount_at (book, 0), 3);
  take (book, &two);
  assert_near (amount_at (book, 0), 3);
  take (book, &nine);
  assert_near (amount_at (book, 0), 0);
  g_auto (BwStashTaking) noted = { .of = NULL };
  assert_int_equal (bw_book_n_takings (book), 2);
  bw_book_get_taking (book, 1, &noted);
  assert_near (g_array_index (noted.of, BwStashItem, 0).amount, 3);
  g_autofree char *text = bw_book_to_data (book, NULL);
  g_autoptr (BwBook) again = book_of (text);
  g_autofree char *text_again = bw_book_to_data (again, NULL);
  assert_string_equal (text_again, text);
}

static void
what_was_taken_is_put_back_also_where_the_item_is_gone (void **state)
{
  g_autoptr (BwBook) book = bw_book_new ();
  g_autoptr (GError) error = NULL;
  BwStashItem item = beads_of ("Night water", "", 5), left = item;
  put (book, NULL, &item);
  g_auto (BwStashTaking) taking = taking_of ("one", &item, 2);
  take (book, &taking);
  assert_true (bw_book_put_back (book, "one", &error));
  assert_near (amount_at (book, 0), 5);
  assert_int_equal (bw_book_n_takings (book), 0);
  take (book, &taking);
  left.amount = 3;
  put (book, &left, NULL);
  assert_int_equal (bw_book_n_stash (book), 0);
  assert_true (bw_book_put_back (book, "one", &error));
  assert_near (amount_at (book, 0), 2);
  assert_true (bw_book_put_back (book, "nobody", &error));
}

static void
nothing_there_is_nothing_taken (void **state)
{
  g_autoptr (BwBook) book = bw_book_new ();
  BwStashItem item = beads_of ("Night water", "", 5);
  g_auto (BwStashTaking) taking = taking_of ("one", &item, 2);
  take (book, &taking);
  assert_int_equal (bw_book_n_takings (book), 0);
  assert_int_equal (bw_book_n_stash (book), 0);
}

/* Beads without those to spare; the stopper bead comes off again. */
static void
a_piece_takes_what_is_in_it (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (BwBook) book = bw_book_new ();
  const BwDesign *design = bw_project_get_design (project);
  const BwMaterials *all = bw_project_materials (project);
  const BwColour *colour = &bw_project_get_tray (project)->colour[0];
  BwStashItem beads = { .what = BW_STASH_BEADS, .finish = colour->finish, .amount = 500 };
  BwStashItem stopper = { .what = BW_STASH_STOPPER, .name = "Red", .amount = 1 };
  BwStashItem thread = cord_of (BW_STASH_THREAD, "Smoke", design->thread.diameter_mm, 1000);
  g_strlcpy (beads.name, *colour->name ? colour->name : "plain", sizeof beads.name);
  g_strlcpy (beads.article, colour->article, sizeof beads.article);
  g_strlcpy (beads.bead, design->bead.name, sizeof beads.bead);
  put (book, NULL, &beads);
  put (book, NULL, &stopper);
  put (book, NULL, &thread);
  g_autoptr (BwStash) stash = bw_stash_new (book);
  g_auto (BwStashTaking) taking = { .of = NULL };
  bw_stash_taking_init (&taking, project, stash, "2026-11-30");
  gboolean named = *colour->name != '\0';
  assert_int_equal (taking.of->len, named ? 2 : 1);
  if (named)
    assert_near (g_array_index (taking.of, BwStashItem, 0).amount,
                 (double)all->need[0].count * bw_bead_mass_g (&design->bead));
  assert_near (g_array_index (taking.of, BwStashItem, taking.of->len - 1).amount, 1000);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (random_stashes_are_the_same_after_loading_and_saving),
    cmocka_unit_test (what_cannot_be_is_one_sentence_that_names_the_key),
    cmocka_unit_test (one_thing_stands_in_one_place_and_lots_are_kept_apart),
    cmocka_unit_test (a_stash_that_is_read_in_twice_is_not_doubled),
    cmocka_unit_test (beads_are_the_same_by_article_else_by_name),
    cmocka_unit_test (cord_is_the_same_within_a_tenth_or_where_nothing_is_told),
    cmocka_unit_test (what_is_there_goes_once),
    cmocka_unit_test (without_a_stash_nothing_is_known),
    cmocka_unit_test (a_piece_takes_once_and_never_below_nothing),
    cmocka_unit_test (what_was_taken_is_put_back_also_where_the_item_is_gone),
    cmocka_unit_test (nothing_there_is_nothing_taken),
    cmocka_unit_test (a_piece_takes_what_is_in_it),
  };
  return cmocka_run_group_tests_name ("stash", tests, NULL, NULL);
}
