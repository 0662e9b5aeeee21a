/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The book's own kinds of bead: what is kept, refused and used of them. */
#include "config.h"

#include "project/book/book-beads.h"
#include "project/book/book-file.h"
#include "project/book/book-only.h"
#include "project/fault/fault-error.h"
#include "project/file/sizes.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#define HEAD "{\"format\": \"bandwright-book\", \"version\": 1, "
#define BEAD "\"name\": \"Mine\", \"diameter_mm\": 1.6, \"length_mm\": 1.3, \"hole_mm\": 0.8"

static BwBook *
book_of (const char *text)
{
  g_autoptr (GError) error = NULL;
  BwBook *book = bw_book_from_data (text, strlen (text), &error);
  if (!book)
    fail_msg ("%s", error->message);
  return book;
}

static BwBeadKind
kind_of (const char *name)
{
  BwBeadKind kind = { .bead = { "", 1.62, 1.33, 0.8, 2.5 },
                      .finishes = 1u << BW_FINISH_MATTE | 1u << BW_FINISH_METAL,
                      .article = "TW-0310",
                      .price = 3.2,
                      .pack_g = 5,
                      .currency = "EUR",
                      .per_100_g = 0.52,
                      .lot = "2026-10",
                      .note = "from the harbour fair" };
  g_strlcpy (kind.bead.name, name, sizeof kind.bead.name);
  return kind;
}

static void
put (BwBook *book, const BwBeadKind *before, const BwBeadKind *kind)
{
  g_autoptr (GError) error = NULL;
  if (!bw_book_change_bead (book, before, kind, &error))
    fail_msg ("%s", error->message);
}

static void
assert_near (double a, double b)
{
  if (!(fabs (a - b) <= 1e-12 * fmax (1, fabs (b))))
    fail_msg ("%.17g is not %.17g", a, b);
}

static void
assert_same_kind (const BwBeadKind *a, const BwBeadKind *b)
{
  assert_string_equal (a->bead.name, b->bead.name);
  assert_near (a->bead.diameter_mm, b->bead.diameter_mm);
  assert_near (a->bead.length_mm, b->bead.length_mm);
  assert_near (a->bead.hole_mm, b->bead.hole_mm);
  assert_near (a->bead.glass_g_cm3, b->bead.glass_g_cm3);
  assert_int_equal (a->finishes, b->finishes);
  assert_string_equal (a->article, b->article);
  assert_near (a->price, b->price);
  assert_near (a->pack_g, b->pack_g);
  assert_string_equal (a->currency, b->currency);
  assert_near (a->per_100_g, b->per_100_g);
  assert_string_equal (a->lot, b->lot);
  assert_string_equal (a->note, b->note);
}

/* --- What is kept ------------------------------------------------------------------------------
 */

static void
a_kind_comes_back_as_it_was_put_in (void **state)
{
  g_autoptr (BwBook) book = bw_book_new ();
  BwBeadKind kind = kind_of ("Mine"), found;
  put (book, NULL, &kind);
  g_autofree char *text = bw_book_to_data (book, NULL);
  g_autoptr (BwBook) again = book_of (text);
  assert_int_equal (bw_book_n_beads (again), 1);
  bw_book_get_bead (again, 0, &found);
  assert_same_kind (&found, &kind);
  g_autofree char *text_again = bw_book_to_data (again, NULL);
  assert_string_equal (text_again, text);
}

static void
random_word (GRand *rand, char *buffer, gsize bytes)
{
  static const char *const parts[] = { "reed ", "ä", "\"", "\\", "7", "–", "glass", "," };
  GString *word = g_string_new ("w");
  for (int i = g_rand_int_range (rand, 0, 6); i > 0; i--)
    g_string_append (word, parts[g_rand_int_range (rand, 0, G_N_ELEMENTS (parts))]);
  g_strlcpy (buffer, word->str, bytes);
  g_string_free (word, TRUE);
}

