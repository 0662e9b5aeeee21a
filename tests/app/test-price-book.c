/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Prices that outlive the program, and a file that is not what it should be. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "app/make/price-book.h"
#include "project/project.h"

#include <glib/gstdio.h>
#include <locale.h>
#include <math.h>
#include <string.h>

typedef struct {
  char *folder, *path;
} Place;

static int
set_up (void **state)
{
  Place *place = g_new0 (Place, 1);
  place->folder = g_dir_make_tmp ("price-book-XXXXXX", NULL);
  place->path = g_build_filename (place->folder, "bandwright", "prices.ini", NULL);
  *state = place;
  return 0;
}

static int
tear_down (void **state)
{
  Place *place = *state;
  g_autofree char *inner = g_path_get_dirname (place->path);
  g_remove (place->path);
  g_rmdir (inner);
  g_rmdir (place->folder);
  g_free (place->folder);
  g_free (place->path);
  g_free (place);
  return 0;
}

static BwSupply
some_prices (void)
{
  BwDesign design;
  bw_design_defaults (&design);
  design.supply.has_prices = TRUE;
  g_strlcpy (design.supply.currency, "kr", sizeof design.supply.currency);
  design.supply.pack = 31.7;
  design.supply.pack_g = 7.2;
  design.supply.thread_per_m = 0.1;
  design.supply.hanging_cord_per_m = 12.25;
  design.supply.findings = 1.0 / 3;
  design.supply.hour = 210;
  design.supply.rows_per_hour = 17.5;
  return design.supply;
}

static void
write_file (Place *place, const char *text)
{
  g_autofree char *inner = g_path_get_dirname (place->path);
  assert_int_equal (g_mkdir_with_parents (inner, 0700), 0);
  assert_true (g_file_set_contents (place->path, text, -1, NULL));
}

static void
a_first_start_remembers_nothing_and_complains_of_nothing (void **state)
{
  Place *place = *state;
  g_autoptr (BwPriceBook) book = bw_price_book_new (place->path);
  BwSupply supply = some_prices ();
  assert_false (bw_price_book_has_prices (book));
  assert_null (bw_price_book_get_fault (book));
  assert_false (bw_price_book_matches (book, &supply));
  assert_false (bw_price_book_fill (book, &supply));
  assert_false (g_file_test (place->path, G_FILE_TEST_EXISTS));
}

static void
prices_outlive_the_program_to_the_last_digit (void **state)
{
  Place *place = *state;
  BwSupply supply = some_prices (), later = { 0 };
  {
    g_autoptr (BwPriceBook) book = bw_price_book_new (place->path);
    bw_price_book_remember (book, &supply, 20);
    assert_null (bw_price_book_get_fault (book));
  }
  g_autoptr (BwPriceBook) again = bw_price_book_new (place->path);
  assert_true (bw_price_book_matches (again, &supply));
  assert_true (bw_price_book_fill (again, &later));
  assert_string_equal (later.currency, "kr");
  assert_true (fabs (later.findings - 1.0 / 3) < 1e-15);
  assert_true (fabs (later.pack_g - 7.2) < 1e-15);
  assert_true (fabs (later.rows_per_hour - 17.5) < 1e-15);
  assert_int_equal (later.pace_columns, 20); /* of the band it was told of */
  assert_true (later.has_prices);
}

static void
a_new_project_starts_with_them_and_has_nothing_to_undo (void **state)
{
  BwSupply supply = some_prices ();
  supply.pieces = 12;
  supply.neck_mm = 700;
  g_autoptr (BwProject) project = bw_project_new_priced (&supply);
  const BwSupply *own = &bw_project_get_design (project)->supply;
  assert_true (own->has_prices);
  assert_true (fabs (own->pack - 31.7) < 1e-12);
  assert_string_equal (own->currency, "kr");
  assert_int_equal (own->pieces, 1);
  assert_true (fabs (own->neck_mm - 457.2) < 1e-9);
  assert_false (bw_project_can_undo (project));
  assert_false (bw_project_get_modified (project));
}

static void
prices_that_cannot_be_do_not_spoil_a_new_project (void **state)
{
  BwSupply supply = some_prices ();
  supply.hour = -1;
  g_autoptr (BwProject) project = bw_project_new_priced (&supply);
  assert_false (bw_project_get_design (project)->supply.has_prices);
}

static void
examples_are_nobodys_own_and_an_edit_of_them_is_followed (void **state)
{
  Place *place = *state;
  BwDesign design;
  bw_design_defaults (&design);
  g_autoptr (BwPriceBook) book = bw_price_book_new (place->path);
  assert_false (bw_prices_are_examples (&design.supply));
  design.supply.has_prices = TRUE;
  assert_true (bw_prices_are_examples (&design.supply));
  assert_true (bw_price_book_follows (book, &design.supply));
  design.supply.stone += 0.5;
  assert_false (bw_prices_are_examples (&design.supply));
  assert_false (bw_price_book_follows (book, &design.supply));
}

static void
an_edit_is_followed_only_where_the_prices_were_the_makers_own (void **state)
{
  Place *place = *state;
  BwSupply mine = some_prices (), none = some_prices (), other = some_prices ();
  none.has_prices = FALSE;
  other.stone = 99;
  g_autoptr (BwPriceBook) book = bw_price_book_new (place->path);
  assert_true (bw_price_book_follows (book, &none));
  assert_false (bw_price_book_follows (book, &other));
  bw_price_book_remember (book, &mine, 20);
  assert_true (bw_price_book_follows (book, &mine));
  assert_false (bw_price_book_follows (book, &other));
  assert_false (bw_price_book_follows (book, &none));
}

