/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How quickly a piece is woven on the screen. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "app/window/play-clock.h"

static void
a_run_goes_evenly_from_where_it_began_to_the_end (void **state)
{
  BwPlayRun run = { 40, 7 };
  assert_int_equal (bw_play_run_at (run, 0, 100), 40);
  assert_int_equal (bw_play_run_at (run, 0.99 / 7, 100), 40);
  assert_int_equal (bw_play_run_at (run, 1.01 / 7, 100), 41);
  assert_int_equal (bw_play_run_at (run, 2, 100), 54);
  assert_int_equal (bw_play_run_at (run, 60.0 / 7 + 0.01, 100), 100);
  assert_int_equal (bw_play_run_at (run, 1e12, 100), 100);
  assert_int_equal (bw_play_run_at (run, -5, 100), 40);
}

static void
each_speed_is_what_it_is_called (void **state)
{
  BwPlaySpeed speed;
  assert_true (bw_play_speed_parse ("beads", &speed));
  assert_true (bw_play_per_second (speed, 14, 3000) == 3);
  assert_true (bw_play_speed_parse ("rows", &speed));
  assert_true (bw_play_per_second (speed, 14, 3000) == 14 / 2.0);
  assert_true (bw_play_speed_parse ("brisk", &speed));
  assert_true (bw_play_per_second (speed, 14, 3000) == 2 * 14);
  assert_true (bw_play_speed_parse ("whole", &speed));
  BwPlayRun run = { 0, bw_play_per_second (speed, 14, 3000) };
  assert_int_equal (bw_play_run_at (run, 10, 3000), 1500);
  assert_int_equal (bw_play_run_at (run, 20.001, 3000), 3000);
  assert_false (bw_play_speed_parse ("slow", &speed));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_run_goes_evenly_from_where_it_began_to_the_end),
    cmocka_unit_test (each_speed_is_what_it_is_called),
  };
  return cmocka_run_group_tests_name ("play-clock", tests, NULL, NULL);
}