static BwBeadKind
random_kind (GRand *rand, int i)
{
  BwBeadKind kind = { .bead = { .glass_g_cm3 = 2.5 } };
  g_snprintf (kind.bead.name, sizeof kind.bead.name, "kind %d", i);
  kind.bead.diameter_mm = g_rand_double_range (rand, 0.5, 8);
  kind.bead.length_mm = g_rand_double_range (rand, 0.5, 8);
  kind.bead.hole_mm = kind.bead.diameter_mm * g_rand_double_range (rand, 0.2, 0.8);
  kind.finishes = (guint)g_rand_int_range (rand, 0, 1 << BW_N_FINISHES);
  if (g_rand_boolean (rand)) {
    kind.pack_g = g_rand_double_range (rand, 0.5, 100);
    kind.price = g_rand_double_range (rand, 0, 50);
  }
  if (g_rand_boolean (rand))
    kind.per_100_g = 100 * bw_bead_mass_g (&kind.bead) * g_rand_double_range (rand, 0.5, 3);
  random_word (rand, kind.article, sizeof kind.article);
  random_word (rand, kind.lot, sizeof kind.lot);
  random_word (rand, kind.note, sizeof kind.note);
  return kind;
}

static void
random_kinds_are_the_same_after_loading_and_saving (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (12);
  for (int round = 0; round < 100; round++) {
    g_autoptr (BwBook) book = bw_book_new ();
    BwBeadKind kinds[12];
    int n = g_rand_int_range (rand, 0, 12);
    for (int i = 0; i < n; i++) {
      kinds[i] = random_kind (rand, i);
      put (book, NULL, &kinds[i]);
    }
    g_autofree char *text = bw_book_to_data (book, NULL);
    g_autoptr (BwBook) again = book_of (text);
    g_autofree char *text_again = bw_book_to_data (again, NULL);
    assert_string_equal (text_again, text);
    assert_int_equal (bw_book_n_beads (again), n);
    for (int i = 0; i < n; i++) {
      BwBeadKind found;
      bw_book_get_bead (again, (guint)i, &found);
      assert_same_kind (&found, &kinds[i]);
    }
  }
}

static void
keys_that_are_not_known_stay_with_their_kind (void **state)
{
  g_autoptr (BwBook) book
      = book_of (HEAD "\"beads\": [{" BEAD ", \"drawer\": 7}], \"pieces\": []}");
  BwBeadKind before, after;
  bw_book_get_bead (book, 0, &before);
  after = before;
  g_strlcpy (after.bead.name, "Ours", sizeof after.bead.name);
  after.bead.hole_mm = 0.7;
  put (book, &before, &after);
  g_autofree char *text = bw_book_to_data (book, NULL);
  assert_non_null (strstr (text, "\"drawer\": 7"));
  assert_non_null (strstr (text, "\"Ours\""));
  assert_non_null (strstr (text, "\"hole_mm\": 0.7"));
  assert_null (strstr (text, "Mine"));
}

static void
a_kind_is_taken_out (void **state)
{
  g_autoptr (BwBook) book = bw_book_new ();
  BwBeadKind one = kind_of ("One"), two = kind_of ("Two");
  put (book, NULL, &one);
  put (book, NULL, &two);
  put (book, &one, NULL);
  assert_int_equal (bw_book_n_beads (book), 1);
  assert_string_equal (bw_book_bead_name (book, 0), "Two");
}

/* --- What is refused ---------------------------------------------------------------------------
 */

