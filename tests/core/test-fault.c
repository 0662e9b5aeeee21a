/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Faults as values: which key, which of its values, what kind of wrong, and the numbers. */
#include "stones.h"

#include <string.h>

static void
a_fault_holds_what_it_was_told_and_is_always_false (void **state)
{
  BwFault fault = NO_FAULT;
  assert_false (bw_fault_is (&fault, BW_FAULTY_NO_GLASS, BW_AT_BEAD_HOLE, 0.8, 0.7, 0));
  assert_near (fault.number[0], 0.8, 0);
  assert_near (fault.number[1], 0.7, 0);
  assert_near (fault.number[2], 0, 0);
  assert_fault (&fault, BW_FAULTY_NO_GLASS, BW_AT_BEAD_HOLE);
  assert_false (bw_fault_of (&fault, BW_FAULTY_FACE_VANISHES, BW_AT_STONE_VALUES, 2, 5, -1, 0));
  assert_fault_of (&fault, BW_FAULTY_FACE_VANISHES, BW_AT_STONE_VALUES, 2);
}

static void
nobody_need_listen_to_a_fault (void **state)
{
  assert_false (bw_fault_is (NULL, BW_FAULTY_TAPERS_AWAY, BW_AT_STONE_SECOND_GIRTH, 0, 0, 0));
  assert_false (bw_check_range (2, 0, 1, BW_AT_FIT_SLACK, NULL));
}

static void
a_range_holds_both_its_ends (void **state)
{
  BwFault fault = NO_FAULT;
  assert_true (bw_check_range (-1, -1, 4, BW_AT_FIT_SLACK, &fault));
  assert_true (bw_check_range (4, -1, 4, BW_AT_FIT_SLACK, &fault));
  assert_int_equal (fault.kind, BW_N_FAULT_KINDS);
}

static void
a_range_refuses_what_is_outside_or_no_number (void **state)
{
  const double refused[]
      = { -1.0001, 4.0001, 1e308, -1e308, (double)NAN, (double)INFINITY, -(double)INFINITY };
  for (gsize i = 0; i < G_N_ELEMENTS (refused); i++) {
    BwFault fault = NO_FAULT;
    assert_false (bw_check_range (refused[i], -1, 4, BW_AT_FIT_SLACK, &fault));
    assert_memory_equal (&fault.number[0], &refused[i], sizeof refused[i]);
    assert_near (fault.number[1], -1, 0);
    assert_near (fault.number[2], 4, 0);
    assert_fault (&fault, BW_FAULTY_RANGE, BW_AT_FIT_SLACK);
  }
}

static void
a_range_of_one_value_of_a_list_tells_which (void **state)
{
  BwFault fault = NO_FAULT;
  assert_true (bw_check_range_of (1, 0, 1, BW_AT_STONE_VALUES, 3, &fault));
  assert_false (bw_check_range_of (2, 0, 1, BW_AT_STONE_VALUES, 3, &fault));
  assert_fault_of (&fault, BW_FAULTY_RANGE, BW_AT_STONE_VALUES, 3);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_fault_holds_what_it_was_told_and_is_always_false),
    cmocka_unit_test (nobody_need_listen_to_a_fault),
    cmocka_unit_test (a_range_holds_both_its_ends),
    cmocka_unit_test (a_range_refuses_what_is_outside_or_no_number),
    cmocka_unit_test (a_range_of_one_value_of_a_list_tells_which),
  };
  return cmocka_run_group_tests_name ("fault", tests, NULL, NULL);
}
