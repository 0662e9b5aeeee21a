/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How many threads a hole takes, against the published packings of equal circles in a circle.
 *
 * R. L. Graham, B. D. Lubachevsky, K. J. Nurmela, P. R. J. Östergård, "Dense packings of congruent
 * circles in a circle", Discrete Mathematics 181, 1998, 139–154, with E. Specht's table "cci" of
 * the best known packings: the least ratio of the hole's diameter to the thread's for n threads.
 * Proved least for n up to 14 and for 19; 15 to 18 and 20 are the best known. */
#include "stones.h"

#include "core/path/path.h"

#define TABLE_MAX 20

static const double least_ratio[TABLE_MAX + 1] = {
  0,
  1,
  2,
  2.1547005384,
  2.4142135624,
  2.7013016167,
  3,
  3,
  3.3047648710,
  3.6131259298,
  3.8130256314,
  3.9238044002,
  4.0296019301,
  4.2360679775,
  4.3284285549,
  4.5213569647,
  4.6154255949,
  4.7920337483,
  4.8637033052,
  4.8637033052,
  5.1223207370,
};

/* The table itself, where a closed form is known. */
static void
the_table_has_its_closed_forms (void **state)
{
  assert_near (least_ratio[3], 1 + 2 / sqrt (3), 1e-10);
  assert_near (least_ratio[4], 1 + sqrt (2), 1e-10);
  assert_near (least_ratio[5], 1 + sqrt (2 * (1 + 1 / sqrt (5))), 1e-10);
  assert_near (least_ratio[8], 1 + 1 / sin (G_PI / 7), 1e-10);
  assert_near (least_ratio[9], 1 + sqrt (2 * (2 + sqrt (2))), 1e-10);
  assert_near (least_ratio[11], 1 + 1 / sin (G_PI / 9), 1e-10);
  assert_near (least_ratio[13], 2 + sqrt (5), 1e-10);
  assert_near (least_ratio[15], 1 + sqrt (6 + 2 / sqrt (5) + 4 * sqrt (1 + 2 / sqrt (5))), 1e-10);
  assert_near (least_ratio[19], 1 + sqrt (2) + sqrt (6), 1e-10);
}

/* Threads that lie in a hole after the last pass that still goes; 0 when not even the first does.
 */
static int
threads_at_most (double hole, double thread, double needle)
{
  BwDesign design = bench_design ();
  design.bead.hole_mm = hole;
  design.thread.diameter_mm = thread;
  design.thread.needle_mm = needle;
  int passes = 0;
  while (!bw_path_is_full (&design, passes))
    passes++;
  return passes;
}

/* Every hole of the trade with every thread and every needle (#10 of 0.46 mm is published, #11 to
 * #15 of 0.41 to 0.28 mm are common practice, no source), as long as the needle is half as thick
 * again as the thread: beyond that no one could thread it. A needle and its threads are no equal
 * circles, so the table bounds only the threads that stay. */
static void
no_hole_is_given_more_threads_than_can_lie_in_it (void **state)
{
  static const double needles[] = { 0.46, 0.41, 0.36, 0.33, 0.28 };
  static const double threads[] = { 0.10, 0.12, 0.15, 0.17, 0.20, 0.25, 0.30 };
  int tried = 0;
  for (gsize i = 0; i < G_N_ELEMENTS (needles); i++)
    for (gsize j = 0; j < G_N_ELEMENTS (threads); j++)
      for (int hole = 40; hole <= 150; hole++) {
        if (needles[i] < 1.5 * threads[j])
          continue;
        double ratio = hole / 100.0 / threads[j];
        int n = threads_at_most (hole / 100.0, threads[j], needles[i]);
        if (n == 0 || n > TABLE_MAX)
          continue;
        tried++;
        if (ratio < least_ratio[n])
          fail_msg ("%d threads of %g mm and a needle of %g mm in a hole of %g mm", n, threads[j],
                    needles[i], hole / 100.0);
      }
  assert_true (tried > 500);
}

/* An 11/0 with the usual thread and needle: (0.7 · 0.8² − 0.36²)/0.15² = 14.2, so the fifteenth
 * pass is the last. The table would let 20 threads lie there without a needle between them. */
static void
an_eleven_takes_fifteen_passes_where_twenty_threads_could_lie (void **state)
{
  assert_int_equal (threads_at_most (0.8, 0.15, 0.36), 15);
  assert_true (0.8 / 0.15 > least_ratio[20]);
}

static void
a_full_hole_stays_full (void **state)
{
  BwDesign design = bench_design ();
  for (int passes = threads_at_most (0.8, 0.15, 0.36); passes < 200; passes++)
    assert_true (bw_path_is_full (&design, passes));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_table_has_its_closed_forms),
    cmocka_unit_test (no_hole_is_given_more_threads_than_can_lie_in_it),
    cmocka_unit_test (an_eleven_takes_fifteen_passes_where_twenty_threads_could_lie),
    cmocka_unit_test (a_full_hole_stays_full),
  };
  return cmocka_run_group_tests_name ("packing", tests, NULL, NULL);
}