static void
what_cannot_be_is_one_sentence_that_names_the_key (void **state)
{
  static const char *const bad[][3] = {
    { "\"name\": \"\"", "\"diameter_mm\": 1.6, \"length_mm\": 1.3, \"hole_mm\": 0.8",
      "/beads/0/name: " },
    { "\"name\": \"  \"", "\"diameter_mm\": 1.6, \"length_mm\": 1.3, \"hole_mm\": 0.8",
      "/beads/0/name: " },
    { "\"hole_mm\": 1.7", "\"name\": \"a\", \"diameter_mm\": 1.6, \"length_mm\": 1.3",
      "/beads/0/hole_mm: " },
    { "\"diameter_mm\": 90", "\"name\": \"a\", \"length_mm\": 1.3, \"hole_mm\": 0.8",
      "/beads/0/diameter_mm: 90 mm is not between 0.3 mm and 30 mm." },
    { "\"length_mm\": 0.05", "\"name\": \"a\", \"diameter_mm\": 1.6, \"hole_mm\": 0.8",
      "/beads/0/length_mm: " },
    { "\"diameter_mm\": \"1,6\"", "\"name\": \"a\", \"length_mm\": 1.3, \"hole_mm\": 0.8",
      "/beads/0/diameter_mm: \"1,6\" was found; a number is needed." },
    { "\"per_100_g\": 52", BEAD,
      "/beads/0/per_100_g: 52 g was found; a hundred beads of this size "
      "weigh from 0.039 to 3.9 g." },
    { "\"price\": 3.2", BEAD, "/beads/0/pack_g: the grams are missing" },
    { "\"price\": -1, \"pack_g\": 5", BEAD, "/beads/0/price: " },
    { "\"finishes\": [\"matte\", \"shiny\"]", BEAD, "/beads/0/finishes/1: " },
    { "\"finishes\": \"matte\"", BEAD, "/beads/0/finishes: " },
    { "\"note\": \"two\\nlines\"", BEAD, "/beads/0/note: " },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++) {
    g_autofree char *text = g_strdup_printf (HEAD "\"beads\": [{%s, %s}]}", bad[i][1], bad[i][0]);
    g_autoptr (GError) error = NULL;
    assert_null (bw_book_from_data (text, strlen (text), &error));
    assert_int_equal (error->domain, BW_FAULT);
    if (!g_str_has_prefix (error->message, bad[i][2]))
      fail_msg ("%s", error->message);
  }
}

static void
a_name_is_one_kinds_alone (void **state)
{
  g_autoptr (BwBook) book = bw_book_new ();
  g_autoptr (GError) error = NULL;
  BwBeadKind one = kind_of ("One"), two = kind_of ("Two"), twin = kind_of ("One");
  put (book, NULL, &one);
  put (book, NULL, &two);
  assert_false (bw_book_change_bead (book, NULL, &twin, &error));
  assert_string_equal (bw_fault_sentence (error), "“One” is the name of another one.");
  g_clear_error (&error);
  assert_false (bw_book_change_bead (book, &two, &twin, &error));
  assert_int_equal (bw_book_n_beads (book), 2);
  assert_string_equal (bw_book_bead_name (book, 1), "Two");
}

static void
a_kind_changed_meanwhile_is_not_written_over (void **state)
{
  g_autoptr (BwBook) book = bw_book_new ();
  g_autoptr (GError) error = NULL;
  BwBeadKind old = kind_of ("One"), theirs = old, ours = old, found;
  put (book, NULL, &old);
  g_strlcpy (theirs.note, "counted by somebody else", sizeof theirs.note);
  put (book, &old, &theirs);
  ours.pack_g = 7;
  assert_false (bw_book_change_bead (book, &old, &ours, &error));
  assert_non_null (strstr (error->message, "changed by another program meanwhile"));
  g_clear_error (&error);
  assert_false (bw_book_change_bead (book, &old, NULL, &error));
  bw_book_get_bead (book, 0, &found);
  assert_same_kind (&found, &theirs);
}

static void
ten_thousand_kinds_are_kept_and_one_more_is_refused (void **state)
{
  g_autoptr (GString) text = g_string_new (HEAD "\"beads\": [");
  g_autoptr (GError) error = NULL;
  for (int i = 0; i < BW_BEAD_KINDS_MAX; i++)
    g_string_append_printf (text,
                            "%s{\"name\": \"k%d\", \"diameter_mm\": 1.6, \"length_mm\": 1.3, "
                            "\"hole_mm\": 0.8}",
                            i ? "," : "", i);
  g_string_append (text, "]}");
  g_autoptr (BwBook) book = book_of (text->str);
  BwBeadKind more = kind_of ("one more");
  assert_int_equal (bw_book_n_beads (book), BW_BEAD_KINDS_MAX);
  assert_false (bw_book_change_bead (book, NULL, &more, &error));
  assert_non_null (strstr (error->message, "at most 10000 can be kept"));
}

/* --- What is used ------------------------------------------------------------------------------
 */