static void
taking_the_cost_away_forgets_nothing (void **state)
{
  Place *place = *state;
  BwSupply mine = some_prices (), none = { 0 };
  g_autoptr (BwPriceBook) book = bw_price_book_new (place->path);
  bw_price_book_remember (book, &mine, 20);
  bw_price_book_remember (book, &none, 20);
  assert_true (bw_price_book_matches (book, &mine));
}

/* Each file, and a word of the sentence that tells why it is not taken. */
static void
a_broken_book_is_told_and_left_alone (void **state)
{
  static const struct {
    const char *text, *word;
  } broken[] = {
    { "not a key file", "read" },
    { "[prices]\ncurrency=EUR\nhour=-5\n", "-5" },
    { "[prices]\ncurrency=EUR\nstone=1e300\n", "1e+300" },
    { "[prices]\ncurrency=EUR\npack=dear\n", "pack" },
    { "[prices]\ncurrency=a currency of the realm\n", "too long" },
    { "[prices]\ncurrency=EUR\nrows_per_hour=0\n", "0" },
  };
  Place *place = *state;
  for (gsize i = 0; i < G_N_ELEMENTS (broken); i++) {
    g_autofree char *after = NULL;
    write_file (place, broken[i].text);
    g_autoptr (BwPriceBook) book = bw_price_book_new (place->path);
    assert_false (bw_price_book_has_prices (book));
    assert_non_null (bw_price_book_get_fault (book));
    assert_non_null (strstr (bw_price_book_get_fault (book), broken[i].word));
    BwSupply none = { 0 };
    assert_false (bw_price_book_follows (book, &none));
    assert_true (g_file_get_contents (place->path, &after, NULL, NULL));
    assert_string_equal (after, broken[i].text);
  }
}

static void
a_book_of_an_older_version_keeps_what_it_has (void **state)
{
  Place *place = *state;
  BwSupply supply = { 0 };
  write_file (place, "[prices]\ncurrency=EUR\npack=4\n");
  g_autoptr (BwPriceBook) book = bw_price_book_new (place->path);
  assert_true (bw_price_book_fill (book, &supply));
  assert_true (fabs (supply.pack - 4) < 1e-15);
  assert_true (fabs (supply.findings) < 1e-15);
}

static void
a_folder_that_cannot_be_written_is_told (void **state)
{
  BwSupply supply = some_prices ();
  g_autoptr (BwPriceBook) book = bw_price_book_new ("/proc/no/such/prices.ini");
  bw_price_book_remember (book, &supply, 20);
  assert_non_null (strstr (bw_price_book_get_fault (book), "could not be remembered"));
  assert_true (bw_price_book_matches (book, &supply));
}

/* A faulty escape gives a text and an error at once; nothing is believed, and one fault is told. */
static void
a_book_with_a_fault_is_told_once_and_not_believed (void **state)
{
  static const char *const books[] = {
    "[prices]\ncurrency=E\\q\npack=3\n",
    "[prices]\ncurrency=E\\q and far too long for a currency\n",
    "[prices]\ncurrency=E\\q\npack=dear\n",
    "[prices]\ncurrency=\xff\npack=3\n",
    "[prices]\ncurrency=E\\t\n",
    "[prices]\ncurrency=EUR\npack=nan\n",
    "[prices]\ncurrency=EUR\npack=inf\n",
    "[prices]\ncurrency=EUR\npack=0x10\n",
    "[prices]\ncurrency=EUR\npack=3,5\n",
    "[prices]\ncurrency=EUR\npack=3.5 or so\n",
    "[prices]\ncurrency=EUR\npack=1e999\n",
    "[prices]\ncurrency=EUR\npack=\n",
  };
  Place *place = *state;
  g_autofree char *folder = g_path_get_dirname (place->path);
  assert_int_equal (g_mkdir_with_parents (folder, 0700), 0);
  for (gsize i = 0; i < G_N_ELEMENTS (books); i++) {
    assert_true (g_file_set_contents (place->path, books[i], -1, NULL));
    g_autoptr (BwPriceBook) book = bw_price_book_new (place->path);
    if (bw_price_book_has_prices (book) || !bw_price_book_get_fault (book))
      fail_msg ("book %d was believed", (int)i);
    assert_true (g_str_has_prefix (bw_price_book_get_fault (book), "Your remembered prices"));
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown (a_first_start_remembers_nothing_and_complains_of_nothing,
                                     set_up, tear_down),
    cmocka_unit_test_setup_teardown (prices_outlive_the_program_to_the_last_digit, set_up,
                                     tear_down),
    cmocka_unit_test (a_new_project_starts_with_them_and_has_nothing_to_undo),
    cmocka_unit_test (prices_that_cannot_be_do_not_spoil_a_new_project),
    cmocka_unit_test_setup_teardown (examples_are_nobodys_own_and_an_edit_of_them_is_followed,
                                     set_up, tear_down),
    cmocka_unit_test_setup_teardown (an_edit_is_followed_only_where_the_prices_were_the_makers_own,
                                     set_up, tear_down),
    cmocka_unit_test_setup_teardown (a_book_with_a_fault_is_told_once_and_not_believed, set_up,
                                     tear_down),
    cmocka_unit_test_setup_teardown (taking_the_cost_away_forgets_nothing, set_up, tear_down),
    cmocka_unit_test_setup_teardown (a_broken_book_is_told_and_left_alone, set_up, tear_down),
    cmocka_unit_test_setup_teardown (a_book_of_an_older_version_keeps_what_it_has, set_up,
                                     tear_down),
    cmocka_unit_test (a_folder_that_cannot_be_written_is_told),
  };
  return cmocka_run_group_tests_name ("price book", tests, NULL, NULL);
}
