/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fixture.h"

#include "project/document/length.h"
#include "project/document/units.h"
#include <math.h>

static void
an_inch_length_is_written_as_short_as_it_is (void **state)
{
  double mm;
  for (int tenths = 1; tenths < 300; tenths++) {
    g_autofree char *text = g_strdup_printf ("%d.%d in", tenths / 10, tenths % 10);
    g_autofree char *expected = g_strdup_printf ("%d.%02d", tenths * 254 / 100, tenths * 254 % 100);
    assert_true (bw_length_parse (text, BW_UNIT_MM, &mm, NULL));
    assert_true (mm == g_ascii_strtod (expected, NULL));
  }
}

static void
assert_length (const char *text, BwUnit unit, double mm)
{
  g_autoptr (GError) error = NULL;
  double found = -1;

  if (!bw_length_parse (text, unit, &found, &error))
    fail_msg ("%s", error->message);
  if (fabs (found - mm) > 1e-12 * fmax (1, fabs (mm)))
    fail_msg ("“%s” was read as %.17g mm instead of %.17g", text, found, mm);
}

static void
assert_refused (const char *text)
{
  g_autoptr (GError) error = NULL;
  double mm = 77;

  if (bw_length_parse (text, BW_UNIT_MM, &mm, &error))
    fail_msg ("“%s” was read as %g mm", text, mm);
  assert_fault (error, BW_FAULT_RANGE, "");
  assert_true (mm > 76 && mm < 78);
}

static void
millimetres_are_read_as_people_write_them (void **state)
{
  assert_length ("9.5", BW_UNIT_MM, 9.5);
  assert_length ("9,5 mm", BW_UNIT_MM, 9.5);
  assert_length (" 9.5mm ", BW_UNIT_INCH, 9.5);
  assert_length ("2 cm", BW_UNIT_MM, 20);
  assert_length ("2,4CM", BW_UNIT_MM, 24);
  assert_length (".5", BW_UNIT_MM, 0.5);
  assert_length ("7.", BW_UNIT_MM, 7);
  assert_length ("007 mm", BW_UNIT_MM, 7);
  assert_length ("-0.4", BW_UNIT_MM, -0.4);
  assert_length ("−0,4 mm", BW_UNIT_MM, -0.4);
  assert_length ("+1", BW_UNIT_MM, 1);
  assert_length ("1 1/2 mm", BW_UNIT_INCH, 1.5);
}

/* 25.4 mm to the inch exactly: international yard and pound agreement, 1959. */
static void
inches_and_their_fractions_are_read (void **state)
{
  assert_length ("3/8\"", BW_UNIT_MM, 9.525);
  assert_length ("1 3/8 in", BW_UNIT_MM, 34.925);
  assert_length ("0.375in", BW_UNIT_MM, 9.525);
  assert_length ("0,375 inches", BW_UNIT_MM, 9.525);
  assert_length ("1 inch", BW_UNIT_MM, 25.4);
  assert_length ("2″", BW_UNIT_MM, 50.8);
  assert_length ("2''", BW_UNIT_MM, 50.8);
  assert_length ("2”", BW_UNIT_MM, 50.8);
  assert_length ("1½ in", BW_UNIT_MM, 38.1);
  assert_length ("1 ⅜", BW_UNIT_INCH, 34.925);
  assert_length ("¾\"", BW_UNIT_MM, 19.05);
  assert_length ("1 3⁄8", BW_UNIT_INCH, 34.925);
  assert_length ("1/16", BW_UNIT_INCH, 1.5875);
}

static void
a_bare_number_is_in_the_users_unit (void **state)
{
  assert_length ("2", BW_UNIT_MM, 2);
  assert_length ("2", BW_UNIT_INCH, 50.8);
}

static void
anything_else_is_refused_and_leaves_the_value_alone (void **state)
{
  static const char *const texts[]
      = { "",      " ",      "mm",      ".",        ",",     "-",      "--1",      "1+1",
          "2*3",   "1e3",    "1.2.3",   "1,234.5",  "1 2",   "1 2 mm", "3/0",      "3/",
          "/8",    "1/2/3",  "1.5 1/2", "0x10",     "nan",   "inf",    "9 ft",     "9 m",
          "9 mmm", "9 mm x", "½½",      "13/8 1/2", "1-3/8", "９.５",  "9.5 mm 2", "(9)" };

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    assert_refused (texts[i]);
}

static void
a_length_too_long_for_a_number_is_refused (void **state)
{
  g_autofree char *nines = g_strnfill (400, '9');
  g_autofree char *inches = g_strconcat (nines, "/1 in", NULL);

  assert_refused (nines);
  assert_refused (inches);
}

static void
assert_written (double mm, BwUnit unit, int decimals, const char *text)
{
  g_autofree char *found = bw_length_format (mm, unit, decimals);

  assert_string_equal (found, text);
}

