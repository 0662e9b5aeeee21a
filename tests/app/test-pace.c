/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long a row takes. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "app/bench/pace.h"

#include <math.h>

#define SECOND ((gint64)G_USEC_PER_SEC)

static void
assert_seconds (const BwPace *pace, double expected)
{
  assert_true (fabs (bw_pace_row_seconds (pace, 0) - expected) < 1e-9);
}

static void
before_the_first_row_the_project_says_how_fast (void **state)
{
  BwPace pace = { .n = 0 };
  assert_true (fabs (bw_pace_row_seconds (&pace, 40) - 90) < 1e-9);
  assert_seconds (&pace, 0);
}

static void
earlier_sittings_tell_until_three_rows_are_woven (void **state)
{
  BwPace pace = { .known_s = 75 };
  gint64 now = SECOND;
  bw_pace_begin (&pace, now);
  for (int rows = 0; rows < BW_PACE_TELLS; rows++) {
    assert_true (fabs (bw_pace_row_seconds (&pace, 40) - 75) < 1e-9);
    bw_pace_done (&pace, now += 50 * SECOND, 1);
  }
  assert_seconds (&pace, 50);
}

/* One row, and the first at that, says nothing of the next ninety. */
static void
two_rows_tell_no_pace (void **state)
{
  BwPace pace = { .n = 0 };
  bw_pace_begin (&pace, SECOND);
  bw_pace_done (&pace, 6 * SECOND, 1);
  assert_seconds (&pace, 0);
  bw_pace_done (&pace, 11 * SECOND, 1);
  assert_seconds (&pace, 0);
  assert_true (fabs (bw_pace_row_seconds (&pace, 40) - 90) < 1e-9);
}

static void
one_slow_row_does_not_put_off_the_finish (void **state)
{
  BwPace pace = { .n = 0 };
  gint64 now = 100 * SECOND;
  static const int rows[] = { 60, 62, 600, 58, 61 };
  bw_pace_begin (&pace, now);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    bw_pace_done (&pace, now += rows[i] * SECOND, 1);
  assert_seconds (&pace, 61);
}

static void
a_pause_is_no_row (void **state)
{
  BwPace pace = { .n = 0 };
  gint64 now = 100 * SECOND;
  bw_pace_begin (&pace, now);
  bw_pace_done (&pace, now += 50 * SECOND, 1);
  bw_pace_done (&pace, now += 8 * 3600 * SECOND, 1);
  bw_pace_done (&pace, now += 70 * SECOND, 1);
  bw_pace_done (&pace, now += 60 * SECOND, 1);
  assert_int_equal (pace.n, 3);
  assert_seconds (&pace, 60);
}

/* Keys struck one after the other look at rows, they do not weave them. */
static void
leafing_through_is_no_row (void **state)
{
  BwPace pace = { .n = 0 };
  gint64 now = 100 * SECOND;
  bw_pace_begin (&pace, now);
  bw_pace_done (&pace, now += 4 * SECOND, 1);
  bw_pace_done (&pace, now += 9 * SECOND, 2);
  assert_int_equal (pace.n, 0);
  assert_seconds (&pace, 0);
  for (int rows = 0; rows < BW_PACE_TELLS; rows++)
    bw_pace_done (&pace, now += 5 * SECOND, 1);
  assert_seconds (&pace, 5);
}

static void
the_pick_up_counts_as_two_rows (void **state)
{
  BwPace pace = { .n = 0 };
  gint64 now = SECOND;
  bw_pace_begin (&pace, now);
  for (int times = 0; times < BW_PACE_TELLS; times++)
    bw_pace_done (&pace, now += 100 * SECOND, 2);
  assert_seconds (&pace, 50);
}

static void
old_rows_are_forgotten (void **state)
{
  BwPace pace = { .n = 0 };
  gint64 now = SECOND;
  bw_pace_begin (&pace, now);
  for (int i = 0; i < 40; i++)
    bw_pace_done (&pace, now += (i < 28 ? 200 : 20) * SECOND, 1);
  assert_int_equal (pace.n, BW_PACE_MOST);
  assert_seconds (&pace, 20);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (before_the_first_row_the_project_says_how_fast),
    cmocka_unit_test (earlier_sittings_tell_until_three_rows_are_woven),
    cmocka_unit_test (two_rows_tell_no_pace),
    cmocka_unit_test (one_slow_row_does_not_put_off_the_finish),
    cmocka_unit_test (a_pause_is_no_row),
    cmocka_unit_test (leafing_through_is_no_row),
    cmocka_unit_test (the_pick_up_counts_as_two_rows),
    cmocka_unit_test (old_rows_are_forgotten),
  };
  return cmocka_run_group_tests_name ("pace", tests, NULL, NULL);
}