static void
a_hundred_on_the_scale_tell_the_glass (void **state)
{
  BwBeadKind kind = kind_of ("Mine");
  BwBead bead = bw_bead_kind_bead (&kind);
  assert_near (100 * bw_bead_mass_g (&bead), 0.52);
  kind.per_100_g = 0;
  assert_near (bw_bead_kind_bead (&kind).glass_g_cm3, 2.5);
}

static void
its_price_is_that_of_a_pack_in_the_same_currency_alone (void **state)
{
  BwBeadKind kind = kind_of ("Mine");
  BwSupply supply = { .pack_g = 10, .pack = 1, .currency = "EUR" };
  assert_true (bw_bead_kind_price (&kind, &supply));
  assert_near (supply.pack, 3.2);
  assert_near (supply.pack_g, 5);
  BwSupply other = { .pack_g = 10, .pack = 1, .currency = "NOK" };
  assert_false (bw_bead_kind_price (&kind, &other));
  assert_near (other.pack, 1);
  assert_near (other.pack_g, 10);
  kind.currency[0] = '\0';
  assert_true (bw_bead_kind_price (&kind, &other));
  kind.price = 0;
  assert_false (bw_bead_kind_price (&kind, &other));
}

static const BwBead *
find_size (const GArray *sizes, const char *name)
{
  for (guint i = 0; i < sizes->len; i++)
    if (g_str_equal (g_array_index (sizes, BwBead, i).name, name))
      return &g_array_index (sizes, BwBead, i);
  return NULL;
}

static void
own_kinds_stand_among_the_sizes (void **state)
{
  g_autoptr (BwBook) book = bw_book_new ();
  BwBeadKind mine = kind_of ("Mine"), usual = kind_of ("8/0 cylinder");
  int n;
  put (book, NULL, &mine);
  put (book, NULL, &usual);
  g_autoptr (GArray) own = bw_book_bead_sizes (book);
  bw_bead_sizes (&n);
  bw_sizes_set_own (own);
  g_autoptr (GArray) sizes = bw_sizes_load (NULL);
  assert_int_equal (sizes->len, n + 1);
  assert_near (find_size (sizes, "Mine")->diameter_mm, 1.62);
  assert_near (100 * bw_bead_mass_g (find_size (sizes, "Mine")), 0.52);
  assert_near (find_size (sizes, "8/0 cylinder")->diameter_mm, 1.62);
  bw_sizes_set_own (NULL);
  g_autoptr (GArray) without = bw_sizes_load (NULL);
  assert_int_equal (without->len, n);
  assert_null (find_size (without, "Mine"));
}

/* A search over every one of ten thousand would not end. */
static void
of_many_sizes_the_nearest_different_ones_are_tried (void **state)
{
  g_autoptr (GArray) own = g_array_new (FALSE, TRUE, sizeof (BwBead));
  BwBead now = { "now", 1.6, 1.3, 0.8, 2.5 };
  for (int i = 0; i < 1000; i++) {
    BwBead bead = { "", 1.6 + 0.01 * (i / 10), 1.3, 0.8, 2.5 };
    g_snprintf (bead.name, sizeof bead.name, "own %d", i);
    g_array_append_val (own, bead);
  }
  bw_sizes_set_own (own);
  g_autoptr (GArray) near = bw_sizes_near (&now, 5);
  bw_sizes_set_own (NULL);
  assert_int_equal (near->len, 5);
  for (guint i = 0; i < near->len; i++) {
    assert_true (g_array_index (near, BwBead, i).diameter_mm < 1.645);
    for (guint k = 0; k < i; k++)
      assert_false (
          bw_bead_same_size (&g_array_index (near, BwBead, i), &g_array_index (near, BwBead, k)));
  }
  /* Of two of one size the maker's own is tried, not the table's. */
  assert_null (find_size (near, "11/0 cylinder"));
}

