/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Faults: a place and a sentence, together and apart. */
#include "stones.h"

#include <string.h>

static void
a_fault_says_the_place_and_then_the_sentence (void **state)
{
  g_autoptr (GError) error = NULL;
  bw_fault_set (&error, BW_FAULT_RANGE, "/stone/values_mm/2", "%d is too many: at most %d.", 7, 3);
  assert_true (g_error_matches (error, BW_FAULT, BW_FAULT_RANGE));
  assert_string_equal (error->message, "/stone/values_mm/2: 7 is too many: at most 3.");
}

static void
place_and_sentence_come_apart_again (void **state)
{
  g_autoptr (GError) error = NULL;
  bw_fault_set (&error, BW_FAULT_TYPE, "/bead/hole_mm", "A colon: it stays.");
  g_autofree char *pointer = bw_fault_dup_pointer (error);
  assert_string_equal (pointer, "/bead/hole_mm");
  assert_string_equal (bw_fault_sentence (error), "A colon: it stays.");
}

static void
a_fault_of_the_whole_document_has_no_place (void **state)
{
  g_autoptr (GError) error = NULL;
  bw_fault_set (&error, BW_FAULT_SYNTAX, "", "Not JSON: a brace is missing.");
  assert_null (bw_fault_dup_pointer (error));
  assert_string_equal (bw_fault_sentence (error), "Not JSON: a brace is missing.");
}

static void
an_error_from_elsewhere_is_all_sentence (void **state)
{
  g_autoptr (GError) error
      = g_error_new_literal (G_FILE_ERROR, G_FILE_ERROR_NOENT, "/tmp/a: no such file");
  assert_null (bw_fault_dup_pointer (error));
  assert_string_equal (bw_fault_sentence (error), "/tmp/a: no such file");
}

static void
nobody_need_listen_to_a_fault (void **state)
{
  bw_fault_set (NULL, BW_FAULT_RANGE, "/a", "unheard");
  assert_false (bw_fault_check_range (2, 0, 1, "/a", NULL));
}

static void
a_range_holds_both_its_ends (void **state)
{
  g_autoptr (GError) error = NULL;
  assert_true (bw_fault_check_range (-1, -1, 4, "/a", &error));
  assert_true (bw_fault_check_range (4, -1, 4, "/a", &error));
  assert_null (error);
}

static void
a_range_refuses_what_is_outside_or_no_number (void **state)
{
  const double refused[]
      = { -1.0001, 4.0001, 1e308, -1e308, (double)NAN, (double)INFINITY, -(double)INFINITY };
  for (gsize i = 0; i < G_N_ELEMENTS (refused); i++) {
    g_autoptr (GError) error = NULL;
    assert_false (bw_fault_check_range (refused[i], -1, 4, "/fit/slack_mm", &error));
    assert_fault (&error, BW_FAULT_RANGE, "/fit/slack_mm");
  }
}

static void
a_range_fault_tells_what_was_found_and_what_is_allowed (void **state)
{
  g_autoptr (GError) error = NULL;
  assert_false (bw_fault_check_range (7.25, 0.5, 4, "/a", &error));
  assert_non_null (strstr (error->message, "7.25"));
  assert_non_null (strstr (error->message, "0.5"));
  assert_non_null (strstr (error->message, "4"));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_fault_says_the_place_and_then_the_sentence),
    cmocka_unit_test (place_and_sentence_come_apart_again),
    cmocka_unit_test (a_fault_of_the_whole_document_has_no_place),
    cmocka_unit_test (an_error_from_elsewhere_is_all_sentence),
    cmocka_unit_test (nobody_need_listen_to_a_fault),
    cmocka_unit_test (a_range_holds_both_its_ends),
    cmocka_unit_test (a_range_refuses_what_is_outside_or_no_number),
    cmocka_unit_test (a_range_fault_tells_what_was_found_and_what_is_allowed),
  };
  return cmocka_run_group_tests_name ("fault", tests, NULL, NULL);
}
