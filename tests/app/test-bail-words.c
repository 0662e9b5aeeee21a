/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the bail's card says of the loop. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "app/hang/hang-cards.h"

static void
expect (char *words, const char *wanted)
{
  assert_string_equal (words, wanted);
  g_free (words);
}

static void
the_opening_is_said_with_what_passes (void **state)
{
  BwLoop loop = { .opening_mm = 5.3, .largest_cord_mm = 3.3 };
  expect (bw_bail_words_opening (&loop, BW_UNIT_MM),
          "Opening 5.3 mm: a cord up to 3.3 mm passes, end fittings up to 5.3 mm.");
  loop.largest_cord_mm = -0.2;
  expect (bw_bail_words_opening (&loop, BW_UNIT_MM),
          "Opening 5.3 mm: no cord passes with that clearance.");
  loop.opening_mm = -0.1;
  expect (bw_bail_words_opening (&loop, BW_UNIT_MM),
          "The loop lies too flat: nothing passes through it.");
}

static void
the_cord_is_said_to_pass_or_by_how_much_it_does_not (void **state)
{
  BwLoop loop = { .opening_mm = 5.3, .largest_cord_mm = 3.3 };
  expect (bw_bail_words_cord (&loop, 3, BW_UNIT_MM),
          "The cord of 3 mm passes with 0.3 mm to spare.");
  expect (bw_bail_words_cord (&loop, 4.5, BW_UNIT_MM),
          "The cord of 4.5 mm does not pass: 1.2 mm too thick.");
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_opening_is_said_with_what_passes),
    cmocka_unit_test (the_cord_is_said_to_pass_or_by_how_much_it_does_not),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