static void
another_books_kinds_are_read_in_and_none_is_lost (void **state)
{
  g_autoptr (BwBook) book = bw_book_new ();
  g_autoptr (BwBook) other = bw_book_new ();
  g_autoptr (GError) error = NULL;
  BwBeadKind one = kind_of ("One"), theirs = kind_of ("One"), two = kind_of ("Two"), found;
  theirs.bead.hole_mm = 0.9;
  put (book, NULL, &one);
  put (other, NULL, &theirs);
  put (other, NULL, &two);
  g_autoptr (BwBook) only = bw_book_only_beads (other);
  assert_int_equal (bw_book_n_beads (only), 2);
  if (!bw_book_take_in (book, only, &error))
    fail_msg ("%s", error->message);
  assert_int_equal (bw_book_n_beads (book), 3);
  bw_book_get_bead (book, 0, &found);
  assert_same_kind (&found, &one);
  bw_book_get_bead (book, (guint)bw_book_find_bead (book, "One 2"), &found);
  assert_near (found.bead.hole_mm, 0.9);
  assert_true (bw_book_find_bead (book, "Two") >= 0);
}

/* Read in twice, or written otherwise (as another program prints it, with its weight told), a kind
 * is no second one; a numbered one is found again too. */
static void
a_kind_that_is_read_in_again_is_recognised (void **state)
{
  static const char text[]
      = "{\"format\": \"bandwright-book\", \"version\": 1, \"beads\": [{\"hole_mm\": 0.80, "
        "\"diameter_mm\": 1.60, \"length_mm\": 1.3, \"name\": \"One\", \"finishes\": [], "
        "\"article\": \"\", \"per_100_g\": %.12g}]}";
  g_autoptr (BwBook) book = bw_book_new (), other = bw_book_new ();
  g_autoptr (GError) error = NULL;
  BwBeadKind one = kind_of ("One"), theirs = one;
  one.per_100_g = 0;
  one.bead.diameter_mm = 1.6;
  one.bead.length_mm = 1.3;
  one.bead.hole_mm = 0.8;
  theirs.bead.hole_mm = 0.9;
  memset (&one.finishes, 0, sizeof one.finishes);
  *one.article = *one.lot = *one.note = *one.currency = '\0';
  one.price = one.pack_g = 0;
  put (book, NULL, &one);
  put (other, NULL, &theirs);
  BwBead bead = bw_bead_kind_bead (&one);
  g_autofree char *printed = g_strdup_printf (text, 100 * bw_bead_mass_g (&bead));
  g_autoptr (BwBook) written = bw_book_from_data (printed, strlen (printed), &error);
  if (!written)
    fail_msg ("%s", error->message);
  for (int twice = 0; twice < 2; twice++) {
    assert_true (bw_book_take_in (book, other, NULL));
    assert_true (bw_book_take_in (book, written, NULL));
    assert_int_equal (bw_book_n_beads (book), 2);
  }
  theirs.bead.hole_mm = 0.7;
  g_autoptr (BwBook) third = bw_book_new ();
  put (third, NULL, &theirs);
  assert_true (bw_book_take_in (book, third, NULL));
  assert_true (bw_book_find_bead (book, "One 3") >= 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_kind_comes_back_as_it_was_put_in),
    cmocka_unit_test (random_kinds_are_the_same_after_loading_and_saving),
    cmocka_unit_test (keys_that_are_not_known_stay_with_their_kind),
    cmocka_unit_test (a_kind_is_taken_out),
    cmocka_unit_test (what_cannot_be_is_one_sentence_that_names_the_key),
    cmocka_unit_test (a_name_is_one_kinds_alone),
    cmocka_unit_test (a_kind_changed_meanwhile_is_not_written_over),
    cmocka_unit_test (ten_thousand_kinds_are_kept_and_one_more_is_refused),
    cmocka_unit_test (a_hundred_on_the_scale_tell_the_glass),
    cmocka_unit_test (its_price_is_that_of_a_pack_in_the_same_currency_alone),
    cmocka_unit_test (own_kinds_stand_among_the_sizes),
    cmocka_unit_test (of_many_sizes_the_nearest_different_ones_are_tried),
    cmocka_unit_test (another_books_kinds_are_read_in_and_none_is_lost),
    cmocka_unit_test (a_kind_that_is_read_in_again_is_recognised),
  };
  return cmocka_run_group_tests_name ("kinds", tests, NULL, NULL);
}