static void
lengths_are_written_without_idle_zeros (void **state)
{
  assert_written (9.5, BW_UNIT_MM, 2, "9.5 mm");
  assert_written (9.0, BW_UNIT_MM, 2, "9 mm");
  assert_written (9.996, BW_UNIT_MM, 2, "10 mm");
  assert_written (100, BW_UNIT_MM, 0, "100 mm");
  assert_written (-0.001, BW_UNIT_MM, 2, "0 mm");
  assert_written (-0.4, BW_UNIT_MM, 1, "−0.4 mm");
  assert_written (9.5, BW_UNIT_INCH, 2, "0.374 in");
  assert_written (25.4, BW_UNIT_INCH, 2, "1 in");
}

static void
what_is_written_is_read_back (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (254);

  for (int i = 0; i < 2000; i++) {
    double mm = g_rand_double_range (rand, -500, 500), back = 0;
    BwUnit unit = i % 2 ? BW_UNIT_INCH : BW_UNIT_MM;
    g_autofree char *text = bw_length_format (mm, unit, 3);

    assert_true (bw_length_parse (text, unit, &back, NULL));
    assert_true (fabs (back - mm) <= (unit == BW_UNIT_INCH ? 0.00005 * 25.4 : 0.0005) + 1e-12);
  }
}

/* One value is one number wherever it is shown, typed or reckoned. */
static void
a_half_is_rounded_up_however_it_was_reckoned (void **state)
{
  static const struct {
    double mm;
    const char *written;
  } halves[] = {
    { 83.25, "83.3 mm" }, { 0.35, "0.4 mm" }, { 24.65, "24.7 mm" }, { -0.25, "\u22120.3 mm" }
  };
  for (gsize i = 0; i < G_N_ELEMENTS (halves); i++)
    for (int off = -3; off <= 3; off++)
      assert_written (halves[i].mm * (1 + off * 1e-12), BW_UNIT_MM, 1, halves[i].written);
  assert_written (83.2499, BW_UNIT_MM, 1, "83.2 mm");
}

static void
lengths_follow_the_users_decimal_sign (void **state)
{
  use_decimal_comma ();
  assert_written (9.5, BW_UNIT_MM, 2, "9,5 mm");
  assert_written (12.7, BW_UNIT_INCH, 2, "0,5 in");
  assert_written (3, BW_UNIT_MM, 2, "3 mm");
  assert_length ("9,5", BW_UNIT_MM, 9.5);
  assert_length ("9.5", BW_UNIT_MM, 9.5);
  setlocale (LC_ALL, "C");
}

static void
a_number_stays_on_a_line_with_its_unit (void **state)
{
  static const char *const pairs[][2] = {
    { "18.2 mm wide, 92 mm long.", "18.2\u00a0mm wide, 92\u00a0mm long." },
    { "about 33 % now", "about 33\u00a0% now" },
    { "2 h 5 min", "2\u00a0h 5\u00a0min" },
    { "2.65 g/cm³, 62.0 g", "2.65\u00a0g/cm³, 62.0\u00a0g" },
    { "0.374 in", "0.374\u00a0in" },
    { "112 in all, 0.5 in wide", "112 in all, 0.5\u00a0in wide" },
    { "114 rows, 57 around", "114 rows, 57 around" },
    { "row 3 must go", "row 3 must go" },
    { "a mm", "a mm" },
    { "row L − 1 (119), F + 12", "row L\u00a0−\u00a01 (119), F\u00a0+\u00a012" },
    { "+ 3 and −2", "+ 3 and −2" },
    { "", "" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (pairs); i++) {
    g_autofree char *kept = bw_units_kept (pairs[i][0]);
    g_autofree char *again = bw_units_kept (kept);
    assert_string_equal (kept, pairs[i][1]);
    assert_string_equal (again, kept);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (an_inch_length_is_written_as_short_as_it_is),
    cmocka_unit_test (millimetres_are_read_as_people_write_them),
    cmocka_unit_test (inches_and_their_fractions_are_read),
    cmocka_unit_test (a_bare_number_is_in_the_users_unit),
    cmocka_unit_test (anything_else_is_refused_and_leaves_the_value_alone),
    cmocka_unit_test (a_length_too_long_for_a_number_is_refused),
    cmocka_unit_test (lengths_are_written_without_idle_zeros),
    cmocka_unit_test (what_is_written_is_read_back),
    cmocka_unit_test (a_half_is_rounded_up_however_it_was_reckoned),
    cmocka_unit_test (a_number_stays_on_a_line_with_its_unit),
    cmocka_unit_test (lengths_follow_the_users_decimal_sign),
  };

  return cmocka_run_group_tests_name ("length", tests, NULL, NULL);
}
